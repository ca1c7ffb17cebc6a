// Prices of similar cars, kept in the book and pasted in as they are seen. What they say of one car is worked
// out elsewhere (resale/comparables.h); the book keeps them and chooses those that fit.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/book.h"
#include "exact/thousandths.h"

namespace nonrunner::book {

struct KeptComparable {
  std::int64_t id = 0;
  std::string model;  // words that the car's description has to have; empty: fits every car
  Money price;        // above 0
  bool sold = false;  // else an asking price
  Distance odometer;
  int year = 0;
  Quantity grade;  // 1 rough .. 5 spotless
  Day day;         // when it was seen
  std::string note;
};

// Keeps it; false where the same one is there already: then only its day moves on, if this one is later. One
// with a model takes the place of the same one without.
bool keep_comparable(Recording&, const KeptComparable&);
// Takes it out. Throws Refusal where there is no such number.
void drop_comparable(Recording&, std::int64_t id);

std::vector<KeptComparable> all_comparables(const Book&);  // by model, then price

// How near a comparable has to be. Common practice, no source.
struct Fit {
  int years_apart = 5;  // of the model years
  int days_old = 730;   // since it was seen
};
// Those whose every word of `model` stands in the car's description (capitals do not matter), near enough in
// years and seen recently enough, up to `today`; in the order of all_comparables.
std::vector<KeptComparable> comparables_that_fit(const Book&, const std::string& description, int year,
                                                 Day today, const Fit& = {});

}  // namespace nonrunner::book
