// An event read from a command line by its own fields (book/events/fields.h): those that the command names stand as
// words, in that order; the others are options of the same name. So a key that is new to an event is an option of its
// command at once.
#pragma once
#include <initializer_list>
#include <string>
#include <vector>

#include "book/events/fields.h"
#include "commands/desk.h"

namespace nonrunner::commands {

class FromWords final : public book::Fields {
 public:
  // `event` is how the book calls it, `words` the keys that stand as words; a word that is no key is left to the
  // command.
  FromWords(const Given& given, Terminal& terminal, const book::Book& book, std::string event,
            std::vector<std::string> words);
  void day(const book::Field&, Day&) override;
  void day(const book::Field&, std::optional<Day>&) override;
  void text(const book::Field&, book::Text, std::string&) override;
  void money(const book::Field&, Money&) override;
  void money(const book::Field&, std::optional<Money>&) override;
  void price(const book::Field&, Price&) override;
  void price(const book::Field&, std::optional<Price>&) override;
  void quantity(const book::Field&, Quantity&, Quantity absent) override;
  void hours(const book::Field&, Hours&) override;
  void distance(const book::Field&, Distance&) override;
  void flag(const book::Field&, bool&, bool absent) override;
  void entry(const book::Field&, book::EntryId&) override;
  // What has a shape of its own (shares, purses, rows) is for the command to read.
  void shares(const book::Field&, const book::Field&, std::vector<book::Share>&,
              const std::string&) override {}
  void purses(const book::Field&, std::vector<std::pair<std::string, Money>>&, std::string&) override {}
  void other(const book::Field&, book::Holds, const char*,
             const std::function<void(const Table&, const Currency&)>&,
             const std::function<void(book::EventText&)>&) override {}

 protected:
  void each_row(const book::Field&, const std::string&, const std::function<std::string(std::size_t)>&,
                std::size_t, const std::function<void(std::size_t, book::Fields&)>&) override {}

 private:
  // What was typed for the field, as a word or an option.
  std::optional<std::string> typed(const book::Field&) const;
  template <class Value, class Read>
  void take(const book::Field&, Value&, Read read) const;

  const Given& given_;
  Terminal& terminal_;
  const book::Book& book_;
  std::string event_;
  std::vector<std::string> words_;
};

// The options that an event has beside its words, in the order of its fields.
std::vector<Option> options_of(const std::vector<book::Described>&, std::initializer_list<const char*> words);

// Those, options of the command's own before them, and --new.
std::vector<Option> with_new(std::vector<Option> of_event, std::vector<Option> own = {});

template <class E>
std::vector<Option> options_of(std::initializer_list<const char*> words, E event = {}) {
  return options_of(book::described(event), words);
}

template <class E>
E typed_event(const Given& given, Terminal& terminal, const book::Book& book, const std::string& name,
              std::initializer_list<const char*> words, E event = {}) {
  FromWords from(given, terminal, book, name, std::vector<std::string>(words.begin(), words.end()));
  fields(event, from);
  return event;
}

}  // namespace nonrunner::commands
