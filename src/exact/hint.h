// What would put an error right, apart from its message: an action and what it takes, said by each front end
// in its own way (a command to type, a form to open). So a message of the rooms below the front ends names no
// command and no option, and stands as a sentence by itself.
//
//   throw hinted<Refusal>("sell: pip is considered, expected a car that was bought",
//                         {Action::buy, {{"tag", "pip"}}});
#pragma once
#include <map>
#include <string>
#include <utility>

#include "exact/ends.h"

namespace nonrunner {

// Each front end has one row for each (commands/hints.cpp), and the compiler sees a missing one.
enum class Action {
  add_comparables,
  allow_again,          // that this paper is another one
  allow_again_in_file,  // the same, as a key
  allow_new_name,       // that the name is a new one
  buy,                  // tag
  count_stock,          // item; boxed, where the piece that is there may be a box of many
  give_clock_hours,     // how long it really ran; since, and now where that lies before: moments in UTC
  give_courses_or_keep_appraisal,
  go_on,  // tag, cause
  keep_appraisal,
  list_comparable_columns,
  list_comparables,
  list_entries,  // tag, where it is about one car
  list_lines,    // receipt lines, of a car
  list_receipt_columns,
  list_stock,
  list_vehicles,
  look_at_entries,
  look_at_health,
  look_back,  // ask for an earlier day
  look_back_or_give_courses,
  mend,  // place
  name_another_book,
  name_cause,        // tag, cause: say it, or note it
  name_supplier,     // or say that there was no paper
  no_more_comes,     // of a deposit
  owe_instead,       // pay the supplier later
  pass,              // tag
  replace_or_again,  // entry: in a file, that this paper takes the place of that quick line, or is another one
  restore,
  say_something_else,  // that the cause is none of the appraisal
  show_budget,         // tag
  show,                // tag
  start_book,          // place, where one is known
  start_clock,
  stop_clock,  // since, where it is known: a moment in UTC
  take_back,   // entry; the message ends in the middle, for what to do to follow it
  tray,
  use_book,
  void_entry,  // entry
  write_off,   // tag
};

struct Hint {
  Action action;
  std::map<std::string, std::string> with;  // "tag" -> "pip"
};

// Beside a Refusal, a WrongUsage or a MachineFailure.
class Hinted {
 public:
  explicit Hinted(Hint hint) : hint_(std::move(hint)) {}
  virtual ~Hinted() = default;
  const Hint& hint() const { return hint_; }

 private:
  Hint hint_;
};

template <class End>
class HintedEnd : public End, public Hinted {
 public:
  HintedEnd(const std::string& message, Hint hint) : End(message), Hinted(std::move(hint)) {}
};

template <class End>
HintedEnd<End> hinted(const std::string& message, Hint hint) {
  return {message, std::move(hint)};
}

// The same refusal with another message, such as one that says in which file it was met; its hint stays.
[[noreturn]] inline void refuse_as(const std::string& message, const Refusal& refusal) {
  if (const auto* more = dynamic_cast<const Hinted*>(&refusal)) throw hinted<Refusal>(message, more->hint());
  throw Refusal(message);
}

}  // namespace nonrunner
