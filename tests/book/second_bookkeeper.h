// A second bookkeeper, so that an error which the book and its author share does not pass for the truth:
// plain lists of facts, single entry, no accounts, no SQL and nothing of the book's own arithmetic. Written
// from the words of the design, not from the code. Money in minor units, pieces, hours and distance in
// thousandths, days as numbers.
#pragma once
#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace second {

using Number = std::int64_t;
constexpr int never = std::numeric_limits<int>::max();

// Shares of a total by weight: whole parts first, then unit by unit to the largest remainder, the earlier one
// among equals.
std::vector<Number> shared_out(Number total, const std::vector<Number>& weights);
Number half_away(Number numerator, Number denominator);  // rounded quotient, halves away from zero

struct Part {
  std::string tag;
  Number weight;
};

struct PaperLine {
  std::string id, kind;
  Number pieces = 1000, unit_fine = 0,
         amount = 0;  // a unit price in thousandths of a minor unit, or an amount
  std::vector<Part> parts;
  std::string stock;
  Number gives = 1000, core_each = 0;
  bool taxed = false, tax_on_core = false, tools_kept = false;  // tools_kept: as an asset
  std::string core_of, return_of;
  // Worked out by the keeper:
  Number tax = 0, core = 0, core_tax = 0, extra = 0, discount = 0;
};

struct Paper {
  std::string supplier;
  std::vector<std::pair<std::string, Number>> paid;
  Number tax = 0, shipping = 0, discount = 0, total = 0;
  std::vector<PaperLine> lines;
  bool itemised = true, on_paper = true;
  int replaces = 0;
};

// Something that was true from `day` on, until `gone_from` (a day) if it was taken back.
struct Lasting {
  int event = 0, day = 0, gone_from = never;
  bool counts() const { return gone_from == never; }
  bool counted_on(int on) const { return day <= on && gone_from > on; }
};
struct Fact : Lasting {
  Number amount = 0, pieces = 0;
  int stands = 0;        // under which day it counts
  std::string of_shelf;  // of a shelf, whose figures follow days: the item
};
// What was told of a shelf.
struct ShelfTold : Lasting {
  std::string what;              // in, back, draw, count
  std::string tag;               // draw
  Number pieces = 0, worth = 0;  // worth: of what comes in; of what goes back what its whole line cost
  std::string line;              // of what goes back, and the pieces that its line gave:
  Number line_pieces = 0;
};
struct Turn : Lasting {
  std::string what;  // bought, sold, finished, passed
};
struct Back : Lasting {
  std::string what;  // goods, core, shelf
  Number pieces = 0, goods = 0, tax = 0, deposit = 0;
};
struct LineKept : Lasting {
  PaperLine line;
  std::vector<Back> backs;
  Number cost() const { return line.amount + line.tax - line.core_tax + line.extra; }
  Number deposit() const { return line.core + line.core_tax; }
  Number sum(const std::string& what, Number Back::*field) const;
  Number pieces_left() const {
    return line.pieces - sum("goods", &Back::pieces) - sum("shelf", &Back::pieces);
  }
  // Of the next pieces that go back: their part of the price less the discount, and of the tax.
  Number refund(Number all, Number now) const;
  Number goods_of(Number now) const { return refund(line.amount - line.discount, now); }
  Number tax_of(Number now) const { return refund(line.tax - line.core_tax, now); }
  Number core_due() const { return deposit() - sum("core", &Back::deposit); }
};
struct PaperKept : Lasting {
  std::vector<std::string> lines;
  std::string supplier, purse;  // purse: the first that paid some of it
  bool waits = false, on_account = false;
};

struct Car {
  std::string state = "considered";
  int bought_day = 0, ended_day = 0, bought = 0, ended = 0;
  Number cost = 0, late = 0, recovered_before = 0, recovered_after = 0, sales = 0, selling = 0, kept = 0,
         held = 0;
  Number carried = 0, own = 0, paid = 0, distance = 0, cost_less_recovered = 0;
  Number cash_profit = 0, profit = 0, break_even = 0;
  std::optional<Number> still_brings;  // of an owned car in pieces
};

class Keeper {
 public:
  void begin(int event, int day) { event_ = event, day_ = day; }
  int closed = -1;  // the last day of the closed period
  Number hour = 0;  // what an own hour must earn

