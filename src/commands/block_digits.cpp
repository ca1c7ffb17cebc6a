#include "commands/block_digits.h"

#include <array>

#include "commands/screen.h"

namespace nonrunner::commands {

namespace {

constexpr std::size_t lines_high = 5;
constexpr std::string_view signs = "0123456789,.-";
constexpr std::array<std::array<std::string_view, lines_high>, 13> pictures = {{
    {" ### ", "#   #", "#   #", "#   #", " ### "},
    {"  #  ", " ##  ", "  #  ", "  #  ", " ### "},
    {" ### ", "#   #", "  ## ", " #   ", "#####"},
    {"#### ", "    #", " ### ", "    #", "#### "},
    {"#  # ", "#  # ", "#####", "   # ", "   # "},
    {"#####", "#    ", "#### ", "    #", "#### "},
    {" ### ", "#    ", "#### ", "#   #", " ### "},
    {"#####", "   # ", "  #  ", " #   ", " #   "},
    {" ### ", "#   #", " ### ", "#   #", " ### "},
    {" ### ", "#   #", " ####", "    #", " ### "},
    {"  ", "  ", "  ", " #", "# "},
    {" ", " ", " ", " ", "#"},
    {"    ", "    ", "####", "    ", "    "},
}};

}  // namespace

std::string block_digits(std::string_view number, std::size_t indent) {
  std::size_t drawn = indent;
  for (const char sign : number)
    if (const std::size_t at = signs.find(sign); at != std::string_view::npos)
      drawn += pictures[at][0].size() + 2;
  if (drawn > screen_columns() + 2) return std::string(indent, ' ') + std::string(number) + "\n";
  std::string text;
  for (std::size_t line = 0; line < lines_high; ++line) {
    std::string row(indent, ' ');
    for (const char sign : number) {
      const std::size_t at = signs.find(sign);
      if (at != std::string_view::npos) row += std::string(pictures[at][line]) + "  ";
    }
    row.erase(row.find_last_not_of(' ') + 1);
    text += row + "\n";
  }
  return text;
}

}  // namespace nonrunner::commands
