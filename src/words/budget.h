// A car's budget (answers/budget.h) in words, said alike on every surface.
#pragma once
#include <string>
#include <vector>

#include "answers/budget.h"
#include "book/questions/figures.h"

namespace nonrunner::words {

// "31 %", "under 1 %".
std::string chance_of_line(double chance);
bool is_certain(const answers::BudgetLine&);
// What is to come of a line: what is not certain is said as what it comes to if it is needed, and is no sum.
std::string to_come_of(const answers::BudgetLine&, const Currency&);
std::string to_come_of(const answers::BudgetWork&);

// A row of the budget as it is shown: `expected` "not in it" where it is not; at the end: booked and to come.
struct BudgetRow {
  int number = 0;
  std::string name;    // without its number
  std::string chance;  // empty: for certain
  std::string expected, booked, to_come, at_end;
};
// `ended`: of a car sold or finished nothing is to come.
BudgetRow row_of(const answers::BudgetLine&, bool ended, const Currency&);
BudgetRow row_of(const answers::BudgetWork&, bool ended);

// "against the appraisal of 2026-05-02, cause "..."".
std::string against(const answers::Budget&);
// What the break-even price rests on, a sentence or two each. `note_cause` says how the cause that was found is
// noted, in the words of the front end.
std::vector<std::string> ahead(const book::Book&, const answers::Budget&, const book::VehicleFigures&,
                               Day today, std::optional<Day> on, const std::string& note_cause);
// What stands against the price or the appraisal: faults left on the car, tests that speak against the cause,
// findings that it does not know.
std::vector<std::string> doubts(const answers::Budget&);

// What of the fees stays to come though the car is bought; empty where nothing does.
std::string fees_ahead(const answers::Budget&, const Currency&);

}  // namespace nonrunner::words
