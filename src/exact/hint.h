// What would put an error right, apart from its message: an action and what it takes, said by each front end
// in its own way (a command to type, a form to open). So a message of the rooms below the front ends names no
// command and no option, and stands as a sentence by itself.
//
//   throw hinted<Refusal>("sell: pip is considered, expected a car that was bought", {Action::buy, {{"tag",
//   "pip"}}});
#pragma once
#include <map>
#include <string>
#include <utility>

#include "exact/ends.h"

namespace nonrunner {

// Each front end has one row for each (commands/hints.cpp), and the compiler sees a missing one.
enum class Action {
  give_courses_or_keep_appraisal,
  go_on,  // tag, cause
  keep_appraisal,
  look_back,  // ask for an earlier day
  look_back_or_give_courses,
  name_another_book,
  name_cause,  // tag, cause: give it, or note it
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
