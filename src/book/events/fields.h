// An event's fields, described once. `void fields(E&, Fields&)` beside each event names its keys in the order
// in which its text keeps them; what visits them reads an events file, writes the text that the entry keeps,
// reads a command line or a form, or prints the reference. So none of these can know a key that another does
// not.
//
// A visitor that reads finds in the event what stands there where a key is absent. One that writes leaves out
// an empty text, a day that is not there, and what is `may` and says nothing (an amount of 0, a flag as it is
// anyway).
#pragma once
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "book/ledger/entry.h"
#include "book/ledger/holds.h"
#include "book/ledger/line.h"
#include "text/table.h"

namespace nonrunner::book {

enum class Need {
  must,
  may,   // may be absent; left out where it says nothing
  kept,  // may be absent; what it is then is written all the same
};

// What a text is: a form offers the names that the book knows, a command line asks the book for a purse.
enum class Text { words, tag, purse, line, item, supplier, name, operation, file, choice };

struct Field {
  const char* key;
  const char* means;  // one line, for the reference and the label of a form
  Need need = Need::must;
  const std::vector<std::string>* choices = nullptr;  // of Text::choice
};

class Fields {
 public:
  virtual ~Fields() = default;
  virtual void day(const Field&, Day&) = 0;
  virtual void day(const Field&, std::optional<Day>&) = 0;
  virtual void text(const Field&, Text, std::string&) = 0;
  virtual void money(const Field&, Money&) = 0;
  virtual void money(const Field&, std::optional<Money>&) = 0;
  virtual void price(const Field&, Price&) = 0;
  virtual void price(const Field&, std::optional<Price>&) = 0;
  virtual void quantity(const Field&, Quantity&, Quantity absent) = 0;
  virtual void hours(const Field&, Hours&) = 0;
  virtual void distance(const Field&, Distance&) = 0;
  virtual void flag(const Field&, bool&, bool absent) = 0;
  virtual void entry(const Field&, EntryId&) = 0;  // 0: none
  // One car by `one`, or several by `several` = { TAG = weight }; `own` is a word that stands for the shop
  // itself and is no car's (may be empty).
  virtual void shares(const Field& one, const Field& several, std::vector<Share>&,
                      const std::string& own) = 0;
  // What each purse paid, { purse = amount }; or the name of the one purse that paid all of it, into `all`.
  virtual void purses(const Field&, std::vector<std::pair<std::string, Money>>&, std::string& all) = 0;
  // What no other kind fits: read from the table, written into the text; `kind` is what is expected, in
  // words.
  virtual void other(const Field&, Holds, const char* kind,
                     const std::function<void(const Table&, const Currency&)>& read,
                     const std::function<void(EventText&)>& write) = 0;
  // A rule between keys, for a file that is read: what it finds wrong it refuses with its place.
  virtual void rule(const std::function<void(const Table&)>&) {}

  // A list of rows that have fields of their own. `called` is how messages call the row of a number, from 1.
  template <class Row>
  void rows(const Field& field, const std::string& of_rows, std::vector<Row>& all,
            const std::function<std::string(std::size_t)>& called) {
    each_row(field, of_rows, called, all.size(), [&all](std::size_t at, Fields& of_row) {
      if (at == all.size()) all.emplace_back();
      fields(all[at], of_row);
    });
  }

 protected:
  virtual void each_row(const Field&, const std::string& of_rows,
                        const std::function<std::string(std::size_t)>& called, std::size_t count,
                        const std::function<void(std::size_t, Fields&)>& row) = 0;
};

// One row of the reference: what stands under a key.
struct Described {
  std::string key;
  Holds holds;
  std::string kind, means;  // in words
  Need need;
  std::vector<std::string> choices;
  Text text = Text::words;
  std::vector<Described> rows;  // of a list: the fields of each
};

class Describing final : public Fields {
 public:
  const std::vector<Described>& all() const { return all_; }
  void day(const Field& f, Day&) override { add(f, Holds::day); }
  void day(const Field& f, std::optional<Day>&) override { add(f, Holds::day); }
  void text(const Field&, Text, std::string&) override;
  void money(const Field& f, Money&) override { add(f, Holds::money); }
  void money(const Field& f, std::optional<Money>&) override { add(f, Holds::money); }
  void price(const Field& f, Price&) override { add(f, Holds::price); }
  void price(const Field& f, std::optional<Price>&) override { add(f, Holds::price); }
  void quantity(const Field& f, Quantity&, Quantity) override { add(f, Holds::quantity); }
  void hours(const Field& f, Hours&) override { add(f, Holds::hours); }
  void distance(const Field& f, Distance&) override { add(f, Holds::distance); }
  void flag(const Field& f, bool&, bool) override { add(f, Holds::flag); }
  void entry(const Field& f, EntryId&) override { add(f, Holds::entry); }
  void shares(const Field&, const Field&, std::vector<Share>&, const std::string&) override;
  void purses(const Field& f, std::vector<std::pair<std::string, Money>>&, std::string&) override {
    add(f, Holds::amounts, "{ purse = amount }");
  }
  void other(const Field& f, Holds holds, const char* kind,
             const std::function<void(const Table&, const Currency&)>&,
             const std::function<void(EventText&)>&) override {
    add(f, holds, kind);
  }

