// What to advertise an owned car at, when to drop the price, and the floor: the appraisal in force, what is
// booked, and how long it has stood at which price (resale/asking_price.h).
//
// Two figures stand below: the floor, which brings back all that went in and what is still to come (the
// break-even price), and what to take from, which is the one to act on, since what was spent is spent.
//
// Doubles are opinions in the currency's units.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "answers/why_not.h"
#include "appraisal/courses.h"
#include "book/ledger/book.h"
#include "exact/hint.h"
#include "exact/money.h"
#include "resale/asking_price.h"

namespace nonrunner::answers {

// Why it may not come to a sale running, though the price is for one.
struct Doubt {
  enum class Kind {
    bars_road,    // a trouble that may be there, with this chance
    other_course  // the appraisal means to do this instead
  } kind = Kind::bars_road;
  std::string name;  // of the trouble, of the course
  double chance = 1;
  Day appraised;
};

struct AskingPrice {
  std::string tag;
  Currency currency;
  Day first;  // of the plan
  resale::AskingPlan plan;
  Money floor;
  Money to_come;
  std::vector<resale::Stood> stood;  // at which prices, for how long
  std::optional<Money> advertised;   // at the price last set
  double hours_to_come = 0;
  std::vector<Doubt> doubts;
  std::string likeliest;  // the cause that was taken, where none was noted
  double likeliest_chance = 1;
  std::string dearest;  // the cause that would cost most, where it is not settled which it is
  double dearest_chance = 0;
  Money dearest_floor;
  // Below it another course is better from here, whatever was spent: this one, which needs nothing of what is
  // still to come, or where it is absent to wait for another buyer.
  double take_from = 0;
  std::optional<appraisal::Course> better_below;
  std::optional<double> part_out;  // what the pieces would leave, own hours paid
  double hour = 0;                 // what each own hour of these, or still to come, counts as
  bool hour_is_shops = false;      // as the book says; else by the appraisal
  std::optional<int> part_out_day;
  double realised = 1, commission = 0;

  // What the plan comes to is the best offer in the end.
  bool is_best_offer() const { return plan.for_offers; }
  Day best_offer_by() const;
  double floor_units() const;
  // What a sale at this price loses; below zero: what it earns.
  double loss_at(double price) const { return (floor_units() - price) * (1 - commission); }
};

// That a car cannot be put right, so that there is no price to sell it running at; why is said by whoever shows it.
class NotSoldRunning : public HintedEnd<Refusal> {
 public:
  NotSoldRunning(const std::string& that, std::optional<WhyNot> because, Hint hint)
      : HintedEnd(that + std::string(expected), std::move(hint)), that_(that), because_(std::move(because)) {}
  const std::string& that() const { return that_; }
  const std::optional<WhyNot>& because() const { return because_; }
  static constexpr std::string_view expected = ", expected a car to be sold running";

 private:
  std::string that_;
  std::optional<WhyNot> because_;
};

// `cause`: the one found, where the book does not know it. Throws Refusal where the car is not owned, no
// appraisal is kept, or its cause cannot be put right.
AskingPrice asking_price(const book::Book&, const std::string& tag, const std::string& cause, Day today);

}  // namespace nonrunner::answers
