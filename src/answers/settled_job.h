// What a job file leaves to the book, worked out: its "own" figures, and the comparables that [value] from =
// "book" asks for. The file itself is never edited: the figures are put into its tree, each at the line of
// the word that it takes the place of, so that messages stay right.
//
//   [shop] pace, [sale] realised, [sale] days   "own", or ["own", low, likely, high]: what it is shrunk from
//   [shop] bay_per_day                          "own", or ["own", amount]; shrunk from 0 where none is stated,
//                                               since a place that no car has left yet has earned nothing
//   [[cause]] odds                              "own", or ["own", odds]; of all causes or of none
//
// What a person changed by hand is settled as well (answers/by_hand.h).
//
// Own figures are shrunk towards the stated ones (else common practice, resale/own_amount.h; odds: all
// alike) by the number of cars. Both are shown.
#pragma once
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "appraisal/job.h"
#include "book/ledger/book.h"
#include "chance/three_point.h"
#include "text/value.h"

namespace nonrunner::answers {

// What was taken for a figure, beside what was stated of it and what the own cars say.
struct SettledAmount {
  std::string key;  // pace, realised, days, bay_per_day
  ThreePoint stated, taken;
  std::size_t stated_counts_as = 0;  // cars
  double own = 0;                    // their mean
  std::size_t own_cars = 0;
};
struct SettledOdds {
  std::string cause;
  double stated = 0, taken = 0;
  std::size_t found = 0, cars = 0;  // that had it, of so many
};
struct SettledRows {
  std::size_t fitting = 0, kept = 0;  // comparables
};
using SettledNote = std::variant<SettledAmount, SettledOdds, SettledRows>;

struct Settled {
  std::string figures;  // TOML, as a kept appraisal holds it; empty where nothing was left to the book
  std::vector<SettledNote> notes;
};

// `book` may be absent where the file needs none; throws Refusal at the line that does. Only cars sold before
// `day` count.
Settled settled(const Value& job, const std::string& name, const book::Book* book, Day day);
// The same with no car at all: what is believed beforehand. Comparables are left alone.
Settled believed(const Value& job, const std::string& name);
// Puts such figures in. Precondition: they were worked out for this file.
void settle(Value& job, const std::string& figures);

struct ReadJob {
  appraisal::Job job;
  Settled settled;
};
// The text of a job file, settled and read; throws Refusal for every mistake in it.
ReadJob read_settled_job(const std::string& text, const std::string& name, const book::Book* book,
                         const Currency&, Day day);

}  // namespace nonrunner::answers
