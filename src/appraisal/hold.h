// Which path to take in each case so that all aims hold at once, at the most expected profit.
//
// Each case has a menu of paths with what they bring if the case is the true one: profit, margin (cash profit
// less what the own hours must earn) and the chance of a loss. A policy takes one path from each menu; its
// figures are sums over the cases, weighted by their chances. Asked for is the most profit with
//   sum of chance x loss <= loss_most x sum of the chances,   sum of chance x margin >= 0.
//
// Method: the most profitable policy where it holds; else, by Lagrange multipliers, a bound that no policy exceeds,
// not even one mixed by chance (M. L. Fisher, Management Science 27 (1981) 1-18; from memory), and a good policy among
// the cases that the multipliers leave nearly undecided; then undominated sums case by case, dropping those that cannot
// hold or cannot reach that one. Exact up to `sets_most` sums kept in all (a quarter of them beyond 200 cases); beyond,
// the best policy found is given, and the bound. Known to be right against complete enumeration and, where cases are
// many, against dynamic programming (tests/appraisal/deciding.cpp).
#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace nonrunner::appraisal {

struct Offering {
  std::size_t path = 0;  // its place among the paths of the case
  double profit = 0, margin = 0, loss = 0;
};
// At least one; the most profitable first.
using Menu = std::span<const Offering>;
// Leaves out what another beats in everything; how many are left, at the front.
std::size_t undominated(std::span<Offering>);

struct Required {
  std::optional<double> loss_most;  // absent: not asked for
  bool margin = false;
  double money_tolerance = 0;
  // Whether some policy holds is all that is asked: then any will do.
  bool any = false;
  // By how much less than the most profit is as good, where cases are many: below half a coin nobody sees it.
  double as_good = 0;
};

constexpr double chance_tolerance = 1e-9;

// What is asked beside the profit: sums over the cases, each kept to a bound. Whoever goes through the list, as the plan
// does, need not know which aims there are.
struct Kept {
  double Offering::*of;
  bool at_most;  // else at least
  bool keeps(double sum, double bound) const { return at_most ? sum <= bound : sum >= bound; }
};
inline constexpr std::array all_kept = {Kept{&Offering::loss, true}, Kept{&Offering::margin, false}};
template <class T>
using ByKept = std::array<T, all_kept.size()>;
// The bound on each over cases of this chance in all; absent where it is not asked for.
ByKept<std::optional<double>> bounds_on(const Required&, double chance);
constexpr std::size_t sets_most_default = 20'000;

// Beyond so many cases policies are looked for among few prices only: exactness is out of reach.
constexpr std::size_t many_cases = 1000;

struct Held {
  bool holds = false;  // false: no policy does, or where not exact none was found
  bool exact = true;
  double profit = 0;                 // sum of chance x profit, where it holds
  double profit_at_most = 0;         // the same where exact; else no policy that holds brings more
  std::vector<std::uint32_t> picks;  // by case, the place in its menu
};

// What the first of each menu says alone, where that is enough: they hold, or bring too little.
std::optional<Held> held_by_firsts(const std::vector<Offering>&, const std::vector<double>& chances,
                                   const Required&, double worth_asking);

// `worth_asking`: policies with less profit than this are of no interest, and may be taken for not holding.
Held best_that_holds(const std::vector<Menu>&, const std::vector<double>& chances, const Required&,
                     double worth_asking, std::size_t sets_most = sets_most_default);

// What a unit of loss and of margin is worth in profit: the Lagrange multipliers by which the bound on what a policy that
// holds brings is lowest. Any others give a bound as well.
struct PricesOfAims {
  double loss = 0, margin = 0;
};
PricesOfAims prices_of_aims(const std::vector<Menu>&, const std::vector<double>& chances, const Required&);
// Over cases of this chance in all no policy that holds brings more than the sum of what is best in each case at these
// prices (`priced`) and what the bounds leave over.
double priced(const Offering&, const PricesOfAims&);
double left_by_bounds(const PricesOfAims&, const Required&, double chance);

// Some policies of the family, from the most profitable one to the one that risks least: what is asked of many
// beliefs is then asked of these alone.
std::vector<std::vector<std::uint32_t>> family_of(const std::vector<Menu>&, const PricesOfAims&,
                                                  const Required&);

}  // namespace nonrunner::appraisal
