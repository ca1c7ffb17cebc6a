// What a sound car sells for, from similar cars with a known price.
//
// Prices are brought to the sold basis (an asking price x what is got of it), odometer, year and grade are
// taken as differences from the subject, and a line is fitted through them with weak stated beliefs about its
// slopes (resale/slope_priors.h, resale/regression.h), in units of the median price. The price of the subject
// is then Student's t (resale/student.h) about the line's value for it. One comparable is enough: beliefs
// carry it and the spread says so. A price that the others do not explain, or that pulls the line alone, is
// pointed out and stays in.
//
// Doubles in the currency's units, since a fitted price is an opinion; nothing here reaches the ledger.
#pragma once
#include <string>
#include <vector>

#include "resale/regression.h"
#include "resale/slope_priors.h"

namespace nonrunner::resale {

enum class Kind { asking, sold };

struct Comparable {
  double price = 0;  // above zero
  Kind kind = Kind::asking;
  double odometer = 0;
  double year = 0;
  double grade = 3;       // 1 rough .. 5 spotless
  std::string name = {};  // by which a person finds it again; else it is called by its place in the list
};

struct Subject {
  double odometer = 0;
  double year = 0;
  double grade = 3;
};

struct Slope {
  double likely = 0;  // money for one unit more: a mile or kilometre, a year, a grade
  double give_or_take = 0;
};

struct Placed {
  std::string name;  // "comparable 3 of the book, 3,300.50 at 130000 of 2026-03-01"
  double sold_basis = 0;
  double fitted = 0;
  double leverage = 0;     // share of its own fitted price that this one decides: 0 to 1
  double studentised = 0;  // distance from what the others predict; not a number where they cannot
  double chance =
      1;  // of being as far off as that, if it were one of the same kind; 1 where it cannot be told
  bool far_off = false;  // chance x number of comparables below 0.05 (Bonferroni's bound)
  bool pulls = false;  // leverage above twice the average (the rule of Hoaglin and Welsch 1978, from memory)
};

struct SoundValue {
  Student price;  // of the subject; `df` above 1, so that a mean exists
  double line = 0;
  double residual_sd = 0;
  double median = 0;    // of the sold-basis prices
  double realised = 1;  // got / asked, as used
  Slope odometer, year, grade;
  std::vector<Placed> rows;  // as many as comparables, in their order

  double mean() const { return price.mean_above_zero(); }
};

// `realised` above zero. Throws Refusal where there is no comparable, or where the flat beliefs among the
// priors leave the comparables too few or too alike; the text names no place, the caller knows it.
SoundValue sound_value(const std::vector<Comparable>&, const Subject&, double realised,
                       const SlopePriors& = {});

// One line for each comparable that is far off or pulls, e.g.
//   comparable at line 34, 4,690.00 at 98200: 4416 on the sold basis, the others say 3120; kept, look at it
//   again
std::vector<std::string> pointed_out(const SoundValue&);

}  // namespace nonrunner::resale
