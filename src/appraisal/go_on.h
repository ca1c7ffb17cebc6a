// Go on or stop: from here, what each course still brings. What is spent already is the same on every course
// and left out.
//
//   value of a way = brings - selling - spend + back - hours x hour - days x holding_per_day
//   value of a course = sum of chance x value over its ways
//
// `back` is what comes back on that course alone: sealed parts at what the shop refunds. Where the best is
// ahead of another by less than five per cent of its own value it is too close to call, and the shorter one
// is taken.
#pragma once
#include <string>
#include <vector>

#include "text/table.h"

namespace nonrunner::appraisal {

struct Way {
  double chance = 1;
  double brings = 0, selling = 0, spend = 0, back = 0;
  double hours = 0, days = 0;
};

struct OpenCourse {
  std::string name;
  std::vector<Way> ways;  // chances add up to 1
};

struct OpenCourses {
  double hour = 0, holding_per_day = 0;
  std::vector<OpenCourse> courses;
};

struct CourseFromHere {
  std::string name;
  Way mean;  // expected figures over its ways
  double value = 0;
};

struct GoOn {
  std::vector<CourseFromHere> courses;  // the highest value first
  double ahead = 0;  // of the first over the second: by how much money the first may be wrong before it loses
  double hours_wrong = 0;  // the same in own hours; 0 where it has not so many
  bool too_close = false;
  std::size_t advice = 0;  // the course to take: the first, or the shortest of those too close to it
};

GoOn go_on(const OpenCourses&);

// Reads a courses file; throws Refusal `file:line: key, found, expected`.
OpenCourses read_courses(const std::string& text, const std::string& name);

}  // namespace nonrunner::appraisal
