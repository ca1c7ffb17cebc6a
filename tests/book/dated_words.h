// Short words for the events of the bookkeeper by days, and their text for the book. Money in minor units,
// pieces whole; the purse is cash unless a story says otherwise.
#pragma once
#include <functional>
#include <string>

#include "book/dated_bookkeeper.h"

namespace dated {

int day(const std::string& iso);  // days since 2024-01-01
std::string iso(int day);
std::string money(Number minor);           // "12.30"
std::string thousandths(Number thousand);  // "1.500"

// "{ do = ... }" as an events file writes it; `entry` is the book's number of the event of a name.
using EntryOf = std::function<long long(const std::string& name)>;
std::string text_of(const Event&, const EntryOf& entry);
// What a correction puts in the place of the amount, or of the pieces.
std::string new_amount(const Event& correction);

inline Event event(const std::string& word, int day, const std::string& tag, Number amount) {
  Event made;
  made.word = word;
  made.day = day;
  made.tag = tag;
  made.amount = amount;
  made.purse = "cash";
  made.what = "thing";
  return made;
}
inline Event event(const std::string& word, const std::string& on, const std::string& tag, Number amount) {
  return event(word, day(on), tag, amount);
}
// The same under a name, so that a later one can call it.
inline Event named(const std::string& name, Event made) {
  made.name = name;
  return made;
}
inline Event owner_in(const std::string& on, Number amount) { return event("owner in", on, "", amount); }
inline Event buy(const std::string& on, const std::string& tag, Number price) {
  return event("buy", on, tag, price);
}
inline Event sell(const std::string& on, const std::string& tag, Number price,
                  std::vector<Named> costs = {}) {
  Event made = event("sell", on, tag, price);
  made.costs = std::move(costs);
  return made;
}
inline Event recover(const std::string& on, const std::string& tag, Number amount) {
  return event("recover", on, tag, amount);
}
inline Event trip(const std::string& on, const std::string& tag, Number distance) {
  Event made = event("trip", on, "", distance);
  made.parts = {{tag, 1000}};
  return made;
}
// A paper of one line on a car; `id` calls the line, and the event too.
inline Event paper(const std::string& on, const std::string& id, Line line, Number tax = 0,
                   Number discount = 0) {
  Event made;
  made.name = id;
  made.word = "receipt";
  made.day = day(on);
  made.supplier = "Cleave Yard";
  made.tax = tax;
  made.discount = discount;
  made.total = line.amount + line.core_each * line.pieces / 1000 + tax - discount;
  made.paid = {{"cash", made.total}};
  line.id = id;
  made.lines = {std::move(line)};
  return made;
}
inline Line line(const std::string& kind, const std::string& tag, Number amount, Number pieces = 1) {
  Line made;
  made.kind = kind;
  made.amount = amount;
  made.pieces = pieces * 1000;
  if (!tag.empty()) made.parts = {{tag, 1000}};
  return made;
}
inline Line stock(const std::string& item, Number amount, Number pieces) {
  Line made = line("stock", "", amount, pieces);
  made.stock = item;
  return made;
}
inline Event part(const std::string& on, const std::string& id, const std::string& tag, Number amount) {
  return paper(on, id, line("part", tag, amount));
}
inline Event quick(const std::string& on, const std::string& id, const std::string& tag, Number amount) {
  Event made = part(on, id, tag, amount);
  made.itemised = false;
  return made;
}
inline Event replacing(const std::string& quick, Event paper) {
  paper.names = quick;
  return paper;
}
inline Event draw(const std::string& on, const std::string& tag, const std::string& item, Number pieces) {
  Event made = event("draw", on, tag, 0);
  made.item = item;
  made.pieces = pieces * 1000;
  return made;
}
inline Event count(const std::string& on, const std::string& item, Number pieces) {
  Event made = event("count", on, "", 0);
  made.item = item;
  made.pieces = pieces * 1000;
  return made;
}
inline Event goes_back(const std::string& on, const std::string& line, Number pieces, Number goods,
                       Number tax = 0) {
  Event made = event("return", on, "", goods);
  made.line = line;
  made.pieces = pieces * 1000;
  made.tax = tax;
  return made;
}
inline Event core_back(const std::string& on, const std::string& line, Number pieces, Number amount) {
  Event made = event("core back", on, "", amount);
  made.line = line;
  made.pieces = pieces * 1000;
  return made;
}
inline Event transfer(const std::string& on, const std::string& from, const std::string& to, Number amount,
                      const std::string& line = "") {
  Event made = event("transfer", on, from, amount);
  made.to = to;
  made.line = line;
  return made;
}
// Typed wrong: it counts on no day.
inline Event never_was(const std::string& on, const std::string& name) {
  Event made = event("void", on, "", 0);
  made.names = name;
  return made;
}
// Taken back from that day on.
inline Event falls_through(const std::string& on, const std::string& name,
                           std::optional<std::vector<std::string>> stays = {}) {
  Event made = never_was(on, name);
  made.later = true;
  made.stays = std::move(stays);
  return made;
}

}  // namespace dated
