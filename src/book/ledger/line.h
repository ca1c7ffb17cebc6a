// A line of a receipt as the book holds it, and what went back of it since.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

struct Share {
  std::string vehicle;
  std::int64_t weight = 0;
};

struct Line {
  std::int64_t number = 0;
  EntryId entry = 0;
  Day day;
  std::string id, what, kind, source, supplier, stock;
  Quantity quantity, gives;
  Money amount, tax, extra;
  Money discount;        // its share of the paper's; `extra` is shipping less this
  Money core, core_tax;  // the whole deposit, and the tax that lies on it
  std::optional<Day> core_by;
  std::vector<Share> shares;
  bool tools_kept = false;  // a tool that the shop keeps as an asset

  // Gone back, or to the shelf, so far; in live entries.
  Quantity goods_back, core_back, shelved;
  Money core_back_deposit;

  Money cost() const { return amount + tax - core_tax + extra; }
  Money deposit() const { return core + core_tax; }
  Quantity left() const {
    return quantity - goods_back - shelved;
  }                                             // goods that neither went back nor to the shelf
  Quantity pieces_used(Quantity bought) const;  // what so many pieces give on the shelf
  Money core_due() const { return deposit() - core_back_deposit; }
};

std::optional<Line> find_line(const Book&, const std::string& id);  // among entries that count
Line expect_line(const Book&, const std::string& event,
                 const std::string& id);  // throws Refusal, names the nearest
// `on`: what went back of it by the end of that day.
Line line_by_number(const Book&, std::int64_t number, std::optional<Day> on = {});

// The car's part of an amount that the line's cars share.
Money part_of(const Line&, const std::string& vehicle, Money amount);

// The kind of purpose that a line's cost is to a car: part, consumable, sublet or fee.
std::string purpose_of(const Line&);
// Posts `amount` to the accounts that carry the line (its cars by weight, tools, overhead or the owner) and
// says what it was for.
void post_to_line(Draft&, const Line&, Money amount, const std::string& purpose, const std::string& what,
                  std::optional<Quantity> = {});
// Says what of a deposit on the line's core went (negative) or came back, car by car.
void deposit_of_line(Draft&, const Line&, Money amount, const std::string& what);

}  // namespace nonrunner::book
