#include "page/picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace nonrunner::page {

namespace {

constexpr double width = 320;

std::string at(double place) { return fmt::format("{:.1f}", place); }

Html framed(double height, const std::string& title, const std::string& finding, const Html& drawn) {
  return html(
      "<figure class=\"picture\"><svg viewBox=\"0 0 {} {}\" role=\"img\"><title>{}</title><desc>{}</desc>\n{}"
      "</svg><figcaption>{}</figcaption></figure>\n",
      at(width), at(height), title, finding, drawn, finding);
}

Html box(double x, double y, double wide, double high, bool is_hollow) {
  if (is_hollow)
    return html(
        "<rect class=\"hollow\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"none\" "
        "stroke=\"currentColor\"/>\n",
        at(x + 0.5), at(y + 0.5), at(std::max(wide - 1, 0.5)), at(std::max(high - 1, 0.5)));
  return html("<rect class=\"gain\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"currentColor\"/>\n",
              at(x), at(y), at(wide), at(high));
}

Html line(double x1, double y1, double x2, double y2) {
  return html("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" stroke=\"currentColor\"/>\n", at(x1), at(y1),
              at(x2), at(y2));
}

Html label(double x, double y, const char* anchor, const std::string& text) {
  return html("<text x=\"{}\" y=\"{}\" font-size=\"14\" fill=\"currentColor\" text-anchor=\"{}\">{}</text>\n",
              at(x), at(y), anchor, text);
}

}  // namespace

Html columns_picture(const std::string& title, const std::string& finding, const std::vector<Column>& columns,
                     const std::string& left, const std::string& right) {
  constexpr double high = 90;
  const double each = width / static_cast<double>(std::max<std::size_t>(columns.size(), 1));
  Html drawn;
  bool any_loss = false;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    // What can happen at all is seen.
    const double tall = columns[i].height > 0 ? std::max(columns[i].height * high, 1.0) : 0;
    if (tall > 0)
      drawn += box(each * static_cast<double>(i) + 1, high - tall, each - 2, tall, columns[i].is_loss);
    any_loss = any_loss || columns[i].is_loss;
  }
  drawn += line(0, high, width, high);
  drawn += label(0, high + 14, "start", left) + label(width, high + 14, "end", right);
  drawn += label(width / 2, high + 14, "middle", any_loss ? "hollow: a loss" : "none is a loss");
  return framed(high + 20, title, finding, drawn);
}

Html steps_picture(const std::string& title, const std::string& finding, const std::vector<Bar>& bars) {
  constexpr double row = 40;  // its name and amount above, so that neither meets a bar
  double lowest = 0, highest = 0, sum = 0;
  for (const Bar& bar : bars) {
    sum = bar.is_total ? bar.value : sum + bar.value;
    lowest = std::min(lowest, sum);
    highest = std::max(highest, sum);
  }
  const double scale = highest > lowest ? width / (highest - lowest) : 0;
  const auto place = [&](double value) { return (value - lowest) * scale; };
  Html drawn = line(place(0), 0, place(0), row * static_cast<double>(bars.size()));
  sum = 0;
  for (std::size_t i = 0; i < bars.size(); ++i) {
    const double from = bars[i].is_total ? 0 : sum;
    sum = from + bars[i].value;
    const double y = row * static_cast<double>(i);
    drawn += label(0, y + 15, "start", bars[i].name);
    drawn += box(std::min(place(from), place(sum)), y + 20, std::abs(bars[i].value) * scale, row - 26,
                 bars[i].value < 0);
    drawn += label(width, y + 15, "end", bars[i].amount);
  }
  return framed(row * static_cast<double>(bars.size()), title, finding, drawn);
}

Html line_picture(const std::string& title, const std::string& finding, const std::vector<Point>& points,
                  const Ends& ends) {
  constexpr double high = 100;
  double low = 0, top = 0, first = 0, last = 1;
  for (const Point& point : points) {
    low = std::min(low, point.value);
    top = std::max(top, point.value);
  }
  if (!points.empty()) {
    first = points.front().day;
    last = std::max(points.back().day, first + 1);
  }
  const auto x = [&](double day) { return (day - first) / (last - first) * width; };
  const auto y = [&](double value) { return top > low ? (top - value) / (top - low) * high + 14 : high; };
  std::string way;
  double before = 0;
  for (const Point& point : points) {
    way += fmt::format("{}{},{} {},{}", way.empty() ? "" : " ", at(x(point.day)), at(y(before)),
                       at(x(point.day)), at(y(point.value)));
    before = point.value;
  }
  Html drawn = line(0, y(0), width, y(0));
  drawn += html("<polyline points=\"{}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"2\"/>\n", way);
  drawn += label(0, 11, "start", ends.highest) + label(0, high + 28, "start", ends.first_day) +
           label(width, high + 28, "end", ends.last_day) + label(0, high + 46, "start", ends.lowest);
  return framed(high + 52, title, finding, drawn);
}

}  // namespace nonrunner::page