  // Events, in the words of the events file.
  void owner(const std::string& purse, Number amount);
  void move(const std::string& from, const std::string& to, Number amount);
  void buy(const std::string& tag, Number price, const std::string& purse, Number fee,
           const std::string& fee_purse);
  void pass(const std::string& tag) { turn(tag, "passed"); }
  void receipt(Paper paper);
  // Where the money goes: `off` what is owed to the supplier, the rest into the purse.
  struct Where {
    Number off;
    std::string purse;
  };
  void goods_back(const std::string& line, Number pieces, Number goods, Number tax, Number restocking,
                  const Where&);
  void core_back(const std::string& line, Number pieces, Number received, const Where&);
  // What nobody says otherwise: off what is owed where the paper was on account, the rest to who paid.
  Where money_back(const std::string& line, Number amount) const;
  const PaperKept& paper_of(const std::string& line) const;
  void tool_deposit(const std::string& what, Number amount, const std::string& purse);
  void deposit_lost(const std::string& what, Number amount);
  void hours(const std::string& tag, Number own, Number paid, Number rate_fine, const std::string& purse);
  void draw(const std::string& tag, const std::string& item, Number pieces);
  void count(const std::string& item, Number found);
  void shelve_line(const std::string& line, const std::string& item, Number pieces);
  void shelve(const std::string& tag, const std::string& item, Number pieces, Number amount);
  void transfer(const std::string& from, const std::string& to, Number amount);
  void recover(const std::string& tag, Number amount, const std::string& purse);
  void recover_back(const std::string& tag, Number amount, const std::string& purse);
  void buyer_deposit(const std::string& tag, Number amount, const std::string& purse);
  void deposit_kept(const std::string& tag, Number amount);
  void deposit_back(const std::string& tag, Number amount, const std::string& purse);
  // `costs`: the commission among them; `rate`: thousandths of the price that it is, or 0.
  void sell(const std::string& tag, Number price, Number tax, Number deposit_used, Number costs, Number rate,
            const std::string& purse);
  void part_out(const std::string& tag, Number still_brings) { add("pieces " + tag, still_brings); }
  void selling_cost(const std::string& tag, Number amount, const std::string& purse);
  void write_off(const std::string& tag) { turn(tag, "finished"); }
  void trip(const std::vector<Part>& parts, Number distance);
  void pay(const std::string& supplier, Number amount, const std::string& purse);
  void sales_tax_paid(Number amount, const std::string& purse);
  void take_back(int event);

  // What stands now, or stood at the end of a day.
  Number sum(const std::string& place) const;
  Number sum_on(const std::string& place, int on) const;
  Number pieces(const std::string& item) const;
  Number pieces_on(const std::string& item, int on) const;
  Car car(const std::string& tag) const;
  Car life(const std::string& tag) const;  // its state and its turning points only
  std::vector<std::string> tags() const;
  std::vector<std::string> places(const std::string& beginning) const;
  std::map<std::string, Number> cores_due() const;
  const std::map<std::string, LineKept>& lines() const { return lines_; }
  std::vector<int> quick_lines() const;  // events that wait for their paper

 private:
  void add(const std::string& place, Number amount, Number pieces = 0);
  void tell_shelf(const std::string& item, const std::string& what, const std::string& tag, Number pieces,
                  Number worth, const std::string& line = "", Number line_pieces = 0);
  void reckon_shelf(const std::string& item);
  void turn(const std::string& tag, const std::string& what);
  void spend(const std::vector<Part>& parts, Number amount, bool off = false);
  void spend_on_line(const PaperLine& line, Number amount);
  void goods_went_back(const std::string& line, Number pieces, Number goods, Number tax, Number refund);
  void take_money(const std::string& line, Number amount, const Where&);
  void core_went_back(const std::string& line, Number pieces, Number received);
  void work_out(Paper& paper) const;
  Lasting now() const { return {event_, day_, never}; }

  int event_ = 0, day_ = 0;
  std::map<std::string, std::vector<Fact>>
      facts_;  // "purse cash", "spent pip", "recovered pip", "shelf gloves", ...
  std::map<std::string, std::vector<Turn>> turns_;
  std::map<std::string, LineKept> lines_;
  std::map<int, PaperKept> papers_;
  std::map<std::string, std::vector<ShelfTold>> shelves_;
};

}  // namespace second
