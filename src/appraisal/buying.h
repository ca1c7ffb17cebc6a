// Buying under one offer: what each path brings in each case, the policies that hold the aims at a price, and
// the highest price at which one does.
//
// A policy takes one path in each case (a cause and a set of troubles): it is decided without knowing which
// correction will cure. It holds the aims at a price where, all at once,
//   profit       E[profit] >= aims.profit
//   loss_chance  P(cash profit < 0) <= aims.loss_chance
//   per_hour     E[cash profit] >= aims.per_hour x E[own hours]
// An aim left out is not asked for, the profit then 0. Chances are compared with a tolerance of 1e-9, money
// to 1e-9 times the larger of 1 and the amount. The chance of a case and of how its corrections turn out is
// exact; only the amounts within are drawn.
//
// Where parts come from and which fixes are made is one choice for the job, by profit, at the price in
// question: interest on the price makes days dearer. For each such choice the paths are worked out once.
#pragma once
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "appraisal/drawn.h"
#include "appraisal/hold.h"
#include "appraisal/outlook.h"
#include "appraisal/tally.h"

namespace nonrunner::appraisal {

// The highest prices, in the smallest coin. Below zero: not even as a gift. Absent: not asked for, or no
// price breaks it.
struct WalkAway {
  figures::ByAim<std::optional<double>> by;  // by the best policy for each aim alone
  double price = 0;                          // at which some policy holds them all
  // The key of the aim without which the price would be highest; "together" where leaving out any one of them
  // changes nothing.
  std::string binding = "profit";
  // Where the policies were too many to compare them all: the price is what some policy holds, and above this
  // none does.
  std::optional<double> at_most;
};

struct Policy {
  bool holds = false;
  double price = 0;
  std::vector<Path> paths;  // by case
  Outlook outlook;
  double profit = 0, cash_profit = 0, loss_chance = 0;
};

// Of a policy that does not hold the aims the first of them that it breaks by itself; the last of the list where
// only rounding says so.
Aim broken_by(const Job&, const Policy&);

class Buying {
 public:
  // `possible`: the chances of the cases as they are believed now; what has none is left out. Keeps
  // references to the job, the sound value and the draws.
  Buying(const Job&, const SoundValue&, Draws&, std::vector<double> covers, std::vector<double> possible);

  // What every path of every case brings at one price. The menus hold everything that no other path beats.
  struct Priced {
    double price = 0;
    std::vector<Menu> menus;  // by case; empty for one that is not possible
    std::vector<const Menu*> list;
  };
  const Priced& at(double price);

  Held held(const std::vector<double>& chances, double price, std::size_t sets_most = sets_most_default);
  // Some policies, as places in the menus: for beliefs too many to look for the best one at each.
  std::vector<std::vector<std::uint32_t>> family(const std::vector<double>& chances, double price);
  bool is_allowed(const std::vector<double>& chances, double price) { return held(chances, price).holds; }

  WalkAway walk_away(const std::vector<double>& chances);
  // The same price alone, with another aim for the chance of a loss.
  double walk_away_price(const std::vector<double>& chances, double loss_most, double guess);

  // The most profitable policy that holds at this price; where none does the most profitable one.
  Policy policy(const std::vector<double>& chances, double price);

  // Taken by the policy in one case: for its draws.
  const Courses& courses(double price);
  // The highest price at which the most profitable case still brings the profit aimed at.
  double hopeless_above();

  const Job& job() const { return job_; }
  std::size_t cases() const { return possible_.size(); }
  std::size_t masks() const { return masks_; }

 private:
  struct KnownPath {
    Path path;
    std::vector<PathOutcome> outcomes;
    CourseFigures mean;
    double cash = 0, beside = 0;      // opening up taken off; own hours and days at what they are worth
    std::vector<Tally> tallies = {};  // of break-even payments, by outcome; made when asked for
    // Up to the first nobody can lose, beyond the second everybody does: most prices need no look at the points.
    double none_below = 0, all_below = 0;
  };
  struct Model {
    Courses courses;
    std::vector<std::vector<KnownPath>> paths;  // by case
  };
  Model& model_at(double price);
  void tally(Model&, std::size_t which, KnownPath&);
  double loss_of(Model&, std::size_t which, KnownPath&, double payment);
  Menu menu_at(Model&, std::size_t which, double payment, double paid);
  Menu with_losses(Model&, std::size_t which, Menu, double payment);
  Required required_by(const Aims&) const;
  std::optional<double> limit_by(const std::vector<double>& chances, Aim aim);
  double best_alone(const std::vector<double>& chances, double price, double Offering::*figure, bool least);
  struct Found {
    std::optional<double> price, at_most;
  };
  Found highest(const std::vector<double>& chances, const Aims&, double guess, bool far);

  const Job& job_;
  const SoundValue& sound_;
  Draws& draws_;
  std::vector<double> covers_, possible_;
  std::size_t masks_;
  std::vector<std::unique_ptr<Model>> models_;
  std::map<double, std::unique_ptr<Priced>> priced_;
};

}  // namespace nonrunner::appraisal
