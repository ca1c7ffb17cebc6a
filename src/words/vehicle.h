// The figures of one car (book/questions/figures.h) in words, said alike on every surface.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/questions/figures.h"

namespace nonrunner::words {

// The one figure that matters most, with what is said over it.
struct Headline {
  std::string about;  // "pip sold on 2026-05-02, 41 days after the purchase: final"
  std::string label;  // "CASH PROFIT", "BREAK-EVEN PRICE"; empty where there is no such figure
  Money amount;       // of a loss without its sign
  bool is_loss = false;
};
Headline headline(const book::VehicleFigures&);

struct FigureRow {
  std::string what, value, remark;  // a row without a value is left out already
};
// The few figures under the headline; then all others.
std::vector<FigureRow> main_figures(const book::VehicleFigures&, const book::Book&);
std::vector<FigureRow> other_figures(const book::VehicleFigures&, const book::Book&);
// Of a car with own hours in a book in which nobody said what an hour must earn: what it counts as; else empty.
std::string hour_not_set(const book::VehicleFigures&, const book::Book&);

}  // namespace nonrunner::words
