#include "appraisal/go_on.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "text/toml.h"

namespace nonrunner::appraisal {

namespace {

constexpr double close = 0.05;  // common practice, no source

double value_of(const Way& way, const OpenCourses& open) {
  return way.brings - way.selling - way.spend + way.back - way.hours * open.hour -
         way.days * open.holding_per_day;
}

double not_negative(const Table& table, const char* key, double fallback) {
  const double value = table.number_or(key, fallback);
  if (value < 0) table.refuse(key, "0 or more");
  return value;
}

Way read_way(const Table& table, bool one_of_several) {
  Way way;
  way.brings = not_negative(table, "brings", 0);
  if (!table.has("brings")) table.refuse("brings", "what the course brings, an amount of money");
  way.selling = not_negative(table, "selling", 0);
  way.spend = not_negative(table, "spend", 0);
  way.back = not_negative(table, "back", 0);
  way.hours = not_negative(table, "hours", 0);
  way.days = not_negative(table, "days", 0);
  if (one_of_several) {
    way.chance = table.number("chance");
    if (way.chance <= 0 || way.chance > 1) table.refuse("chance", "a chance above 0 and at most 1");
  }
  return way;
}

}  // namespace

GoOn go_on(const OpenCourses& open) {
  GoOn result;
  for (const OpenCourse& course : open.courses) {
    CourseFromHere from_here{course.name, {}, 0};
    from_here.mean.chance = 1;
    for (const Way& way : course.ways) {
      from_here.mean.brings += way.chance * way.brings;
      from_here.mean.selling += way.chance * way.selling;
      from_here.mean.spend += way.chance * way.spend;
      from_here.mean.back += way.chance * way.back;
      from_here.mean.hours += way.chance * way.hours;
      from_here.mean.days += way.chance * way.days;
      from_here.value += way.chance * value_of(way, open);
    }
    result.courses.push_back(from_here);
  }
  std::stable_sort(result.courses.begin(), result.courses.end(),
                   [](const CourseFromHere& a, const CourseFromHere& b) { return a.value > b.value; });
  if (result.courses.size() < 2) return result;
  const double best = result.courses[0].value;
  result.ahead = best - result.courses[1].value;
  // More hours than the course has it cannot be wrong by.
  const double hours = open.hour > 0 ? result.ahead / open.hour : 0;
  result.hours_wrong = hours <= result.courses[0].mean.hours ? hours : 0;
  result.too_close = result.ahead < close * std::abs(best);
  for (std::size_t i = 1; i < result.courses.size(); ++i) {
    const bool near = best - result.courses[i].value < close * std::abs(best);
    if (near && result.courses[i].mean.days < result.courses[result.advice].mean.days) result.advice = i;
  }
  return result;
}

OpenCourses read_courses(const std::string& text, const std::string& name) {
  const Value value = parse_toml(text, name);
  const Table root(value, name, "the head of the file");
  root.only({"hour", "holding_per_day", "course"});
  OpenCourses open;
  open.hour = not_negative(root, "hour", 0);
  if (!root.has("hour")) root.refuse("hour", "what an own hour must earn");
  open.holding_per_day = not_negative(root, "holding_per_day", 0);
  if (!root.has("holding_per_day"))
    root.refuse("holding_per_day", "what a day of holding it costs, 0 or more");
  for (Table table : root.tables("course", "[[course]]")) {
    table.only({"name", "brings", "selling", "spend", "hours", "days", "back", "ways"});
    OpenCourse course;
    course.name = table.text("name");
    table.rename(fmt::format("[[course]] \"{}\"", course.name));
    if (table.has("ways")) {
      if (table.has("brings"))
        table.refuse_whole(table.name() + " has both \"brings\" and \"ways\", expected one of them", "ways");
      double sum = 0;
      for (const Table& each : table.tables("ways", "a way of " + table.name())) {
        each.only({"chance", "brings", "selling", "spend", "hours", "days", "back"});
        course.ways.push_back(read_way(each, true));
        sum += course.ways.back().chance;
      }
      if (std::abs(sum - 1) > 1e-9)
        table.refuse_whole(
            fmt::format("the chances of the ways of \"{}\" add up to {:.10g}, expected 1", course.name, sum),
            "ways");
      const double back = not_negative(table, "back", 0);
      for (Way& way : course.ways) way.back += back;
    } else {
      course.ways.push_back(read_way(table, false));
    }
    for (const OpenCourse& other : open.courses)
      if (other.name == course.name) table.refuse("name", "a name that no other course has");
    open.courses.push_back(course);
  }
  if (open.courses.empty()) root.refuse_whole("the file has no [[course]], expected at least one");
  return open;
}

}  // namespace nonrunner::appraisal
