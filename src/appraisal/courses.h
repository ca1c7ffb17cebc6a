// What can be done with the car once the cause and the troubles are known, and what each course is expected
// to bring.
//
//   put right     the corrections, the troubles' work, the fixes, then sold running
//   sell as found `found` less what the troubles take off it
//   part out      proceeds - costs, its hours, no days of sale, no commission
//   scrap         value - costs, no hours
// Days = own hours (opening up included) / hours_per_week x 7, plus wait_days where it is put right, plus the
// days of the sale where it is sold whole; each costs holding_per_day.
//
// A correction that did not cure leaves a choice: the next of its chain, or one of the other courses, after
// its costs, with no wait, no fixes and no work on the troubles. A path says beforehand how far along the
// chain to go and what then; since nothing is learned on the way but that it failed so far, the best path is
// the best plan. The owner takes the path with the highest expected profit after own hours; of equal ones
// putting right before the others, and along the chain to stop.
//
// Where a car has no course at all nothing is done with it, and it is worth 0 less what its days cost;
// `sell as found` stands for that (is_nothing).
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
// Whether it is that nothing is done, and what it is called then: every surface asks here.
bool is_nothing(const Cause&, Course);
const char* name_of(const Cause&, Course);  // the same, or "do nothing"

struct Path {
  Course course = Course::as_found;
  std::size_t tried = 0;                  // of putting right: the corrections of the chain made at most
  Course if_all_fail = Course::as_found;  // of putting right: never that again
  friend bool operator==(const Path&, const Path&) = default;
};

// Expected figures of one course in one state. The price, what is paid with it, and the opening up (its cash
// and the worth of its hours) are left out, since every course bears them alike; its hours are in `own_hours`
// and `days`.
struct CourseFigures {
  double cash = 0;       // money in less money out, holding included
  double own_hours = 0;  // really taken, opening up included
  double days = 0;
  double brings = 0;  // what is got for the car or its pieces, before commission
  double outlay = 0;  // paid before that money comes, deposits included, holding left out
  double opening_hours = 0;
};

// One way that a path can turn out: so many corrections were made, and the last one cured or none did.
struct PathOutcome {
  double chance = 1;
  std::size_t made = 0;
  bool cured = false;
  CourseFigures figures;
};

// Under what a car is bought, as far as it moves what is done with it: absent is the price asked, and a
// seller who bears nothing.
struct Terms {
  std::optional<double> price;  // interest on it runs over the days
  std::vector<double> covers;   // by cause: the share of its corrections, cash and own time, that he bears
};

// The means of a job, worked out once for many states. Keeps a reference to the job.
class Courses {
 public:
  // `sound_mean` is the expected value of a sound one, before `keeps`.
  Courses(const Job&, double sound_mean, const Terms& = {});

  // Every path on offer in this state. `present`: bit j is trouble j.
  std::vector<Path> paths(std::size_t cause, unsigned present) const;
  CourseFigures figures(std::size_t cause, unsigned present, const Path&) const;
  std::vector<PathOutcome> outcomes(std::size_t cause, unsigned present, const Path&) const;
  // The same, in place of what `into` holds: for whoever asks for many.
  void outcomes(std::size_t cause, unsigned present, const Path&, std::vector<PathOutcome>& into) const;
  CourseFigures mean_of(std::size_t cause, const std::vector<PathOutcome>&) const;
  // The best path of this course; absent where it is not on offer.
  std::optional<Path> best_path(std::size_t cause, unsigned present, Course) const;
  std::optional<CourseFigures> figures(std::size_t cause, unsigned present, Course) const;
  // After own hours and what the days cost beside holding: the owner's measure. Opening up is left out.
  double profit(const CourseFigures& f) const {
    return f.cash - (f.own_hours - f.opening_hours) * job_->shop.hour -
           f.days * (job_->shop.bay_per_day + interest_);
  }

  struct Best {
    Course course = Course::as_found;
    Path path;
    CourseFigures figures;
    double profit = 0;
  };
  Best best(std::size_t cause, unsigned present) const;
  // The best path of each course, in the order of `all_courses`; absent where it is not on offer.
  using ByCourse = std::array<std::optional<Best>, all_courses.size()>;
  ByCourse by_course(std::size_t cause, unsigned present) const;
  static const Best& best_of(const ByCourse&);

  const Job& job() const { return *job_; }
  const FixPlan& fixes() const { return fixes_; }
  double cover(std::size_t cause) const { return covers_.empty() ? 0 : covers_[cause]; }
  // As they cost the cause that comes to them: its cover moves where parts come from.
  const CorrectionCost& correction(std::size_t cause, std::size_t at) const;
  const Chain& chain(std::size_t cause) const { return chains_[cause]; }
  double pace() const { return pace_; }
  double opening_hours(std::size_t cause) const;  // really taken
  double opening_cash(std::size_t cause) const;
  double sound() const { return sound_; }  // after `keeps`

  // Takes up a changed amount of the job in place: of one correction, of one cause, of anything.
  void refresh_correction(std::size_t at);
  void refresh();

 private:
  struct OfTroubles {
    double cash = 0, hours = 0, takes_off = 0, found_less = 0;
    bool bars_road = false;
    void add(const Trouble&);
  };
  bool can_be_put_right(std::size_t cause, unsigned present) const;
  CourseFigures begun(std::size_t cause) const;
  void end_otherwise(CourseFigures&, std::size_t cause, unsigned present, Course) const;
  std::vector<Course> others(std::size_t cause) const;

  const Job* job_;
  double sound_mean_;
  double price_;
  std::vector<double> covers_;
  double interest_ = 0, pace_ = 1, sound_ = 0, sale_days_ = 0, sale_costs_ = 0;
  std::vector<CorrectionCost> corrections_;
  std::vector<std::vector<CorrectionCost>> of_covered_;  // by cause and step, where the seller bears a share
  std::vector<Chain> chains_;
  std::vector<OfTroubles> of_troubles_;  // by set
  FixPlan fixes_;
};

}  // namespace nonrunner::appraisal
