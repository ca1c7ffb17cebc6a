#include "book/dated_bookkeeper.h"

#include <algorithm>
#include <stdexcept>

namespace dated {

using second::half_away;
using second::shared_out;

Number step(Number all, Number before, Number pieces, Number of) {
  return half_away(all * (before + pieces), of) - half_away(all * before, of);
}

Refund refund_of(const Line& line, Number before, Number pieces) {
  return {step(line.amount - line.discount, before, pieces, line.pieces),
          step(line.tax - line.core_tax, before, pieces, line.pieces)};
}

void work_out(Event& receipt) {
  std::vector<Number> taxed, positive;
  for (Line& line : receipt.lines) {
    line.core = half_away(line.core_each * line.pieces, 1000);
    taxed.push_back((line.taxed ? line.amount : 0) + (line.tax_on_core ? line.core : 0));
    positive.push_back(std::max<Number>(line.amount, 0));
  }
  if (std::all_of(positive.begin(), positive.end(), [](Number weight) { return weight == 0; }))
    std::fill(positive.begin(), positive.end(), 1);
  const auto tax = shared_out(receipt.tax, taxed), shipping = shared_out(receipt.shipping, positive),
             discount = shared_out(receipt.discount, positive);
  for (std::size_t i = 0; i < receipt.lines.size(); ++i) {
    Line& line = receipt.lines[i];
    line.tax = tax[i];
    line.shipping = shipping[i];
    line.discount = discount[i];
    line.core_tax = line.tax_on_core && taxed[i] != 0
                        ? shared_out(tax[i], {line.taxed ? line.amount : 0, line.core})[1]
                        : 0;
  }
}

// ---- on which days an entry counts

const Counted* Bookkeeper::find(const std::string& name) const {
  for (const Counted& each : counted_)
    if (each.event.name == name) return &each;
  return nullptr;
}

void Bookkeeper::type(Event event) {
  before_ = counted_;
  const int day = std::max(event.day, first_open_day());
  if (event.word == "void" && event.makes_way) return making_way_.push_back(event.names);
  if (event.word == "void") return take_back(event, day);
  if (event.word == "correct") return put_right(event);
  if (event.word == "receipt") work_out(event);
  Counted counted;
  counted.event = std::move(event);
  counted.from = day;
  if (counted.event.word == "receipt" && !counted.event.names.empty()) replace(counted);
  counted_.push_back(counted);
}

void Bookkeeper::forget_last() {
  counted_ = before_;
  making_way_.clear();
}

void Bookkeeper::take_back(const Event& event, int day) {
  std::vector<Counted> stays;
  for (Counted& each : counted_) {
    if (each.event.name != event.names) continue;
    const bool later = event.later || each.from <= closed_;
    each.until = later ? std::max(day, each.from) : each.from;
    if (each.event.word != "sell" || !later) continue;
    for (const Named& cost : each.event.costs) {
      const auto& all = event.stays;
      if (all && std::find(all->begin(), all->end(), cost.name) == all->end()) continue;
      Counted paid;
      paid.event.word = "selling cost";
      paid.event.tag = each.event.tag;
      paid.event.amount = cost.amount;
      paid.event.purse = cost.purse;
      paid.from = paid.event.day = day;
      stays.push_back(paid);
    }
  }
  counted_.insert(counted_.end(), stays.begin(), stays.end());
}

namespace {
// What the lines of the paper brought to each car.
std::map<std::string, Number> brought_by(const Event& paper) {
  std::map<std::string, Number> all;
  for (const Line& line : paper.lines) {
    if (line.parts.empty()) continue;
    std::vector<Number> weights;
    for (const Part& part : line.parts) weights.push_back(part.weight);
    const auto shares = shared_out(line.cost(), weights);
    for (std::size_t i = 0; i < shares.size(); ++i) all[line.parts[i].tag] += shares[i];
  }
  return all;
}
}  // namespace

// Another amount, or number of pieces, from the first; of a closed period from the first open day on.
void Bookkeeper::put_right(const Event& event) {
  for (Counted& each : counted_) {
    if (each.event.name != event.names) continue;
    Counted right = each;
    if (event.pieces != 0) {
      right.event.pieces = event.pieces;
    } else if (right.event.word == "receipt") {
      const Number more = event.amount - right.event.lines.front().amount;
      right.event.lines.front().amount += more;
      right.event.total += more;
      right.event.paid.front().second += more;
      work_out(right.event);
    } else {
      right.event.amount = event.amount;
    }
    if (each.from > closed_) {
      each = right;
      return;
    }
    right.from = first_open_day();
    right.places = {{each.from, brought_by(each.event)}};
    if (each.event.word == "sell") right.stands = each.stands.value_or(each.from);
    each.until = right.from;
    each.event.name.clear();
    counted_.push_back(right);
    return;
  }
}

// In the place of the one that it names first, then of the others; it counts from the earliest day on.
void Bookkeeper::replace(Counted& paper) {
  std::vector<std::string> names = {paper.event.names};
  names.insert(names.end(), making_way_.begin(), making_way_.end());
  making_way_.clear();
  for (std::size_t i = 0; i < names.size(); ++i)
    for (Counted& quick : counted_) {
      if (quick.event.name != names[i]) continue;
      const bool open = quick.from > closed_;
      quick.until = open ? quick.from : first_open_day();
      // Out of a closed period on the first open day, whenever the paper came.
      const bool out_of_closed = i == 0 && !open;
      paper.from = out_of_closed ? quick.until : std::min(paper.from, quick.until);
      if (!open) paper.places.push_back({quick.from, brought_by(quick.event)});
    }
}

Number Bookkeeper::first_result(const std::string& tag, int day) const {
  const Position now = car(tag, day);
  if (!now.ended) throw std::logic_error("no first result of a car that has not ended");
  // What stands after the end is none of it, though it was there by the day from which a sale counts that was put right.
  const Position then = car(tag, *now.ended);
  return then.cash_profit + then.late - then.recovered_after + then.sold_after;
}

std::string Bookkeeper::fault(int from) const {
  std::set<int> days = {from};
  for (const Counted& each : counted_) {
    if (each.from > from) days.insert(each.from);
    if (each.until != never && each.until > from) days.insert(each.until);
  }
  for (const int day : days)
    if (const std::string found = at(day).fault; !found.empty()) return found;
  return "";
}

std::vector<std::string> Bookkeeper::tags() const {
  std::set<std::string> all;
  for (const Counted& each : counted_) {
    if (!each.event.tag.empty() && each.event.tag != "tools") all.insert(each.event.tag);
    if (each.event.word == "transfer" && each.event.to != "overhead") all.insert(each.event.to);
    for (const Part& part : each.event.parts) all.insert(part.tag);
    for (const Line& line : each.event.lines)
      for (const Part& part : line.parts) all.insert(part.tag);
  }
  return {all.begin(), all.end()};
}

}  // namespace dated
