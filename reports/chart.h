// A chart of the spreadsheet, described: what it is made from stays in cells, so that it follows when they
// change.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

struct lxw_chart;
struct lxw_workbook;

namespace nonrunner::reports {

// Told apart by lightness and by pattern as well as by hue, so that they survive grey paper and colour
// blindness.
enum class Paint { none, strong, middle, light, striped, dotted };
enum class Mark { none, small, large, crossed };

struct Series {
  std::string name;        // empty: not in the legend
  std::string categories;  // a range of cells, "Money!$A$5:$A$9"; the x values of a scatter
  std::string values;
  Paint paint = Paint::strong;
  Mark mark = Mark::none;  // of lines and scatters
  bool dashed = false;     // of lines
  bool line = true;        // of scatters: joined by a line
  bool labelled = false;   // values written beside, zeros left out
  bool label_is_name = false;
};

struct Chart {
  enum class Kind {
    bars,
    stacked_bars,
    columns,
    stacked_columns,
    lines
  } kind = Kind::bars;                   // bars lie, columns stand
  std::string title, across, up;         // the names of the x and the y axis, as seen
  std::string says;                      // what it shows, in a sentence, for who cannot see it: never empty
  std::string across_format, up_format;  // number formats of the axes; "" leaves them
  std::vector<Series> series;
  bool legend = true;
  // Of the axis across, where the values alone would not find them: where it begins and ends, and the step between its
  // marks.
  struct Ends {
    double first = 0, last = 0, step = 1;
  };
  std::optional<Ends> across_ends = {};
  std::optional<double> most = {};  // where the axis of the values ends: chances end at one
  bool from_zero = false;           // the values are none of them below zero: the axis begins there
  int gap = 60;                     // between bars, in per cent of their width
  bool over_each_other = false;     // the bars of one row, of which at most one is on each side of zero
};

// How many of `all` rows the picture draws where a page holds `most`: it says in its title how many it leaves out.
std::uint32_t drawn(Chart&, std::size_t all, std::size_t most, const std::string& which = "the first");

// Throws std::bad_alloc.
lxw_chart* made(const Chart&, lxw_workbook*);

}  // namespace nonrunner::reports
