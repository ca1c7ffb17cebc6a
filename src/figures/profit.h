// What the profit workbook is made of (reports/profit.h says what it shows).
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "exact/day.h"
#include "exact/money.h"
#include "exact/price.h"
#include "exact/rate.h"
#include "exact/thousandths.h"
#include "figures/book_state.h"
#include "figures/money_kind.h"
#include "figures/open.h"
#include "figures/work.h"

namespace nonrunner::figures {

using ProfitKind = MoneyKind;  // all but the last three are costs of the car or money that lowers them

struct ProfitLine {
  Day day;
  std::int64_t entry = 0;  // its number in the journal
  std::string paper;       // supplier and number
  std::string what;
  ProfitKind kind = ProfitKind::part;
  std::string source;                // new, salvage, reman, or empty
  std::optional<Quantity> quantity;  // where pieces mean something
  Money amount;                      // what it brings: money in is positive, money out negative
  bool after_sale = false;           // came after the first result
  UnderEstimate under = {};          // of `costs` and `cost_headings`
  bool without_paper = false;        // it should have one, and there is none
  bool from_shelf = false;           // bought before, on a paper of the shelf's own
};

// A line of the appraisal in force at purchase, at its expected quantity and price (standard costing: the
// standard).
struct EstimatedCost {
  std::string name;
  Quantity quantity = Quantity::of(1000);
  Price price;
  std::string note;      // shown beside it
  bool by_piece = true;  // false: its lines are of different things, so that only the amounts are compared
};

struct EstimatedHours {
  std::string operation;
  Hours own;
};

struct ProfitEstimate {
  Day kept_on;
  std::string cause;           // the cause that it was reckoned for
  bool cause_is_noted = true;  // false: nobody noted one, and this was the likeliest
  std::vector<EstimatedCost> costs;
  std::vector<EstimatedHours> hours;
  // Headings of one's own, for what was not expected.
  std::vector<std::string> cost_headings, hours_headings;
  Money hour;                            // what an own hour had to earn then
  std::optional<Money> sale_price;       // expected
  std::optional<Money> holding_per_day;  // imputed, never booked: no part of the expected cash profit
  std::optional<std::size_t>
      commission_under;  // the place in `costs` of the line that a commission falls under
  double days = 0;       // expected, from the purchase to the sale
};

// Why there is nothing to measure against: no appraisal is kept; or the first was kept on a day after the
// purchase; or the one that was kept by it has no way to put the car right.
struct NoEstimate {
  std::optional<Day> first_kept_on;
  bool cannot_be_put_right = false;
};

struct ProfitFigures {
  std::string tag, description, complaint;
  Currency currency;
  Day made_on;  // the day of the report: the file's own date
  BookState book;
  enum class State {
    owned,
    sold,
    in_pieces,
    finished
  } state = State::owned;                 // in pieces: parts are still being sold off
  std::optional<Day> bought_on, sold_on;  // sold_on: or finished
  std::vector<Open> open;                 // the result is final when it is empty
  std::vector<std::pair<Day, Money>> advertised;
  Money hour;  // what an own hour must earn
  Rate
      commission_rate;  // of the sale price; a commission line is reckoned from it where it gives that amount
  std::optional<Money>
      expected_price;  // of a vehicle not sold yet, for the picture; else the break-even price is taken
  // Of a vehicle not sold yet: what the appraisal in force still expects. Absent: nothing.
  struct StillToCome {
    Money cost, selling_costs;  // the commission apart
  };
  std::optional<StillToCome> to_come;
  // As the papers of the purchase and the sale name them, where it was said.
  std::string vin, seller, buyer, odometer_bought, odometer_sold;
  std::string distance;           // "126 mi", of its trips; no money
  std::vector<ProfitLine> lines;  // by day
  std::vector<Work> hours;        // by day
  std::optional<ProfitEstimate> estimate;
  NoEstimate no_estimate;            // where it is absent
  std::optional<Money> cash_profit;  // what the book says; absent while it is owned
};

}  // namespace nonrunner::figures
