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
  Door(std::ostream& behind, Kind kind) : behind_(behind), kind_(kind) {}
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
  std::ostream& behind_;
  Kind kind_;
  std::string held_, shown_;  // not looked at yet; looked at and not passed on yet
};

}  // namespace nonrunner::commands