 protected:
  void each_row(const Field&, const std::string&, const std::function<std::string(std::size_t)>&, std::size_t,
                const std::function<void(std::size_t, Fields&)>&) override;

 private:
  Described& add(const Field&, Holds, std::string kind = {}, Text = Text::words);
  std::vector<Described> all_;
};

// Reads an event's table; a key that no field names is refused first, with the nearest.
class Reading final : public Fields {
 public:
  // `known` is described(event), which outlives this.
  Reading(const Table& table, const Currency& currency, const std::vector<Described>& known)
      : table_(table), currency_(currency), known_(known) {}
  void day(const Field&, Day&) override;
  void day(const Field&, std::optional<Day>&) override;
  void text(const Field&, Text, std::string&) override;
  void money(const Field&, Money&) override;
  void money(const Field&, std::optional<Money>&) override;
  void price(const Field&, Price&) override;
  void price(const Field&, std::optional<Price>&) override;
  void quantity(const Field&, Quantity&, Quantity absent) override;
  void hours(const Field&, Hours&) override;
  void distance(const Field&, Distance&) override;
  void flag(const Field&, bool&, bool absent) override;
  void entry(const Field&, EntryId&) override;
  void shares(const Field&, const Field&, std::vector<Share>&, const std::string& own) override;
  void purses(const Field&, std::vector<std::pair<std::string, Money>>&, std::string& all) override;
  void other(const Field&, Holds, const char*, const std::function<void(const Table&, const Currency&)>& read,
             const std::function<void(EventText&)>&) override {
    read(table_, currency_);
  }
  void rule(const std::function<void(const Table&)>& rule) override { rule(table_); }

 protected:
  void each_row(const Field&, const std::string&, const std::function<std::string(std::size_t)>&, std::size_t,
                const std::function<void(std::size_t, Fields&)>&) override;

 private:
  bool stands(const Field& field) const { return field.need == Need::must || table_.has(field.key); }
  const Table& table_;
  const Currency& currency_;
  const std::vector<Described>& known_;
};

// Writes the text that an entry keeps; `do` and `date` stand in it already (Draft).
class Writing final : public Fields {
 public:
  Writing(EventText& text, const Currency& currency) : text_(text), currency_(currency) {}
  void day(const Field&, Day&) override {}
  void day(const Field& f, std::optional<Day>& day) override { text_.day(f.key, day); }
  void text(const Field& f, Text, std::string& text) override { text_.text(f.key, text); }
  void money(const Field&, Money&) override;
  void money(const Field&, std::optional<Money>&) override;
  void price(const Field&, Price&) override;
  void price(const Field&, std::optional<Price>&) override;
  void quantity(const Field&, Quantity&, Quantity absent) override;
  void hours(const Field&, Hours&) override;
  void distance(const Field&, Distance&) override;
  void flag(const Field&, bool&, bool absent) override;
  void entry(const Field&, EntryId&) override;
  void shares(const Field&, const Field&, std::vector<Share>&, const std::string&) override;
  void purses(const Field&, std::vector<std::pair<std::string, Money>>&, std::string&) override;
  void other(const Field&, Holds, const char*, const std::function<void(const Table&, const Currency&)>&,
             const std::function<void(EventText&)>& write) override {
    write(text_);
  }

 protected:
  void each_row(const Field&, const std::string&, const std::function<std::string(std::size_t)>&, std::size_t,
                const std::function<void(std::size_t, Fields&)>&) override;

 private:
  EventText& text_;
  const Currency& currency_;
};

// "new, salvage or reman".
std::string one_of(const std::vector<std::string>& choices);

// Refuses a key of the table that is none of these, nor "do".
void only_these(const Table&, const std::vector<Described>&);

template <class Event>
std::vector<Described> described(Event event = {}) {
  Describing describing;
  fields(event, describing);
  return describing.all();
}

// The event that stands in the table; `event` is what holds where keys are absent, `known` is described(event).
template <class Event>
Event read(const Table& table, const Currency& currency, Event event, const std::vector<Described>& known) {
  only_these(table, known);
  Reading reading(table, currency, known);
  fields(event, reading);
  return event;
}
template <class Event>
Event read(const Table& table, const Currency& currency) {
  static const std::vector<Described> known = described<Event>();
  return read(table, currency, Event{}, known);
}

// Writes the event as its entry keeps it.
template <class Event>
void write(Draft& draft, const Currency& currency, Event event) {
  Writing writing(draft.event, currency);
  fields(event, writing);
}

}  // namespace nonrunner::book
