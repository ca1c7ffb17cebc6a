// The figures that every command, workbook and export shows, from entries that count (position.h tells what
// became of a car's cost). `on`: as it stood at the end of that day, by the days of the entries.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/names.h"
#include "exact/rate.h"
#include "figures/due.h"

namespace nonrunner::book {

struct OperationHours {
  std::string operation;
  Hours own, paid;
};

using figures::Due;

// What is still expected of a car that is not sold: from the appraisal in force; nothing where there is none.
struct Expected {
  Money to_complete, selling_costs;
  Rate commission;
};

struct VehicleFigures {
  std::string tag;
  Life life;
  Money cost;              // all that was put into the car before the sale
  Money price_paid, fees;  // what of it the purchase was
  Money recovered_before, recovered_after;
  Money recovered_beyond_cost;  // what of recovered_before is income, as the cost was recovered already
  Money sales, selling_costs, deposit_kept, late_cost;
  Money carried;                                         // what of the cost is still in the inventory
  std::optional<Money> still_brings;                     // of a car in pieces, see part_out.h
  Money looking;                                         // what looking cost, of a car that was passed
  Money deposit_held;                                    // a buyer's, not used yet
  std::optional<Money> cash_profit, profit;              // of a car sold or finished; profit: after own hours
  std::optional<Money> first_cash_profit;                // at the end of the day of the sale
  std::optional<double> margin, margin_after_own_hours;  // divisor: the sale price
  std::optional<Money> per_own_hour;
  std::optional<Money> break_even_price;
  Rate commission_rate;  // of a sold car: agreed as a share of the price; zero: as an amount, or none
  Hours own_hours, paid_hours;
  Money hour;  // what an own hour had to earn: on the day that it was sold or finished, else on the day asked
  Distance distance;
  std::optional<int> days;  // purchase to sale
  int days_held = 0;        // so far, of a car that is owned
  bool final = false;       // sold or finished, and nothing is due any more
  std::optional<Money> advertised_first, advertised_last;
  std::vector<OperationHours> hours;  // in the order of their first entry
  std::vector<Due> due;
  std::vector<EntryId> waiting;  // quick lines that wait to be itemised
};

VehicleFigures figures_of(const Book&, const std::string& tag, Day today, std::optional<Day> on = {},
                          const Expected& = {});

struct NamedBalance {
  std::string name;
  Money amount;
  Quantity quantity;
};
std::vector<NamedBalance> balances(const Book&, const std::string& account_kind, std::optional<Day> on = {});
std::vector<Due> dues(const Book&, std::optional<Day> on = {},
                      const std::string& vehicle = {});  // by last day, open ones last
Money trial_balance(const Book&);                        // zero in a sound book

struct Waiting {
  EntryId entry;
  Day day;
  std::vector<std::string> vehicles;
  std::string what, supplier;
  Money total;
};
// Quick lines of which there is a paper: without one (on_paper = 0) there is nothing to wait for.
std::vector<Waiting> tray(const Book&, std::optional<Day> on = {}, const std::string& vehicle = {});

// Lines that can still be taken back at the end of `day`: their paper names a last day that is not over, and
// pieces are left whose old part was not handed in. Of one car: its own lines, and its part of each refund.
struct MayGoBack {
  std::string line, what, supplier;
  Day by;
  Money refund;
};
std::vector<MayGoBack> may_go_back(const Book&, Day day, const std::string& vehicle = {});

}  // namespace nonrunner::book
