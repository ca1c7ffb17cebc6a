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
#include <array>
#include <cstdint>
#include <deque>
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
  // The aim without which the price would be highest; absent where leaving out any one of them changes nothing.
  std::optional<Aim> binding;
  // Where the policies were too many to compare them all: the price is what some policy holds, and above this
  // none does.
  std::optional<double> at_most;
};

struct Policy {
  bool holds = false;
  double price = 0;
  std::vector<Path> paths;            // by case
  std::vector<Path> most_profitable;  // the same at this price by profit alone
  Outlook outlook;
  double profit = 0, cash_profit = 0, loss_chance = 0;
};

// Of a policy that does not hold the aims the first of them that it breaks by itself; the last of the list where
// only rounding says so.
Aim broken_by(const Job&, const Policy&);

// What holding these aims asks beside the profit.
Required required_by(const Job&, const Aims&);

class Buying {
 public:
  // `possible`: the chances of the cases as they are believed now; what has none is left out. Keeps
  // references to the job, the sound value and the draws.
  Buying(const Job&, const SoundValue&, Draws&, std::vector<double> covers, std::vector<double> possible);

  bool is_possible(std::size_t which) const { return possible_[which] > 0; }
  // What the most profitable path of each case brings at a price, by case; of one that is not possible nothing. The chance
  // of a loss may be missing in `by_profit`.
  const std::vector<Offering>& by_profit(double price) { return priced_at(price).firsts; }
  const std::vector<Offering>& firsts(double price);
  // What every path brings that no other beats, by case. Stands until it is asked at another price.
  const std::vector<Menu>& menus(double price);

  // `more`: policies that bring no more than this above the profit aimed at may be taken for not holding.
  Held held(const std::vector<double>& chances, double price, double more = 0);
  // What the aims are worth in profit about the walk-away price, or the price asked where that is not looked for yet.
  const PricesOfAims& prices_of_aims();
  // Some policies, as places in the menus: for beliefs too many to look for the best one at each.
  std::vector<std::vector<std::uint32_t>> family(double price);
  bool is_allowed(const std::vector<double>& chances, double price) { return held(chances, price).holds; }

  WalkAway walk_away(const std::vector<double>& chances);
  double walk_away_price(const std::vector<double>& chances);  // of it the price alone
  // The price with another aim for the chance of a loss.
  double walk_away_price(const std::vector<double>& chances, double loss_most, double guess);

  // The most profitable policy that holds at this price; where none does the most profitable one.
  Policy policy(const std::vector<double>& chances, double price);

  const Courses& courses(double price);
  class Ways;
  Ways ways(double price);
  // The highest price at which the most profitable case still brings the profit aimed at.
  double hopeless_above();

  const Job& job() const { return job_; }
  std::size_t cases() const { return possible_.size(); }
  std::size_t masks() const { return masks_; }
  const Points& points() const { return points_; }

