// Every movement of money about one car, line by line, named as people name it: what a profit or a job report
// lists. The lines of a car sold or finished add up to its cash profit (deposits that come and go aside):
// money in is positive.
#pragma once
#include <string>
#include <vector>

#include "book/ledger/line.h"
#include "book/questions/figures.h"
#include "figures/money_kind.h"
#include "figures/work.h"

namespace nonrunner::book {

using figures::is_cost;
using figures::MoneyKind;

struct MoneyLine {
  Day day;
  EntryId entry = 0;
  std::string paper;           // supplier and number: its own, or that on which its line was bought
  bool without_paper = false;  // of a receipt that without_paper() of period.h lists
  std::string what;
  MoneyKind kind = MoneyKind::part;
  std::string source;
  std::string line;              // id of the receipt line
  std::int64_t line_number = 0;  // the book's own number of it; 0: none
  bool quick = false;            // a line of a receipt that is not itemised: its pieces were not counted
  std::string operation;         // of paid hours
  std::optional<Quantity> quantity;
  Money amount;
  bool after_sale = false;
};

// By day, then entry; entries that count. `on`: as it stood at the end of that day.
std::vector<MoneyLine> money_of(const Book&, const std::string& tag, std::optional<Day> on = {});

// The estimate is known to the budget alone.
std::vector<figures::Work> work_of(const Book&, const std::string& tag, std::optional<Day> on = {});
std::vector<std::pair<Day, Money>> adverts_of(const Book&, const std::string& tag);

}  // namespace nonrunner::book
