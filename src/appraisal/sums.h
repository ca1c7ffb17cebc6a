// How the drawn amounts of a job add up: for each state and each way its corrections can turn out, which
// amounts count, with which weight, and from which coordinate of the point each is drawn.
//
// The first coordinates of a Sobol sequence are its best, so they go to what moves the profit most: the
// cause, how its corrections turn out, then the others by their share of the variance. Causes share
// coordinates, since only one holds. Constants are added up beforehand. The price and the fees paid with it
// are left out. Money leaves with a minus.
#pragma once
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <vector>

#include "appraisal/job.h"
#include "appraisal/outlook.h"
#include "appraisal/sound_value.h"
#include "chance/quantile_table.h"

namespace nonrunner::appraisal {

// weight x the table's unit; what its low end comes to is among the constants.
struct Term {
  const QuantileTable* table;
  std::size_t coordinate;
  double weight;
  friend bool operator==(const Term&, const Term&) = default;
};

// Something that is paid only with a chance: a constant, and what the table gives beyond it.
struct Coin {
  std::size_t coordinate;
  std::uint64_t below;  // of 2^32
  double constant;
  std::optional<Term> amount;
};

struct Sum {
  double cash = 0, hours = 0, days = 0;  // hours by the estimate, before the pace
  std::vector<Term> cash_terms, hour_terms, day_terms;
  double borne_hours = 0;  // by the seller: they take their days, but no own hours
  std::vector<Term> borne_terms;
  std::vector<Coin> coins;
};

// Keeps references to what it is made from.
class Sums {
 public:
  static constexpr std::size_t coordinate_of_cause = 0;
  static constexpr std::size_t coordinate_of_turn = 1;

  // `chances`: of the states; those without a chance get no sum.
  // Throws Refusal where there are more uncertain amounts than coordinates.
  Sums(const SoundValue&, const Courses&, const States&, const std::vector<double>& chances);

  std::size_t coordinates() const { return coordinates_; }
  std::size_t size() const { return sums_.size(); }
  const Sum& operator[](std::size_t i) const { return sums_[i]; }  // beside `common`
  const Sum& common() const { return in_all_; }                    // what every sum has
  // `turn`: how the corrections turn out: the place of the one that works, or their number where none does; 0
  // where the car is not put right.
  std::size_t of(std::size_t state, std::size_t turn) const { return sum_of_[state * turns_ + turn]; }

  std::size_t coordinate_of(const Trouble& trouble) const { return draws_[common_.at(&trouble)].coordinate; }
  std::optional<Term> term_of(
      const Amount&) const;  // an amount that is common to all causes; absent for a constant

 private:
  void place_common();
  void place(const Amount&);
  std::size_t draw_of(const void* what);
  void moves(const void* what, double variance);
  void arrange();
  void take_out_common();
  const QuantileTable* table_of(const Amount&);

  void add(double& constant, std::vector<Term>&, double weight, const Amount&, double worth);
  void cash(Sum&, double weight, const Amount&);
  void hours(Sum&, const Amount&, double cover = 0);
  void days(Sum&, const Amount&);
  void add_part(Sum&, const Part&, double cover);
  void add_found(Sum&, const Cause&, unsigned present);
  void add_sound(Sum&, unsigned present);
  void add_put_right(Sum&, std::size_t cause, unsigned present, std::size_t turn);
  Sum made(std::size_t cause, unsigned present, Course, std::size_t turn);

  const Job& job_;
  const States& states_;
  const SoundValue& sound_;
  const Courses& courses_;
  std::vector<std::unique_ptr<QuantileTable>> tables_;
  std::map<const Amount*, const QuantileTable*> table_of_;
  const QuantileTable* sound_table_ = nullptr;
  // What is drawn: amounts, troubles, and whether a part is bad; by cause where it is the cause's own. Until
  // all sums are made their coordinates are places in this list.
  struct Draw {
    std::optional<std::size_t> cause;
    double moves = 0;  // its share of the variance of the profit, times the chance that it counts
    std::size_t coordinate = 0;
  };
  std::vector<Draw> draws_;
  std::map<const void*, std::size_t> common_, own_;
  std::size_t coordinates_ = 0, cause_ = 0, turns_ = 1;
  double chance_ = 1, hours_mean_ = 0;  // of the sum that is being made
  std::vector<std::size_t> sum_of_;
  std::vector<Sum> sums_;
  Sum in_all_;
};

std::uint64_t of_two_to_the_32(double chance);

}  // namespace nonrunner::appraisal
