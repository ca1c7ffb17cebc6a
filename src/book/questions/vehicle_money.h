// Every movement of money about one car, line by line, named as people name it: what a profit or a job report
// lists. The lines of a car sold or finished add up to its cash profit (deposits that come and go aside):
// money in is positive.
#pragma once
#include <string>
#include <vector>

#include "book/ledger/line.h"
#include "book/questions/figures.h"

namespace nonrunner::book {

enum class MoneyKind {
  purchase,
  fee,
  part,
  consumable,
  sublet,
  paid_hours,
  other_cost,  // transfers, parts put on the shelf, cores that came back short, the difference of a replaced
               // paper
  recovered,
  selling_cost,
  commission,
  deposit_kept,
  sale,
  due_back  // cores and buyers' deposits: money that goes and comes back, no part of the profit
};

// Of the car: what a line of its budget can be booked on.
bool is_cost(MoneyKind);

struct MoneyLine {
  Day day;
  EntryId entry = 0;
  std::string paper;           // supplier and number
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

struct WorkLine {
  Day day;
  EntryId entry = 0;
  std::string operation;
  Hours own, paid;
  bool after_sale = false;
};
std::vector<WorkLine> work_of(const Book&, const std::string& tag, std::optional<Day> on = {});
std::vector<std::pair<Day, Money>> adverts_of(const Book&, const std::string& tag);

}  // namespace nonrunner::book
