// Pictures as SVG, drawn here. Each says what it shows in words (title and desc), and the same figures stand in
// a table under it; nothing rests on colour: a loss is hollow, a gain filled. Amounts are texts that somebody
// else made; the numbers here only say where a line is drawn.
#pragma once
#include <string>
#include <vector>

#include "page/html.h"

namespace nonrunner::page {

// How something is spread: columns side by side, the tallest 1.
struct Column {
  double height = 0;
  bool is_loss = false;
};
Html columns_picture(const std::string& title, const std::string& finding, const std::vector<Column>&,
                     const std::string& left, const std::string& right);

// From one sum to another by what is added and taken off: each bar begins where the one before ended; a total
// begins at nothing.
struct Bar {
  std::string name, amount;
  double value = 0;  // below 0: taken off
  bool is_total = false;
};
Html steps_picture(const std::string& title, const std::string& finding, const std::vector<Bar>&);

// A sum over the days: it stays until the next point. The four texts stand at its ends.
struct Point {
  double day = 0, value = 0;
};
struct Ends {
  std::string first_day, last_day, lowest, highest;
};
Html line_picture(const std::string& title, const std::string& finding, const std::vector<Point>&,
                  const Ends&);

}  // namespace nonrunner::page