 private:
  // One way that a path can turn out; several paths share what they have in common.
  struct Turn {
    double chance = 0;
    std::uint32_t tallied = 0;
  };
  // What is asked of a path at every price; the rest of it is kept elsewhere.
  struct KnownPath {
    double cash = 0, beside = 0;  // opening up taken off; own hours and days at what they are worth
    double own_hours = 0, days = 0;
    std::uint32_t turns_begin = 0, turns_end = 0;
  };
  struct WholePath {
    Path path;
    CourseFigures mean;
  };
  // One way: small, since there are many. Its break-even payments are drawn when they are first asked for.
  static constexpr std::uint32_t none = static_cast<std::uint32_t>(-1);
  struct Tallied {
    std::uint32_t cause = 0, present = 0, slot = 0, payments = none;
    bool feels_troubles = false;
  };
  // What ways that differ by troubles alone have in common: the cause, the corrections made, and what then.
  struct Slot {
    Path path;
    PathOutcome outcome;
    std::optional<Drawn> plain;  // without troubles
    std::uint32_t last = none;   // the way of it that was added last
  };
  struct Model {
    Courses courses;
    std::vector<KnownPath> paths;          // case by case
    std::vector<WholePath> whole;          // of each of them
    std::vector<std::size_t> paths_begin;  // of each case, and the end
    std::vector<std::uint32_t> order;      // of the paths of a case by profit, where no price changes it
    std::vector<Turn> turns;
    std::vector<Tallied> tallied;
    std::deque<Tally> payments;
    // What each of them answered last, close together since it is asked again and again.
    std::vector<Tally::Share> shares;
    std::vector<Slot> slots;
    std::vector<std::size_t> slots_begin;  // of each cause
  };
  struct Priced {
    double price = 0, payment = 0, paid = 0;  // with tax and fee band; with all fees
    std::vector<Offering> firsts, all;
    std::vector<Menu> menus;
    bool has_losses = false;
  };
  // The kind of a way, and whether the troubles that are there change what is drawn of it.
  static std::size_t slot_of(const Model&, std::size_t cause, const Path&, const PathOutcome&);
  bool feels_troubles(std::size_t cause, const Path&, const PathOutcome&) const;
  const Drawn& plain_of(Model&, std::size_t slot, std::size_t cause);
  std::unique_ptr<Model> made_model(Courses);
  void make_room(Model&) const;
  void add_path(Model&, std::size_t which, const Path&);
  std::uint32_t tallied_at(Model&, std::size_t which, const Path&, const PathOutcome&);
  Model& model_at(double price);
  Priced& priced_at(double price);
  Offering offering(const Model&, std::size_t which, std::size_t path, double paid) const;
  void put_in_order(const Model&, std::size_t which, double paid, std::uint32_t* order) const;
  const std::uint32_t* ordered(Model&, std::size_t which, double paid);
  const Drawn& of_troubles(unsigned present, bool cured);
  const Tally& tally(Model&, Tallied&);
  double share_below(Model&, std::size_t tallied, double bound);
  double loss_of(Model&, const KnownPath&, double payment);
  std::size_t fill_menu(Model&, std::size_t which, const Priced&, Offering* into);
  // A case of which it is not known yet what the path that loses least comes to.
  struct Open {
    std::size_t which = 0;
    double chance = 0, low = 0, high = 1;  // of the case; of a loss in it, at prices below and above
    std::size_t path = 0;                  // that lost least when it was last asked
    double at_least() const { return chance * low; }
    double at_most() const { return chance * high; }
  };
  double least_loss(Model&, Open&, double payment);
  double best_alone(const std::vector<double>& chances, double price, Aim);
  // `guess`: where to begin to look.
  std::optional<double> limit_by(const std::vector<double>& chances, Aim, double guess);
  std::optional<double> limit_by_loss(const std::vector<double>& chances, double guess);
  static std::optional<double> lowest_limit(const WalkAway&, const Aims& asked);
  struct Found {
    std::optional<double> price, at_most;
  };
  WalkAway limits(const std::vector<double>& chances);  // of a walk-away price all but the aim that binds
  bool holds(const std::vector<double>& chances, const Aims&, double price, bool& exact);
  // `at_most`: no policy holds above, by the aims looked at one by one.
  Found highest(const std::vector<double>& chances, const Aims&, double at_most);
  std::optional<double> highest_without(const std::vector<double>& chances, const WalkAway&, Aim);

  const Job& job_;
  const SoundValue& sound_;
  Draws& draws_;
  std::vector<double> covers_, possible_;
  Points points_;
  std::size_t masks_;
  std::vector<std::unique_ptr<Model>> models_;
  std::map<double, std::unique_ptr<Priced>> priced_;
  // Of prices that are not remembered: what is asked for anew the system has to clear first.
  std::vector<std::unique_ptr<Priced>> rooms_;
  std::array<std::vector<std::optional<Drawn>>, 2> of_troubles_;  // as found, put right; by set
  std::vector<std::uint32_t> order_;                              // room for one case
  std::vector<PathOutcome> outcomes_;                             // room for one path
  std::optional<double> limit_;                                   // the walk-away price as believed at first
  std::optional<PricesOfAims> prices_of_aims_;
};

// What was drawn of the ways that a car can go, at a price: of one without troubles, and by what those that are there
// change it, if by anything. At all points.
class Buying::Ways {
 public:
  struct Way {
    const Drawn& plain;
    const Drawn* troubles = nullptr;
    double cash(std::size_t i) const { return plain.cash[i] + (troubles ? troubles->cash[i] : 0); }
    double hours(std::size_t i) const { return plain.hours[i] + (troubles ? troubles->hours[i] : 0); }
    double days(std::size_t i) const { return plain.days[i] + (troubles ? troubles->days[i] : 0); }
    double outlay(std::size_t i) const { return plain.outlay[i] + (troubles ? troubles->outlay[i] : 0); }
  };
  Way of(std::size_t cause, unsigned present, const Path&, const PathOutcome&);

 private:
  friend class Buying;
  Ways(Buying& buying, Model& model) : buying_(buying), model_(model) {}
  Buying& buying_;
  Model& model_;
};

}  // namespace nonrunner::appraisal
