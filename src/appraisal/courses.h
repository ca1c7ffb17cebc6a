// What can be done with the car once the cause and the troubles are known, and what each course is expected
// to bring.
//
//   put right     the corrections, the troubles' work, the fixes, then sold running
//   sell as found `found` less what the troubles take off it
//   part out      proceeds - costs, its hours, no days of sale, no commission
//   scrap         value - costs, no hours
// Days = own hours (opening up included) / hours_per_week x 7, plus wait_days where it is put right, plus the
// days of the sale where it is sold whole; each costs holding_per_day. Where all corrections fail the car is
// sold as found after their costs: no wait, no fixes, no work on the troubles. The owner takes the course
// with the highest expected profit after own hours, the first of equal ones.
//
// Exact: everything is an expected value by formula; own hours and prices are independent, so means multiply.
#pragma once
#include <array>
#include <optional>
#include <vector>

#include "appraisal/chain.h"
#include "appraisal/fixes.h"
#include "appraisal/job.h"

namespace nonrunner::appraisal {

enum class Course { put_right, as_found, part_out, scrap };
constexpr std::array<Course, 4> all_courses = {Course::put_right, Course::as_found, Course::part_out,
                                               Course::scrap};
const char* name_of(Course);  // "put right", "sell as found", "part out", "scrap"

// Expected figures of one course in one state. The price, what is paid with it, and the opening up (its cash
// and the worth of its hours) are left out, since every course bears them alike; its hours are in `own_hours`
// and `days`.
struct CourseFigures {
  double cash = 0;       // money in less money out, holding included
  double own_hours = 0;  // really taken, opening up included
  double days = 0;
  double brings = 0;  // what is got for the car or its pieces, before commission
  double outlay = 0;  // paid before that money comes, deposits included, holding left out
};

// The means of a job, worked out once for many states. Keeps a reference to the job.
class Courses {
 public:
  // `sound_mean` is the expected value of a sound one, before `keeps`.
  Courses(const Job&, double sound_mean);

  // Absent where the course is not on offer in this state. `present`: bit j is trouble j. `cover`: the share
  // of the cost of the corrections, cash and own time, that the seller bears.
  std::optional<CourseFigures> figures(std::size_t cause, unsigned present, Course, double cover = 0) const;
  // After own hours, opening up left out: the owner's measure.
  double profit(const CourseFigures& f) const {
    return f.cash - (f.own_hours - opening_hours_) * job_->shop.hour;
  }

  struct Best {
    Course course = Course::as_found;
    CourseFigures figures;
    double profit = 0;
  };
  Best best(std::size_t cause, unsigned present, double cover = 0) const;

  const Job& job() const { return *job_; }
  const FixPlan& fixes() const { return fixes_; }
  const CorrectionCost& correction(std::size_t at) const { return corrections_[at]; }
  const Chain& chain(std::size_t cause) const { return chains_[cause]; }
  double pace() const { return pace_; }
  double opening_hours() const { return opening_hours_; }  // really taken
  double sound() const { return sound_; }                  // after `keeps`

 private:
  CourseFigures put_right(std::size_t cause, unsigned present, double cover) const;
  double found(std::size_t cause, unsigned present) const;

  const Job* job_;
  double pace_, opening_hours_, sound_, sale_days_, sale_costs_;
  std::vector<CorrectionCost> corrections_;
  std::vector<Chain> chains_;
  FixPlan fixes_;
};

}  // namespace nonrunner::appraisal
