// How wide the screen is on which a command prints, in columns: 40 to 200; 80 where nothing says it.
//
// What is laid out in lines is made in many small functions, from figures to text, and none of them has anything
// else to do with the terminal. So this one figure is known for the time in which a command runs, by the thread that
// runs it, and not handed through all of them. It changes how words are broken and nothing else.
#pragma once
#include <cstddef>
#include <string>

namespace nonrunner::commands {

constexpr std::size_t narrowest = 40, usual_columns = 80, widest = 200;

std::size_t screen_columns();
// Prose is hard to read in longer lines than this, whatever the screen.
std::size_t prose_columns();

class Screen {  // while it lives
 public:
  explicit Screen(std::size_t columns);  // 0: nothing says it
  ~Screen();
  Screen(const Screen&) = delete;
  Screen& operator=(const Screen&) = delete;

 private:
  std::size_t before_;
};

// What COLUMNS says, else `of_terminal`; 0 where neither does. What is outside 40 to 200 becomes the nearest of them.
std::size_t columns_said(const std::string& environment, std::size_t of_terminal);

}  // namespace nonrunner::commands
