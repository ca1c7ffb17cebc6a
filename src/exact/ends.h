// The ways in which a command can end other than well, told apart by type so that the caller, the exit status
// and a script act on the kind and a person reads the text. Every text is one line, lower case, without a
// full stop:
//   where: what was found, what was expected; what to do
#pragma once
#include <stdexcept>
#include <string>

namespace nonrunner {

// The answer is no: a rule of the book broken, a file invalid, a check failed. Nothing was written. Exit
// status 1.
class Refusal : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

// The command was called in a way it does not know. Nothing was done. Exit status 2.
class WrongUsage : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

// The machine failed: disk full, no permission, a file damaged or locked. Nothing of the command is kept.
// Exit status 3.
class MachineFailure : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

// The fourth end is our own mistake: any other exception. main() says so, keeps the book, and ends with
// status 3.

}  // namespace nonrunner
