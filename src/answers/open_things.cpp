#include "answers/open_things.h"

namespace nonrunner::answers {

using Kind = figures::Open::Kind;

std::vector<figures::Open> waiting_things(const book::VehicleFigures& figures) {
  std::vector<figures::Open> all;
  for (const book::EntryId entry : figures.waiting) all.push_back({Kind::paper, {}, {}, {}, entry});
  if (!is_zero(figures.deposit_held)) all.push_back({Kind::deposit, {}, {}, figures.deposit_held, 0});
  return all;
}

std::vector<figures::Open> open_things(const book::VehicleFigures& figures) {
  std::vector<figures::Open> all;
  for (const book::Due& due : figures.due)
    all.push_back({Kind::due, due.what, due.from, due.amount, 0, due.kind});
  for (const figures::Open& each : waiting_things(figures)) all.push_back(each);
  return all;
}

}  // namespace nonrunner::answers
