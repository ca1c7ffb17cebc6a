// What the year workbook is made of (reports/year.h says what it shows).
#pragma once
#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "exact/currency.h"
#include "exact/day.h"
#include "exact/money.h"
#include "exact/thousandths.h"
#include "figures/book_state.h"
#include "figures/due.h"
#include "figures/sale.h"
#include "figures/trip.h"

namespace nonrunner::figures {

// A vehicle that stood in the inventory on the first day, or that money moved for within the year.
struct YearVehicle {
  std::string tag, description;
  std::string state;        // at the end, in words: owned, in pieces, sold, finished, considered
  bool considered = false;  // at the end not bought yet
  std::optional<Day> bought_on, ended_on;  // as it was said
  bool ended_in_year = false;              // its money ends in it
  Money opening;                           // its cost in the inventory before the first day
  Money added;                             // put in within the year
  Money recovered;                         // parts sold off before the sale, which lowered its cost
  Money cost_of_sales;                     // moved out of the inventory by a sale or a write-off
  Money closing;                           // its cost in the inventory at the end
  Money sales, selling_costs;              // commission in the selling costs
  Money other_income;                      // deposits kept, parts sold off after the sale
  Money late_cost;
  Hours own_hours, hours_before;      // within the year; in the years before it
  std::optional<Money> still_brings;  // of a car in pieces: what is still expected for it
  bool parts_sold_off = false;        // an owned one, of which nobody said what it will still bring
};

struct YearMonth {
  Day first;  // of the month
  Money sales, cost_of_sales, selling_costs, other_income, late_cost, overhead, tools, looking;
};

struct YearPurse {
  std::string name, kind;
  Money opening, in, out, closing;
};

struct YearStock {
  std::string item;
  Quantity quantity;                    // at the end
  Money opening, added, used, closing;  // used: drawn, and what counts found short
};

// A tool, an overhead, a paper without a receipt.
struct YearLine {
  Day day;
  std::int64_t entry = 0;
  std::string paper, what, about;  // about: the vehicle or the account
  Money amount;
  bool of_before = false;  // it takes back one of an earlier year, or puts one right
};

struct YearAccount {
  std::string name, kind;
  Money balance;  // debits positive, credits negative
  enum class Group { there, owed, owner, result } group = Group::there;
};

// Who was paid for hours; without a name those of whom none was said.
struct YearHelper {
  std::string name;
  std::size_t entries = 0;
  Money amount;
};

// An entry of the journal, as it was typed.
struct YearEntry {
  std::int64_t entry = 0;
  Day day;
  std::string kind, what;
  Money amount;
  std::int64_t voids = 0, voided_by = 0;
};

// What was put into cars, by what it was for.
enum class BoughtFor {
  cars,
  fees,
  parts,
  consumables,
  sublet,
  paid_help,
  moved_between_cars,
  moved_to_shelf,
  other,
  not_said,    // by entries of an older book
  after_sale,  // off the whole: what came after a sale
  looking      // off the whole: looking at cars that were left
};
struct YearBought {
  BoughtFor what = BoughtFor::other;
  std::string source;  // of parts: new, salvage, reman; empty: not said
  std::size_t entries = 0;
  Money amount;
};

// What the shop owes: to a buyer whose deposit it holds, a supplier, who collects the sales tax, a card.
struct YearOwed {
  enum class Kind { buyer_deposit, on_account, sales_tax, card } kind = Kind::on_account;
  std::string name;
  Money amount;
};

struct YearFigures {
  int year = 0;
  Currency currency;
  Day made_on;
  BookState book;
  std::string distance_unit = "mi";
  std::vector<YearVehicle> vehicles;
  std::vector<YearMonth> months;  // twelve, or those that are over
  std::vector<YearPurse> purses;
  std::vector<YearStock> stock;
  std::vector<Trip> trips;
  std::vector<YearLine> tools, overhead, without_paper;
  std::vector<YearLine> parts_sold;         // off cars, and scrap: gross; given back below zero
  std::vector<YearLine> tools_kept;         // as an asset; first what stood there before (entry 0)
  std::vector<Due> due;                     // to us
  std::vector<YearOwed> owed;               // by us
  Money credit_due;                         // what of `due` is a shop's credit, which is a purse as well
  std::vector<Sale> sales;                  // of this year and the one before, by day
  Money card_owed;                          // what of `owed` stands in the purses as well, below zero
  std::optional<std::int64_t> sales_limit;  // in any twelve months, as set for the local dealer rule
  std::vector<YearAccount> trial;
  std::vector<YearEntry> entries;  // of the year, voided ones and reversals among them
  std::vector<YearBought> bought;
  std::vector<YearHelper> helpers;
  Money carried_before;                      // by the cars, at the end of the year before
  Money opening_capital, put_in, taken_out;  // what the owner had in the shop, and moved
  Money owner_on_papers;                     // bought for the owner on the shop's papers
  Money tax_collected, tax_passed_on;        // sales tax
  Money tax_paid;                            // as receipts say it, in the costs; less what came back
  Money sales_returned;                      // of sales that fell through in the year; off its sales already
  Money result;                              // of the year, before own hours, as the book says
};

// How many things were bought in the year without a paper: what puts right one of an earlier year stands in the list of both.
inline std::size_t bought_without_paper(const YearFigures& figures) {
  return static_cast<std::size_t>(std::count_if(figures.without_paper.begin(), figures.without_paper.end(),
                                                [](const YearLine& line) { return !line.of_before; }));
}

}  // namespace nonrunner::figures
