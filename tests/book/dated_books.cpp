#include "book/dated_books.h"

#include <algorithm>

namespace dated {

using second::half_away;
using second::shared_out;

Books Bookkeeper::at(int day) const {
  std::vector<const Counted*> entries;
  for (const Counted& each : counted_)
    if (each.on(day)) entries.push_back(&each);
  Books books;
  Reading(books).read(std::move(entries));
  return books;
}

void Reading::read(std::vector<const Counted*> entries) {
  std::stable_sort(entries.begin(), entries.end(),
                   [](const Counted* a, const Counted* b) { return a->from < b->from; });
  for (auto first = entries.begin(); first != entries.end();) {
    const auto last =
        std::find_if(first, entries.end(), [&](const Counted* each) { return each->from != (*first)->from; });
    std::vector<const Counted*> drawn, counts;
    for (auto each = first; each != last; ++each)
      if ((*each)->event.word == "receipt") receipt(**each);
    for (auto each = first; each != last; ++each) {
      came_in(**each);
      if ((*each)->event.word == "transfer") transfer(**each);
    }
    for (auto each = first; each != last; ++each) went_back(**each);
    for (auto each = first; each != last; ++each) {
      const std::string& word = (*each)->event.word;
      if (word == "draw") drawn.push_back(*each);
      if (word == "count") counts.push_back(*each);
      money(**each);
      car(**each);
    }
    draws(drawn);
    for (const Counted* each : counts) count(*each);
    first = last;
  }
  for (auto& [tag, vehicle] : books_.vehicles) {
    Number spent = 0, recovered = 0;
    for (const Dated& each : vehicle.spent) spent += each.amount;
    for (const Dated& each : vehicle.recovered) recovered += each.amount;
    if (vehicle.parts_moved_out && spent < 0) impossible("less than nothing was put into " + tag);
    if (recovered < 0) impossible("less than nothing was recovered from " + tag);
    if (vehicle.held < 0) impossible("more than the deposit held for " + tag);
    if (vehicle.ended && (!vehicle.bought || *vehicle.bought > *vehicle.ended))
      impossible(tag + " ended before its purchase");
  }
  for (const auto& [supplier, owed] : books_.owed)
    if (owed < 0) impossible("less than nothing is owed to " + supplier);
  for (const auto& [what, out] : books_.tool_deposits)
    if (out < 0) impossible("less than nothing is out for " + what);
  if (books_.sales_tax < 0) impossible("less than no sales tax is owed");
}

LineNow* Reading::line(const std::string& id) {
  const auto found = books_.lines.find(id);
  if (found != books_.lines.end()) return &found->second;
  impossible("line " + id + " is named on a day on which its paper does not count");
  return nullptr;
}

void Reading::spend(const std::vector<Part>& parts, Number amount, int stands) {
  std::vector<Number> weights;
  for (const Part& part : parts) weights.push_back(part.weight);
  const auto shares = shared_out(amount, weights);
  for (std::size_t i = 0; i < parts.size(); ++i) vehicle(parts[i].tag).spent.push_back({stands, shares[i]});
}

void Reading::spend_on(const Line& line, Number amount, int stands) {
  if (!line.parts.empty()) return spend(line.parts, amount, stands);
  if (line.kind == "private") {
    books_.owner_out += amount;
  } else if (line.kind == "tool") {
    (line.tools_kept ? books_.tools_kept : books_.tools) += amount;
  } else {
    books_.overhead += amount;
  }
}

// ---- papers

void Reading::receipt(const Counted& entry) {
  const Event& paper = entry.event;
  LineNow now;
  now.supplier = paper.supplier;
  now.day = entry.from;
  Number unpaid = paper.total;
  for (const auto& [purse, amount] : paper.paid) {
    books_.purses[purse] -= amount;
    unpaid -= amount;
    if (now.purse.empty() && amount != 0) now.purse = purse;
  }
  now.on_account = unpaid > 0;
  if (unpaid != 0) books_.owed[paper.supplier] += unpaid;
  if (!paper.itemised && paper.on_paper) books_.waiting.insert(paper.name);
  if (!paper.itemised || !paper.on_paper) books_.without_paper += paper.total;
  for (const Line& each : paper.lines) {
    if (!each.return_of.empty()) continue;
    now.line = each;
    books_.lines[each.id] = now;
  }
  // On its cars; of a paper over quick lines of a closed period what each had brought stands under its day.
  std::map<std::string, Number> brought;
  for (const Line& each : paper.lines) {
    if (!each.core_of.empty() || !each.return_of.empty()) continue;
    if (each.kind == "stock") {
      Shelf& shelf = books_.shelves[each.stock];
      shelf.pieces += half_away(each.pieces * each.gives, 1000);
      shelf.value += each.cost();
    } else if (entry.places.empty() || each.parts.empty()) {
      spend_on(each, each.cost(), entry.from);
    } else {
      std::vector<Number> weights;
      for (const Part& part : each.parts) weights.push_back(part.weight);
      const auto shares = shared_out(each.cost(), weights);
      for (std::size_t i = 0; i < shares.size(); ++i) brought[each.parts[i].tag] += shares[i];
    }
  }
  for (const auto& [tag, amount] : brought) {
    Number left = amount;
    for (const Counted::Place& place : entry.places) {
      const auto quick = place.brought.find(tag);
      if (quick == place.brought.end()) continue;
      const Number early = std::min(left, std::max<Number>(quick->second, 0));
      if (early != 0) vehicle(tag).spent.push_back({place.day, early});
      left -= early;
    }
    if (left != 0) vehicle(tag).spent.push_back({entry.from, left});
  }
}

void Reading::came_in(const Counted& entry) {
  const Event& event = entry.event;
  if (event.word != "shelve") return;
  Shelf& shelf = books_.shelves[event.item];
  shelf.pieces += event.pieces;
  shelf.value += event.amount;
  if (event.line.empty()) {
    vehicle(event.tag).spent.push_back({entry.from, -event.amount});
    vehicle(event.tag).parts_moved_out = true;
  } else if (LineNow* from = line(event.line)) {
    spend(from->line.parts, -event.amount, entry.from);
    for (const Part& part : from->line.parts) vehicle(part.tag).parts_moved_out = true;
    from->shelved += event.pieces;
    if (from->left() < 0) impossible("more pieces of " + event.line + " than were bought");
  }
}

void Reading::off_account(const Counted& entry, Number amount) {
  const Event& event = entry.event;
  const LineNow* from = line(event.line);
  if (from && event.off != 0) books_.owed[from->supplier] -= event.off;
  if (amount != event.off) books_.purses[event.purse] += amount - event.off;
}

void Reading::went_back(const Counted& entry) {
  const Event& event = entry.event;
  if (event.word == "return") {
    const Number refund = event.amount + event.tax - event.restocking;
    off_account(entry, refund + event.deposit);
    goods_back(event.line, event.pieces, refund, entry);
    if (event.cores != 0) core_back(event.line, event.cores, event.deposit, event.share, entry.from);
  }
  if (event.word == "core back") {
    off_account(entry, event.amount);
    core_back(event.line, event.pieces, event.amount, event.share, entry.from);
  }
  if (event.word != "receipt") return;
  for (const Line& each : event.lines) {
    const Number refund = -(each.amount + each.tax + each.shipping - each.discount);
    if (!each.return_of.empty()) goods_back(each.return_of, each.pieces, refund, entry);
    if (!each.core_of.empty()) core_back(each.core_of, each.pieces, refund, each.share, entry.from);
  }
}

// Off the shelf at their own line's cost, never at more than the shelf stands at; the last take all of it.
void Reading::goods_back(const std::string& id, Number pieces, Number refund, const Counted& entry) {
  LineNow* from = line(id);
  if (!from) return;
  if (from->line.kind == "stock") {
    Shelf& shelf = books_.shelves[from->line.stock];
    const Number used = half_away(pieces * from->line.gives, 1000);
    const Number own = step(from->line.cost(), from->goods_back, pieces, from->line.pieces);
    const Number value =
        used == shelf.pieces ? shelf.value : std::clamp<Number>(own, 0, std::max<Number>(shelf.value, 0));
    shelf.pieces -= used;
    shelf.value -= value;
    books_.overhead += value - refund;
    if (shelf.pieces < 0) impossible("more of " + from->line.stock + " went back than is on the shelf");
  } else if (from->line.kind == "tool") {
    tool_back(id, from->line, refund, entry);
  } else {
    spend_on(from->line, -refund, entry.from);
  }
  from->goods_back += pieces;
  if (from->left() < 0) impossible("more pieces of " + id + " than were bought");
}

// Out of the cars that it was charged to, as far as it was; the rest out of the tools.
void Reading::tool_back(const std::string& id, const Line& line, Number refund, const Counted& entry) {
  Number left = refund;
  for (auto& [tag, amount] : books_.charged[id]) {
    const auto& decided = entry.event.out_of;
    const Number off = !decided                 ? std::clamp<Number>(amount, 0, std::max<Number>(left, 0))
                       : decided->contains(tag) ? decided->at(tag)
                                                : 0;
    if (off == 0) continue;
    vehicle(tag).spent.push_back({entry.from, -off});
    amount -= off;
    left -= off;
    if (amount < 0) impossible("more of " + id + " came out of " + tag + " than it was charged");
  }
  if (entry.event.out_of)
    for (const auto& each : *entry.event.out_of)
      if (!books_.charged[id].contains(each.first))
        impossible(id + " comes out of a car that it is not charged to");
  if (left != 0) spend_on(line, -left, entry.from);
}

// What is short of the deposit for these pieces is cost, under the day of the hand-over.
void Reading::core_back(const std::string& id, Number pieces, Number received, std::optional<Number> share,
                        int day) {
  LineNow* from = line(id);
  if (!from) return;
  const Number deposit =
      share ? *share : step(from->line.deposit(), from->cores_back, pieces, from->line.pieces);
  from->cores_back += pieces;
  from->deposit_back += deposit;
  spend_on(from->line, deposit - received, day);
  if (from->cores_out() < 0) impossible("more cores of " + id + " than were bought");
}

// ---- the shelf

void Reading::draws(const std::vector<const Counted*>& entries) {
  std::map<std::string, std::map<std::string, Number>> wanted;  // item -> tag -> pieces
  for (const Counted* each : entries) wanted[each->event.item][each->event.tag] += each->event.pieces;
  for (const auto& [item, tags] : wanted) {
    Shelf& shelf = books_.shelves[item];
    std::vector<Number> pieces;
    Number all = 0;
    for (const auto& [tag, drawn] : tags) {
      pieces.push_back(drawn);
      all += drawn;
    }
    if (all > shelf.pieces) return impossible("more of " + item + " was drawn than is on the shelf");
    const Number value = all == shelf.pieces ? shelf.value : half_away(shelf.value * all, shelf.pieces);
    const auto shares = shared_out(value, pieces);
    std::size_t next = 0;
    for (const auto& [tag, drawn] : tags)
      vehicle(tag).spent.push_back({entries.front()->from, shares[next++]});
    shelf.pieces -= all;
    shelf.value -= value;
  }
}

void Reading::count(const Counted& entry) {
  Shelf& shelf = books_.shelves[entry.event.item];
  const Number found = entry.event.pieces;
  if (found == shelf.pieces) return;
  const Number change = found == 0         ? -shelf.value
                        : shelf.pieces > 0 ? half_away(shelf.value * (found - shelf.pieces), shelf.pieces)
                                           : 0;
  shelf.value += change;
  shelf.pieces = found;
  books_.overhead -= change;
}

// ---- money and cars

void Reading::money(const Counted& entry) {
  const Event& event = entry.event;
  Number& purse = books_.purses[event.purse];
  if (event.word == "owner in") {
    purse += event.amount;
    books_.owner_in += event.amount;
  } else if (event.word == "owner out") {
    purse -= event.amount;
    books_.owner_out += event.amount;
  } else if (event.word == "move") {
    purse -= event.amount;
    books_.purses[event.to] += event.amount;
  } else if (event.word == "pay") {
    purse -= event.amount;
    books_.owed[event.supplier] -= event.amount;
  } else if (event.word == "sales tax paid") {
    purse -= event.amount;
    books_.sales_tax -= event.amount;
  } else if (event.word == "tool deposit") {
    purse -= event.amount;
    books_.tool_deposits[event.what] += event.amount;
  } else if (event.word == "tool deposit back") {
    purse += event.amount;
    books_.tool_deposits[event.what] -= event.amount + event.kept;
    books_.overhead += event.kept;
  }
  books_.purses.erase("");
}

void Reading::transfer(const Counted& entry) {
  const Event& event = entry.event;
  if (event.tag == "tools") {
    const LineNow* tool = line(event.line);
    if (!tool) return;
    (tool->line.tools_kept ? books_.tools_kept : books_.tools) -= event.amount;
    if (event.to != "overhead") books_.charged[event.line][event.to] += event.amount;
  } else {
    vehicle(event.tag).spent.push_back({entry.from, -event.amount});
    vehicle(event.tag).parts_moved_out = true;
  }
  if (event.to == "overhead")
    books_.overhead += event.amount;
  else
    vehicle(event.to).spent.push_back({entry.from, event.amount});
}

// Returns what comes into the purse of the sale; its costs are paid out of their own.
Number Reading::sale(const Event& event, Vehicle& car) {
  const Number commission = half_away(event.amount * event.rate, 1000);
  car.sales += event.amount;
  car.rate = event.rate;
  car.held -= event.used;
  car.selling += commission;
  books_.sales_tax += event.tax;
  for (const Named& cost : event.costs) {
    pay(event, cost);
    car.selling += cost.amount;
  }
  return event.amount + event.tax - event.used - commission;
}

void Reading::pay(const Event& event, const Named& cost) {
  if (cost.amount != 0) books_.purses[cost.purse.empty() ? event.purse : cost.purse] -= cost.amount;
}

void Reading::car(const Counted& entry) {
  const Event& event = entry.event;
  if (event.word == "trip") {
    std::vector<Number> weights;
    for (const Part& part : event.parts) weights.push_back(part.weight);
    const auto shares = shared_out(event.amount, weights);
    for (std::size_t i = 0; i < shares.size(); ++i) vehicle(event.parts[i].tag).distance += shares[i];
    return;
  }
  static const std::set<std::string> words = {"buy",          "pass",          "hours",        "recover",
                                              "recover back", "buyer deposit", "deposit kept", "deposit back",
                                              "sell",         "selling cost",  "write off"};
  if (!words.contains(event.word)) return;
  Vehicle& car = vehicle(event.tag);
  Number into = 0;  // the purse
  if (event.word == "buy") {
    if (car.bought) impossible(event.tag + " is bought twice");
    car.bought = entry.from;
    car.bought_said = event.day;
    into = -event.amount;
    car.spent.push_back({entry.from, event.amount});
    for (const Named& fee : event.costs) {
      pay(event, fee);
      car.spent.push_back({entry.from, fee.amount});
    }
  } else if (event.word == "pass") {
    car.passed = entry.from;
  } else if (event.word == "hours") {
    const Number wage = half_away(event.rate_fine * event.paid_hours, 1'000'000);
    car.own += event.own;
    car.paid_hours += event.paid_hours;
    into = -wage;
    car.spent.push_back({entry.from, wage});
  } else if (event.word == "recover" || event.word == "recover back") {
    into = event.word == "recover" ? event.amount : -event.amount;
    car.recovered.push_back({entry.from, into});
  } else if (event.word == "buyer deposit" || event.word == "deposit back") {
    into = event.word == "buyer deposit" ? event.amount : -event.amount;
    car.held += into;
  } else if (event.word == "deposit kept") {
    car.held -= event.amount;
    car.kept += event.amount;
    car.sold_by.push_back({entry.from, -event.amount});
  } else if (event.word == "selling cost") {
    into = -event.amount;
    car.selling += event.amount;
    car.sold_by.push_back({entry.from, event.amount});
  } else {
    if (car.ended) impossible(event.tag + " ended twice");
    car.ended = entry.from;
    car.ended_stands = entry.stands.value_or(entry.from);
    car.ended_said = event.day;
    car.ended_as = event.word == "sell" ? "sold" : "finished";
    if (event.word == "sell") into = sale(event, car);
  }
  if (into != 0) books_.purses[event.purse] += into;
}

// ---- what is read off

Position Books::car(const std::string& tag, Number hour) const {
  Position now;
  const auto found = vehicles.find(tag);
  if (found == vehicles.end()) return now;
  const Vehicle& car = found->second;
  now.bought = car.bought;
  now.ended = car.ended;
  now.bought_said = car.bought_said;
  now.ended_said = car.ended_said;
  now.state = car.ended ? car.ended_as : car.bought ? "owned" : car.passed ? "passed" : "considered";
  const int end = car.ended ? car.ended_stands : never;
  for (const Dated& each : car.spent) (each.day <= end ? now.cost : now.late) += each.amount;
  for (const Dated& each : car.recovered)
    (each.day <= end ? now.recovered_before : now.recovered_after) += each.amount;
  for (const Dated& each : car.sold_by) now.sold_after += each.day > end ? each.amount : 0;
  now.sales = car.sales;
  now.selling = car.selling;
  now.kept = car.kept;
  now.held = car.held;
  now.own = car.own;
  now.paid_hours = car.paid_hours;
  now.distance = car.distance;
  // Sums against each other and down to zero; what is beyond is income.
  const Number off = std::min(now.recovered_before, std::max<Number>(now.cost, 0)), left = now.cost - off;
  now.beyond_cost = now.recovered_before - off;
  if (car.ended)
    now.cost_of_sale = left;
  else if (now.state == "passed")
    now.looking = left;
  else
    now.carried = left;
  const Number in = now.recovered_before + now.recovered_after + now.kept,
               out = now.cost + now.late + now.selling;
  now.cash_profit = now.sales + in - out;
  now.profit = now.cash_profit - half_away(hour * now.own, 1000);
  // The price p that leaves nothing: p less its share of p for the commission is what is fixed.
  const Number fixed = out - in - half_away(now.sales * car.rate, 1000), wanted = fixed * 1000,
               part = 1000 - car.rate;
  now.break_even = std::max<Number>(0, wanted / part + (wanted % part > 0 ? 1 : 0));
  return now;
}

Number Books::inventory() const {
  Number all = 0;
  for (const auto& [tag, vehicle] : vehicles) all += car(tag, 0).carried;
  return all;
}

Number Books::result() const {
  Number all = -overhead - tools;
  for (const auto& [tag, vehicle] : vehicles) {
    const Position now = car(tag, 0);
    all += now.sales + now.other_income() - now.cost_of_sale - now.late - now.selling - now.looking;
  }
  return all;
}

Number Books::capital() const {
  Number all = inventory() + tools_kept - sales_tax;
  for (const auto& [name, amount] : purses) all += amount;
  for (const auto& [name, amount] : tool_deposits) all += amount;
  for (const auto& [name, amount] : owed) all -= amount;
  for (const auto& [name, shelf] : shelves) all += shelf.value;
  for (const auto& [id, line] : lines) all += line.due();
  for (const auto& [tag, vehicle] : vehicles) all -= vehicle.held;
  return all;
}

}  // namespace dated
