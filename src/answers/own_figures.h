// What the shop's own cars say, gathered from the book for `learn` and for the words "own" in a job file.
//
//   pace       of a car sold running: own hours booked under operations of the appraisal in force / hours
//              estimated for these
//   realised   sale price / the price it was advertised at last
//   days       from the day it was first advertised to the day it was sold
//   place      profit after own hours of a car sold or finished / days from its purchase to that, one at least; of
//              several cars sum against sum
//   looking    what a car cost that was looked at and left
//   causes     for each cause named in an appraisal in force: cars in which it was found, of those whose
//              cause is noted
//
// A car counts from the day after it was sold (or left); what cannot be told of a car (no advert, no
// appraisal) is left out.
#pragma once
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "book/ledger/book.h"
#include "resale/own_amount.h"

namespace nonrunner::answers {

struct OwnCar {
  std::string tag;
  Day sold;
  std::optional<double> pace, realised, days;
  double profit = 0;  // after own hours, in the currency's units
  int held = 1;       // days from the purchase to the end, one at least
  // Of a sold car: why its hours say nothing of the pace. Elsewhere: none stand under an operation of its
  // appraisal.
  enum class NoPace { none, no_appraisal, no_cause, hours_elsewhere } no_pace = NoPace::none;
  double booked_hours = 0;     // own hours under operations of the appraisal
  double own_hours = 0;        // all of them
  std::size_t operations = 0;  // that have both hours and an estimate
  // What has only one of the two.
  struct LeftOut {
    std::string operation;
    bool is_estimated = false;  // then it has no hours
    auto operator<=>(const LeftOut&) const = default;
  };
  std::set<LeftOut> left_out;
};

struct KindOfWork {
  std::string kind;  // opening up, corrections, fixes, troubles
  double estimated = 0, booked = 0;
  std::size_t cars = 0;
};

struct CauseCount {
  std::size_t found = 0;    // cars in which it was the cause
  std::size_t thought = 0;  // cars with a noted cause whose appraisal named it
  double stated = 0;        // the chances that those appraisals gave it, added up
};

// What a day of the place earned.
struct OwnPlace {
  double profit = 0;
  int days = 0;
  std::size_t cars = 0;
  double a_day() const { return days > 0 ? profit / days : 0; }
  // Shrunk towards what is stated by the number of cars. Where the own ones lost money a day is worth nothing,
  // not less.
  double with_stated(double stated) const;
};

struct OwnFigures {
  std::vector<OwnCar> cars;  // sold or finished, by day
  std::vector<KindOfWork> work;
  std::map<std::string, CauseCount> causes;
  std::size_t salvage_bought = 0, salvage_back = 0;  // whole pieces
  std::vector<double> looking;                       // of each car that was left

  std::vector<double> pace() const;
  double least_pace() const;  // below it a pace is not believed: 0.25 from fewer than ten operations
  std::vector<double> realised() const;
  std::vector<double> days() const;
  OwnPlace place() const;
};

// Cars sold, left, and parts bought before that day.
OwnFigures own_figures(const book::Book&, Day before);

}  // namespace nonrunner::answers
