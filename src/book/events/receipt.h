// A receipt: a paper with a total and what it lists; one entry.
//
// It bears the day that is printed on it; one that takes the place of a quick line the earlier of both days
// (out of a closed period: the first open day; as far as the quick line went it stands under its day).
//
//   each line's account + amount + its share of tax and shipping - its share of the discount
//   core deposit        + deposit (and the tax on it, where the deposit is taxed)
//   (a tool: the shop's tools, an expense, or an asset where the shop or the paper says so)
//   purses              - what each paid;  supplier - what stays on account
//
// Tax is spread over the taxed lines, shipping and discount over all lines, in proportion to their amounts,
// by largest remainders: no cent is lost. A line for several cars is spread by its weights.
//
// Refused, the first that applies (one test walks this list):
//    1 no line; more than 2000, or more than 100 cars on a line, or purses that paid
//    2 a line that says neither or both of unit and amount, or no quantity, or not what
//    3 a line without a place for its cost (a car, a shelf), or with a wrong one
//    4 shipping or discount below 0, tax but no taxed line, or taxed lines that add up to 0
//    5 lines + tax + shipping - discount differ from the printed total
//    6 what was paid differs from the total and nothing is on account
//    7 the entry to be replaced is no receipt that counts     8 the same paper is in the book already
//    9 a line's id is in use           10 (entered now) a last day that lies before that of the paper
//   11 a whole paper, or one on account, without a supplier; one that is a slip of a known one (typed)
//   12 a core handed over that core_back.h would refuse, goods given back that goods_back.h would
//   or twice on one paper
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "book/events/out_of.h"
#include "book/ledger/line.h"

namespace nonrunner::book {

class Fields;

// What a line of a receipt may be, and where its goods may come from: the words of files, options and
// columns.
const std::vector<std::string>& line_kinds();
const std::vector<std::string>& line_sources();

// What a line is called that was kept without a word, until it is named.
inline constexpr const char* name_to_come = "not named yet";

struct ReceiptLine {
  std::string place;  // "paper.toml:12" for messages; empty: typed
  std::string id;     // made up where empty
  std::string what;
  Quantity quantity = Quantity::of(1000);
  std::optional<Price> unit;
  std::optional<Money> amount;  // "3 for 10.00": the line's amount instead of a unit price
  std::string kind;             // part, consumable, sublet, fee, stock, tool, overhead, private
  std::string source;           // new, salvage, reman or empty
  std::vector<Share> shares;    // weights in thousandths; one car: one share
  std::string stock;
  Quantity gives = Quantity::of(1000);  // used units in each piece bought
  Money core;                           // deposit for each piece, not in `unit`
  std::optional<Day> core_by;
  bool taxed = false, tax_on_core = false;
  std::string core_of;    // a negative line: an old part handed over the counter for the deposit of this line
  std::string return_of;  // a negative line: goods of this earlier line given back on this paper; no line of
                          // its own in the book
  std::map<std::string, std::string> under;  // by car: the line of its budget, as said; empty: under none
  bool more = false;                         // more is to come under that line
  bool unnamed = false;                      // kept without a word: `what` stands where its name is to come
  std::optional<Money> deposit;              // of core_of: see CoreBack
  std::string from;                          // of return_of: see GoodsBack
  std::vector<OutOf> out_of;
};

struct Receipt {
  Day day;
  std::string supplier, number;
  std::vector<std::pair<std::string, Money>> paid;
  Money tax, shipping, discount, total;
  std::vector<ReceiptLine> lines;
  std::optional<Day> back_by;
  std::optional<EntryId> replaces;
  std::string tools;  // "asset" or "expense": what its tools are to the shop; empty: as the shop has set
  bool on_account = false;
  bool later = false;    // what it replaces lies in a period that was closed: see void_entry.h
  bool again = false;    // the same paper twice is meant
  bool itemised = true;  // false: the quick line, waiting for its paper
  bool on_paper = true;  // false: there was no paper, and none is waited for
};

void fields(Receipt&, Fields&);
void fields(ReceiptLine&, Fields&);
EntryId record(Recording&, const Receipt&);

// Each line's share of the paper's discount.
std::vector<Money> discounts_of(const Receipt&);

// "Cleave Yard 3071", or "Cleave Yard of 2025-03-02 over 46.20" where it has no number.
std::string called(const Receipt&, const Currency&);
// A quick line is money that was spent: refuses one of 0 or less for what is typed, entered or put right.
void expect_something_paid(Money total, const std::string& event, const Currency&);

// The live receipt that is the same paper: supplier and number, or supplier, day and total where one has no number. A
// quick line that waits is no paper.
std::optional<EntryId> same_paper(const Book&, const Receipt&);

}  // namespace nonrunner::book
