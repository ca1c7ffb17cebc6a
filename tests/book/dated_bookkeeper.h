// A bookkeeper by days: it keeps the list of what was typed and nothing else. Asked about a day, it takes
// exactly the entries that count on that day, reads them in the order of days and adds up plain maps. No
// accounts, no SQL, no running balance and nothing of the book's own code, so that an error which the book
// and its author share does not pass for the truth. Written from the words of the design.
//
// Money in minor units, pieces, hours and distance in thousandths, days as numbers. What is decided once,
// when an entry is made (refund and tax, the purse, what goes off a debt, a tool's line, whose unit of a
// deposit it is, out of which car a tool comes), stands in the event.
#pragma once
#include <limits>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "book/second_bookkeeper.h"

namespace dated {

using second::Number;
using second::Part;
constexpr int never = std::numeric_limits<int>::max();

struct Line {
  std::string id, kind;  // part, consumable, sublet, fee, stock, tool, overhead, private
  Number pieces = 1000, amount = 0;
  std::vector<Part> parts;  // the cars, with their weights
  std::string stock;
  Number gives = 1000, core_each = 0;
  bool taxed = false, tax_on_core = false, tools_kept = false;
  std::string core_of, return_of;
  std::optional<Number> share;  // of core_of: what of the deposit was decided to be theirs
  // Its shares of what the whole paper bears, see worked_out().
  Number tax = 0, core = 0, core_tax = 0, shipping = 0, discount = 0;

  Number cost() const { return amount + tax - core_tax + shipping - discount; }
  Number deposit() const { return core + core_tax; }
};

struct Named {
  std::string name;
  Number amount = 0;
  std::string purse;
};

// One statement. Which fields an event uses: the words of the events file.
struct Event {
  std::string name;  // how later events call it
  std::string word;
  int day = 0;
  std::string tag, to, purse, item, supplier, line, what;
  Number amount = 0, tax = 0, pieces = 0;
  Number off = 0;    // of what comes back: what lowers what is owed to the supplier
  Number cores = 0;  // return: pieces that take their deposit with them, and the deposit that came
  Number deposit = 0;
  std::optional<Number> share;  // what of the line's deposit was decided to be theirs
  std::optional<std::map<std::string, Number>>
      out_of;  // of a tool: what was decided to come out of which car
  Number restocking = 0, kept = 0, own = 0, paid_hours = 0, rate_fine = 0;
  std::vector<Part> parts;    // of a trip
  std::vector<Named> costs;   // of a sale; the fees of a purchase
  Number used = 0, rate = 0;  // of a sale: the deposit used; the commission in thousandths of the price
  std::vector<Line> lines;    // of a receipt
  std::vector<std::pair<std::string, Number>> paid;
  Number shipping = 0, discount = 0, total = 0;
  bool itemised = true, on_paper = true;
  std::string names;  // the event that a void takes back, the quick line that a paper replaces
  bool later = false;
  bool makes_way = false;  // of a void: of one more quick line whose place the next paper takes
  std::optional<std::vector<std::string>> stays;  // of a sale's costs; absent: all of them
};

// The paper's tax, shipping and discount on its lines.
void work_out(Event& receipt);
// round(A(g + k)/n) - round(A g/n): what k of n pieces are, after g went before.
Number step(Number all, Number before, Number pieces, Number of);
// What the supplier gives back by default for k pieces of the line after g went back.
struct Refund {
  Number goods, tax;
};
Refund refund_of(const Line&, Number before, Number pieces);

struct Shelf {
  Number pieces = 0, value = 0;
};

struct LineNow {
  Line line;
  std::string supplier, purse;
  bool on_account = false;
  int day = 0;
  Number goods_back = 0, shelved = 0, cores_back = 0, deposit_back = 0;
  Number left() const { return line.pieces - goods_back - shelved; }
  Number cores_out() const { return line.core > 0 ? line.pieces - cores_back : 0; }
  Number due() const { return line.deposit() - deposit_back; }
};

struct Dated {
  int day;
  Number amount;
};

// A car on a day, in the words of the figures.
struct Position {
  std::string state = "considered";
  Number cost = 0, late = 0, recovered_before = 0, recovered_after = 0, beyond_cost = 0;
  Number sales = 0, selling = 0, kept = 0, held = 0, carried = 0, looking = 0, cost_of_sale = 0;
  Number own = 0, paid_hours = 0, distance = 0, cash_profit = 0, profit = 0, break_even = 0;
  std::optional<int> bought, ended;
  int bought_said = 0, ended_said = 0;  // when it happened, where its period was closed
  Number sold_after = 0;                // what was paid for selling after the end, less deposits kept
  Number other_income() const { return kept + recovered_after + beyond_cost; }
};

struct Vehicle {
  std::optional<int> bought, ended, passed;
  int bought_said = 0, ended_said = 0;
  int ended_stands = never;  // for its money
  std::string ended_as;
  std::vector<Dated> spent, recovered,
      sold_by;  // sold_by: costs of selling beside the sale, deposits kept below zero
  Number sales = 0, selling = 0, kept = 0, held = 0, own = 0, paid_hours = 0, distance = 0, rate = 0;
  bool parts_moved_out = false;
};

// The shop at the end of a day.
struct Books {
  std::map<std::string, Number> purses, owed, tool_deposits;
  std::map<std::string, Shelf> shelves;
  std::map<std::string, LineNow> lines;
  std::map<std::string, Vehicle> vehicles;
  std::map<std::string, std::map<std::string, Number>> charged;  // of a tool's line, to cars
  std::set<std::string> waiting;  // quick lines by name, of which there is a paper
  Number overhead = 0, tools = 0, tools_kept = 0, owner_in = 0, owner_out = 0, sales_tax = 0;
  Number without_paper = 0;  // what was paid of which there is none, or none yet
  std::string fault;         // what could not be so, in words; empty in a possible book

  Position car(const std::string& tag, Number hour) const;
  Number inventory() const;  // what the cars carry, each counted by itself
  Number result() const;     // since the beginning, before own hours
  Number capital() const;    // what is there less what is owed
};

// A statement, and the days on which it counts.
struct Counted {
  Event event;
  int from = 0, until = never;
  // A paper over quick lines of a closed period, or what puts right a paper of one: what each had brought to each
  // car, and its day.
  struct Place {
    int day = 0;
    std::map<std::string, Number> brought;
  };
  std::vector<Place> places;
  std::optional<int> stands;  // of what puts right a sale of a closed period: under which day the car ended
  bool on(int day) const { return from <= day && day < until; }
};

class Bookkeeper {
 public:
  Number hour = 0;
  void type(Event event);
  void close(int day) { closed_ = std::max(closed_, day); }
  int first_open_day() const { return closed_ + 1; }

  Books at(int day) const;
  Position car(const std::string& tag, int day) const { return at(day).car(tag, hour); }
  // The cash profit at the end of the day on which the sale that stands on `day` was made.
  Number first_result(const std::string& tag, int day) const;
  // What cannot be so on some day from `from` on; empty where all is possible.
  std::string fault(int from) const;
  const std::vector<Counted>& counted() const { return counted_; }
  const Counted* find(const std::string& name) const;
  void forget_last();  // of one that could not be so
  std::vector<std::string> tags() const;

 private:
  void take_back(const Event& event, int day);
  void replace(Counted& paper);
  void put_right(const Event& event);

  std::vector<Counted> counted_, before_;
  std::vector<std::string>
      making_way_;  // quick lines whose place the next paper takes beside the one that it names
  int closed_ = never - never - 1;
};

}  // namespace dated
