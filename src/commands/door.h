// The one door to the terminal: whatever a file, a book or a word held, what is printed moves no cursor,
// turns no line around and hides nothing.
//
// Line ends and tabs pass. A control becomes a blank; the other characters that nobody sees (text/unicode.h)
// and bytes that are no UTF-8 become U+FFFD; in JSON they are written \uXXXX, so that nothing is lost there.
// What does not reach the stream behind it makes the stream over it bad, as if it had been written there.
#pragma once
#include <ostream>
#include <streambuf>
#include <string>

namespace nonrunner::commands {

class Door : public std::streambuf {
 public:
  enum class Kind { text, json, progress };  // progress: a return begins its line anew
  // Of text a line that is longer than `columns` goes on below, broken at a blank; 0: lines stay as they are. What is
  // laid out for the screen has no such lines; this catches those that nobody laid out.
  Door(std::ostream& behind, Kind kind, std::size_t columns = 0)
      : behind_(behind), kind_(kind), columns_(kind == Kind::text ? columns : 0) {}
  ~Door() override;
  Door(const Door&) = delete;
  Door& operator=(const Door&) = delete;

 protected:
  int_type overflow(int_type) override;
  std::streamsize xsputn(const char*, std::streamsize) override;
  int sync() override;

 private:
  void pass_all(bool to_the_end);
  void put(char32_t);
  void fold_lines(bool to_the_end);  // of what was looked at
  std::ostream& behind_;
  Kind kind_;
  std::size_t columns_;
  std::string held_, shown_;  // not looked at yet; looked at and not passed on yet
  std::string line_;          // the beginning of a line, where lines are folded
};

}  // namespace nonrunner::commands
