// The best plan over every order of the tests that can still be made, at given prices of the offers, rolled back
// exactly (plan.h says what is weighed against what).
//
// Each state of knowledge is worked out at most once to its value, and only where something better could still come
// of it. No plan from a state on is worth more than its ceiling: what the best plan is worth by the aim for profit
// alone. Under other aims it is taken also of the profit less what a loss and an hour missing cost at fixed prices of
// these (Lagrange multipliers, so that it stays a ceiling whatever they are; M. L. Fisher, Management Science 27 (1981)
// 1-18, from memory), and the lower one counts. Both are sums over the cases, so that they are quickly known. Between a
// state's ceiling and what is needed of it before it can change anything lies what has to be looked at; a value that
// would not reach that is not told from others that do not.
#pragma once
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "appraisal/knowledge.h"
#include "appraisal/plan.h"

namespace nonrunner::appraisal {

// At prices below one at which the most profitable policy holds the aims: no plan gains more over deciding there than it
// would by the profit alone with all tests made for nothing.
struct GainBelow {
  bool is_known = false;  // false: it does not hold them
  double decided = 0;
  struct AtLast {
    double plain = 0, others = 0, chance = 0;
  };
  std::vector<AtLast> at_last;  // outcomes of all tests
  double at_most(double less_paid) const;
};

class RollBack {
 public:
  // Keeps references to the job and to what is known.
  RollBack(const Job&, std::vector<OfferAt>, const Knowledge&);

  const std::vector<std::size_t>& tests() const { return knowledge_.tests(); }
  double cost(std::size_t i) const { return cost_[i]; }

  double decide();  // without a test
  double decided_after(std::size_t i);
  double best_of_one();  // with one test, or none
  double best();
  // The best where that is at least `enough`; else something below `enough` that the best does not exceed.
  double best_from(double enough);

  // Whether the best plan gains over deciding now what a test must gain: mostly told without rolling back.
  bool gains_enough();
  // By how much the best plan falls for a unit more of the first offer's price, if nothing else changes; 0 where it was
  // not worked out.
  double falls();
  // False: somewhere policies were too many to compare them all, and the best plan is worth what it says or more.
  bool is_exact() const { return is_exact_; }
  GainBelow gain_below();

  PlanStep decided();
  PlanStep steps(int depth);

 private:
  using Known = Knowledge::Known;
  struct Bought {
    bool allowed = false;
    std::size_t offer = 0;
    double worth = 0;      // 0 where none is allowed
    bool is_known = true;  // false: some offer was left out that is worth no more than was needed
  };
  // What an offer is worth by cause and set of tested troubles, with the troubles averaged where that is asked.
  class Weighed {
   public:
    using Make = std::function<std::vector<double>()>;
    Weighed() = default;
    explicit Weighed(Make make) : make_(std::move(make)) {}
    const std::vector<double>& of();
    const double* at(const Knowledge& knowledge, const Knowledge::Known&);

   private:
    Make make_;  // called when it is first asked for
    std::vector<double> of_;
    std::vector<std::vector<double>> rows_;  // by place of the tests about troubles
  };
  struct Figures {
    Weighed profit;        // of one path in each case, less the aim
    ByKept<Weighed> kept;  // what is asked beside
  };
  struct Others {
    ByKept<Weighed> best;         // of any path: the least of what is kept below a bound, else the most
    std::vector<Figures> family;  // of some policies, where there is much to look at
  };
  struct Limits {
    ByKept<std::optional<double>> bounds;
    double doubt;
  };

  double believed(Weighed&, const Known&);
  Limits limits_at(double chance) const;
  // Whether each is kept to its bound.
  ByKept<bool> keeps(ByKept<Weighed>&, const Known&, const Limits&);
  bool keeps_all(ByKept<Weighed>&, const Known&, const Limits&);
  Others& others(std::size_t offer);
  // Times the chance of knowing; absent where it is not allowed, or not worth more than `need`: then `is_known` falls.
  std::optional<double> worth_of(std::size_t offer, const Known&, double chance, double need, bool& is_known);
  std::optional<double> worth_of_family(std::vector<Figures>&, const Known&, const Limits&);
  Bought best_offer(const Known&, double need);
  void check_size() const;
  void lower_ceilings(const std::vector<std::vector<double>>& of_offers);
  double ceiling(double enough);
  void lower_ceilings_by_all_aims();
  void work_out(std::size_t place, const Known&, double need);
  double try_test(std::size_t i, std::size_t place, const Known&, double target, double& at_most);
  double bought_as_it_stands(std::size_t place, const Known&);
  PlanStep step(std::size_t place, const Known&, int depth);

  const Job& job_;
  const std::vector<OfferAt> offers_;
  const Required required_;
  const Knowledge& knowledge_;
  std::vector<double> cost_, left_;  // by test; left: the chance that the car is still to be had after it
  std::vector<std::size_t> outcomes_;
  std::vector<Figures> first_;  // by offer: of the most profitable paths
  std::vector<std::optional<Others>> others_;
  std::optional<Bought> decided_;  // without a test, once it was asked for
  bool by_family_ = false, is_exact_ = true, by_all_aims_ = false;
  std::vector<double> value_, at_most_;  // by place
  std::vector<std::int32_t> act_;
  std::vector<double> chances_;
};

}  // namespace nonrunner::appraisal
