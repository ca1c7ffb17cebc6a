#include "book/second_bookkeeper.h"

#include <algorithm>
#include <cstdlib>

namespace second {

namespace {
Number floor_of(Number numerator, Number denominator) {
  Number quotient = numerator / denominator;
  if (quotient * denominator != numerator && (numerator < 0) != (denominator < 0)) --quotient;
  return quotient;
}
}  // namespace

std::vector<Number> shared_out(Number total, const std::vector<Number>& weights) {
  std::vector<Number> shares(weights.size(), 0);
  const Number size = std::abs(total);
  Number sum = 0, left = size;
  for (const Number weight : weights) sum += weight;
  if (total == 0) return shares;
  for (std::size_t i = 0; i < weights.size(); ++i) left -= shares[i] = floor_of(size * weights[i], sum);
  std::vector<bool> served(weights.size(), false);
  for (; left > 0; --left) {
    std::size_t next = weights.size();
    const auto lacks = [&](std::size_t i) {
      return (size * weights[i] - shares[i] * sum) * (sum < 0 ? -1 : 1);
    };
    for (std::size_t i = 0; i < weights.size(); ++i)
      if (!served[i] && (next == weights.size() || lacks(i) > lacks(next))) next = i;
    served[next] = true;
    ++shares[next];
  }
  if (total < 0)
    for (Number& share : shares) share = -share;
  return shares;
}

Number half_away(Number numerator, Number denominator) {
  const Number whole = std::abs(numerator) / std::abs(denominator),
               rest = std::abs(numerator) % std::abs(denominator);
  const Number rounded = whole + (rest * 2 >= std::abs(denominator) ? 1 : 0);
  return (numerator < 0) != (denominator < 0) ? -rounded : rounded;
}

Number LineKept::sum(const std::string& what, Number Back::*field) const {
  Number total = 0;
  for (const Back& back : backs)
    if (back.what == what && back.counts()) total += back.*field;
  return total;
}

// ---- facts

void Keeper::add(const std::string& place, Number amount, Number pieces) {
  Fact fact;
  static_cast<Lasting&>(fact) = now();
  fact.amount = amount;
  fact.pieces = pieces;
  facts_[place].push_back(fact);
}

void Keeper::turn(const std::string& tag, const std::string& what) {
  Turn turn;
  static_cast<Lasting&>(turn) = now();
  turn.what = what;
  turns_[tag].push_back(turn);
}

Number Keeper::sum(const std::string& place) const {
  Number total = 0;
  if (const auto found = facts_.find(place); found != facts_.end())
    for (const Fact& fact : found->second)
      if (fact.counts()) total += fact.amount;
  return total;
}

Number Keeper::sum_on(const std::string& place, int on) const {
  Number total = 0;
  if (const auto found = facts_.find(place); found != facts_.end())
    for (const Fact& fact : found->second)
      if (fact.counted_on(on)) total += fact.amount;
  return total;
}

Number Keeper::pieces(const std::string& item) const { return pieces_on(item, never - 1); }

Number Keeper::pieces_on(const std::string& item, int on) const {
  Number total = 0;
  if (const auto found = facts_.find("shelf " + item); found != facts_.end())
    for (const Fact& fact : found->second)
      if (fact.counted_on(on)) total += fact.pieces;
  return total;
}

Number Keeper::value_of(const std::string& item, Number pieces) const {
  const Number all = this->pieces(item), value = sum("shelf " + item);
  return pieces == all ? value : half_away(value * pieces, all);
}

std::vector<std::string> Keeper::places(const std::string& beginning) const {
  std::vector<std::string> names;
  for (const auto& [place, facts] : facts_)
    if (place.rfind(beginning + " ", 0) == 0) names.push_back(place.substr(beginning.size() + 1));
  return names;
}

std::vector<std::string> Keeper::tags() const {
  std::vector<std::string> all = places("spent");
  for (const auto& [tag, turns] : turns_)
    if (std::find(all.begin(), all.end(), tag) == all.end()) all.push_back(tag);
  return all;
}

Car Keeper::life(const std::string& tag) const {
  Car car;
  if (const auto found = turns_.find(tag); found != turns_.end())
    for (const Turn& turn : found->second) {
      if (!turn.counts()) continue;
      car.state = turn.what == "bought" ? "owned" : turn.what;
      if (turn.what == "bought") car.bought = turn.event, car.bought_day = turn.day;
      if (turn.what == "sold" || turn.what == "finished") car.ended = turn.event, car.ended_day = turn.day;
    }
  return car;
}

Car Keeper::car(const std::string& tag) const {
  Car car = life(tag);
  const auto split = [&](const std::string& place, Number& before, Number& after) {
    if (const auto found = facts_.find(place + " " + tag); found != facts_.end())
      for (const Fact& fact : found->second)
        if (fact.counts()) (car.ended != 0 && fact.event > car.ended ? after : before) += fact.amount;
  };
  split("spent", car.cost, car.late);
  split("recovered", car.recovered_before, car.recovered_after);
  car.sales = sum("sale " + tag);
  car.selling = sum("selling " + tag);
  car.kept = sum("kept " + tag);
  car.held = sum("held " + tag);
  car.own = sum("own " + tag);
  car.paid = sum("paid " + tag);
  car.distance = sum("distance " + tag);
  car.cost_less_recovered = car.cost - sum("off " + tag);
  if (car.ended == 0 && car.state != "passed") car.carried = car.cost_less_recovered;
  // Money in less money out, whatever happened when.
  const Number in = car.recovered_before + car.recovered_after + car.kept,
               out = car.cost + car.late + car.selling;
  car.cash_profit = car.sales + in - out;
  car.profit = car.cash_profit - half_away(hour * car.own, 1000);
  // What was last said of a car in pieces, less what its parts brought since.
  if (const auto said = facts_.find("pieces " + tag); said != facts_.end() && car.state == "owned")
    for (const Fact& fact : said->second) {
      if (!fact.counts()) continue;
      Number since = 0;
      if (const auto sold = facts_.find("recovered " + tag); sold != facts_.end())
        for (const Fact& each : sold->second)
          if (each.counts() && each.event > fact.event) since += each.amount;
      car.still_brings = std::max<Number>(0, fact.amount - since);
    }
  // At the price p the commission is rate x p: p - rate x p has to bring what is fixed, in whole cents or
  // more.
  const Number rate = sum("rate " + tag), fixed = out - in - half_away(car.sales * rate, 1000);
  const Number wanted = fixed * 1000, part = 1000 - rate;
  car.break_even = wanted / part + (wanted % part > 0 ? 1 : 0);
  return car;
}

std::map<std::string, Number> Keeper::cores_due() const {
  std::map<std::string, Number> due;
  for (const auto& [id, kept] : lines_)
    if (kept.counts() && kept.line.core > 0 && kept.core_due() != 0) due[id] = kept.core_due();
  return due;
}

std::vector<int> Keeper::quick_lines() const {
  std::vector<int> events;
  for (const auto& [event, paper] : papers_)
    if (paper.counts() && paper.waits) events.push_back(event);
  return events;
}

// ---- events

void Keeper::owner(const std::string& purse, Number amount) {
  add("purse " + purse, amount);
  add("owner", amount);
}

void Keeper::move(const std::string& from, const std::string& to, Number amount) {
  add("purse " + from, -amount);
  add("purse " + to, amount);
}

void Keeper::spend(const std::vector<Part>& parts, Number amount) {
  std::vector<Number> weights;
  for (const Part& part : parts) weights.push_back(part.weight);
  const std::vector<Number> shares = shared_out(amount, weights);
  for (std::size_t i = 0; i < parts.size(); ++i) add("spent " + parts[i].tag, shares[i]);
}

void Keeper::spend_on_line(const PaperLine& line, Number amount) {
  if (!line.parts.empty()) return spend(line.parts, amount);
  add(line.kind == "tool"      ? (line.tools_kept ? "tools kept" : "tools")
      : line.kind == "private" ? "owner"
                               : "overhead",
      line.kind == "private" ? -amount : amount);
}

void Keeper::buy(const std::string& tag, Number price, const std::string& purse, Number fee,
                 const std::string& fee_purse) {
  turn(tag, "bought");
  add("spent " + tag, price + fee);
  add("purse " + purse, -price);
  add("purse " + fee_purse, -fee);
}

void Keeper::work_out(Paper& paper) const {
  std::vector<Number> taxed, positive;
  for (PaperLine& line : paper.lines) {
    if (line.unit_fine != 0) line.amount = half_away(line.unit_fine * line.pieces, 1'000'000);
    line.core = half_away(line.core_each * line.pieces, 1000);
    taxed.push_back((line.taxed ? line.amount : 0) + (line.tax_on_core ? line.core : 0));
    positive.push_back(std::max<Number>(line.amount, 0));
  }
  const bool free = std::all_of(positive.begin(), positive.end(), [](Number weight) { return weight == 0; });
  if (free) std::fill(positive.begin(), positive.end(), 1);
  const std::vector<Number> tax = shared_out(paper.tax, taxed),
                            shipping = shared_out(paper.shipping, positive),
                            discount = shared_out(paper.discount, positive);
  for (std::size_t i = 0; i < paper.lines.size(); ++i) {
    PaperLine& line = paper.lines[i];
    line.tax = tax[i];
    line.extra = shipping[i] - discount[i];
    if (line.tax_on_core && taxed[i] != 0)
      line.core_tax = shared_out(tax[i], {line.taxed ? line.amount : 0, line.core})[1];
  }
}

void Keeper::receipt(Paper paper) {
  work_out(paper);
  if (paper.replaces != 0) {
    // The quick line is taken back. What it had cost a car that was sold since stays in the sale; the
    // difference is late.
    std::map<std::string, Number> stays;
    for (auto& [place, facts] : facts_) {
      if (place.rfind("spent ", 0) != 0) continue;
      const Car car = this->car(place.substr(6));
      for (const Fact& fact : facts)
        if (fact.event == paper.replaces && fact.event < car.ended) stays[place] += fact.amount;
    }
    std::map<std::string, std::vector<Fact>> kept;
    for (const auto& [place, amount] : stays)
      for (const Fact& fact : facts_[place])
        if (fact.event == paper.replaces) kept[place].push_back(fact);
    take_back(paper.replaces);
    for (const auto& [place, amount] : stays) {
      for (Fact fact : kept[place]) {
        fact.event = -fact.event;  // belongs to the sale from here on: nothing takes it back any more
        facts_[place].push_back(fact);
      }
      add(place, -amount);
    }
  }
  PaperKept kept_paper;
  static_cast<Lasting&>(kept_paper) = now();
  kept_paper.waits = !paper.itemised && paper.on_paper;
  kept_paper.supplier = paper.supplier;
  Number unpaid = paper.total;
  for (const auto& [purse, amount] : paper.paid) {
    add("purse " + purse, -amount);
    unpaid -= amount;
    if (kept_paper.purse.empty() && amount != 0) kept_paper.purse = purse;
  }
  kept_paper.on_account = unpaid > 0;
  if (unpaid != 0) add("owed " + paper.supplier, unpaid);
  // What goes back leaves the shelf at what it stood at before this paper, wherever its line stands on it.
  for (const PaperLine& line : paper.lines) {
    if (line.return_of.empty()) continue;
    const LineKept& from = lines_.at(line.return_of);
    const Number tax_left = from.line.tax - from.line.core_tax - from.sum("goods", &Back::tax);
    goods_went_back(line.return_of, line.pieces, -line.amount, std::min(-line.tax, tax_left),
                    -line.amount - line.tax - line.extra);
  }
  for (const PaperLine& line : paper.lines) {
    if (!line.return_of.empty()) continue;
    LineKept kept;
    static_cast<Lasting&>(kept) = now();
    kept.line = line;
    lines_[line.id] = kept;
    kept_paper.lines.push_back(line.id);
    if (!line.core_of.empty())
      core_went_back(line.core_of, line.pieces, -(line.amount + line.tax + line.extra));
    else if (line.kind == "stock")
      add("shelf " + line.stock, kept.cost(), half_away(line.pieces * line.gives, 1000));
    else
      spend_on_line(line, kept.cost());
  }
  papers_[event_] = kept_paper;
}

const PaperKept& Keeper::paper_of(const std::string& id) const { return papers_.at(lines_.at(id).event); }

Keeper::Where Keeper::money_back(const std::string& id, Number amount) const {
  const PaperKept& paper = paper_of(id);
  return {paper.on_account ? std::clamp<Number>(sum("owed " + paper.supplier), 0, amount) : 0, paper.purse};
}

void Keeper::take_money(const std::string& id, Number amount, const Where& where) {
  if (where.off != 0) add("owed " + paper_of(id).supplier, -where.off);
  if (amount != where.off) add("purse " + where.purse, amount - where.off);
}

void Keeper::goods_back(const std::string& id, Number pieces, Number goods, Number tax, Number restocking,
                        const Where& where) {
  const Number refund = goods + tax - restocking;
  take_money(id, refund, where);
  goods_went_back(id, pieces, goods, tax, refund);
}

void Keeper::goods_went_back(const std::string& id, Number pieces, Number goods, Number tax, Number refund) {
  LineKept& kept = lines_.at(id);
  if (kept.line.kind == "stock") {
    const Number used = half_away(pieces * kept.line.gives, 1000), value = value_of(kept.line.stock, used);
    add("shelf " + kept.line.stock, -value, -used);
    add("overhead", value - refund);
  } else {
    spend_on_line(kept.line, -refund);
  }
  Back back;
  static_cast<Lasting&>(back) = now();
  back.what = "goods";
  back.pieces = pieces;
  back.goods = goods;
  back.tax = tax;
  kept.backs.push_back(back);
}

void Keeper::core_went_back(const std::string& id, Number pieces, Number received) {
  LineKept& kept = lines_.at(id);
  const auto up_to = [&](Number count) {
    return count == kept.line.pieces ? kept.deposit() : half_away(kept.deposit() * count, kept.line.pieces);
  };
  const Number before = kept.sum("core", &Back::pieces);
  Back back;
  static_cast<Lasting&>(back) = now();
  back.what = "core";
  back.pieces = pieces;
  // The last ones take what is left, and no step takes more than that.
  const Number step = up_to(before + pieces) - up_to(before);
  back.deposit = before + pieces == kept.line.pieces ? kept.core_due() : std::min(step, kept.core_due());
  kept.backs.push_back(back);
  spend_on_line(kept.line, back.deposit - received);
}

void Keeper::core_back(const std::string& id, Number pieces, Number received, const Where& where) {
  core_went_back(id, pieces, received);
  take_money(id, received, where);
}

void Keeper::tool_deposit(const std::string& what, Number amount, const std::string& purse) {
  add("tool deposit " + what, amount);
  add("purse " + purse, -amount);
}

void Keeper::deposit_lost(const std::string& what, Number amount) {
  add("tool deposit " + what, -amount);
  add("overhead", amount);
}

void Keeper::hours(const std::string& tag, Number own, Number paid, Number rate_fine,
                   const std::string& purse) {
  add("own " + tag, own);
  add("paid " + tag, paid);
  const Number wage = half_away(rate_fine * paid, 1'000'000);
  add("spent " + tag, wage);
  if (wage != 0) add("purse " + purse, -wage);
}

void Keeper::draw(const std::string& tag, const std::string& item, Number pieces) {
  const Number value = value_of(item, pieces);
  add("shelf " + item, -value, -pieces);
  add("spent " + tag, value);
}

void Keeper::count(const std::string& item, Number found) {
  const Number there = pieces(item), worth = sum("shelf " + item);
  const Number change = found == 0 ? -worth : there > 0 ? half_away(worth * (found - there), there) : 0;
  if (found == there) return;
  add("shelf " + item, change, found - there);
  add("overhead", -change);
}

void Keeper::shelve_line(const std::string& id, const std::string& item, Number pieces) {
  LineKept& kept = lines_.at(id);
  const Number amount = half_away(kept.cost() * pieces, kept.line.pieces);
  spend(kept.line.parts, -amount);
  add("shelf " + item, amount, pieces);
  Back back;
  static_cast<Lasting&>(back) = now();
  back.what = "shelf";
  back.pieces = pieces;
  kept.backs.push_back(back);
}

void Keeper::shelve(const std::string& tag, const std::string& item, Number pieces, Number amount) {
  add("spent " + tag, -amount);
  add("shelf " + item, amount, pieces);
}

void Keeper::transfer(const std::string& from, const std::string& to, Number amount) {
  if (from == "tools") {
    const Number off_kept = std::clamp<Number>(sum("tools kept"), 0, amount);
    add("tools kept", -off_kept);
    add("tools", off_kept - amount);
  } else {
    add("spent " + from, -amount);
  }
  add(to == "overhead" ? to : "spent " + to, amount);
}

void Keeper::recover(const std::string& tag, Number amount, const std::string& purse) {
  // Off the cost as far as the car still carries one; the rest, and all of it after the sale, is income.
  const Number off = std::min(amount, std::max<Number>(car(tag).carried, 0));
  add("purse " + purse, amount);
  add("recovered " + tag, amount);
  add("off " + tag, off);
}

void Keeper::recover_back(const std::string& tag, Number amount, const std::string& purse) {
  const Car car = this->car(tag);
  const Number income = std::max<Number>(sum("recovered " + tag) - sum("off " + tag), 0);
  add("purse " + purse, -amount);
  add("recovered " + tag, -amount);
  if (car.state == "owned" || car.state == "considered")
    add("off " + tag, -std::max<Number>(amount - income, 0));
}

void Keeper::buyer_deposit(const std::string& tag, Number amount, const std::string& purse) {
  add("held " + tag, amount);
  add("purse " + purse, amount);
}

void Keeper::deposit_kept(const std::string& tag, Number amount) {
  add("held " + tag, -amount);
  add("kept " + tag, amount);
}

void Keeper::deposit_back(const std::string& tag, Number amount, const std::string& purse) {
  add("held " + tag, -amount);
  add("purse " + purse, -amount);
}

void Keeper::sell(const std::string& tag, Number price, Number tax, Number deposit_used, Number costs,
                  Number rate, const std::string& purse) {
  turn(tag, "sold");
  add("rate " + tag, rate);
  add("sale " + tag, price);
  add("held " + tag, -deposit_used);
  add("selling " + tag, costs);
  add("sales tax", tax);
  add("purse " + purse, price + tax - deposit_used - costs);
}

void Keeper::selling_cost(const std::string& tag, Number amount, const std::string& purse) {
  add("selling " + tag, amount);
  add("purse " + purse, -amount);
}

void Keeper::trip(const std::vector<Part>& parts, Number distance) {
  std::vector<Number> weights;
  for (const Part& part : parts) weights.push_back(part.weight);
  const std::vector<Number> shares = shared_out(distance, weights);
  for (std::size_t i = 0; i < parts.size(); ++i) add("distance " + parts[i].tag, shares[i]);
}

void Keeper::pay(const std::string& supplier, Number amount, const std::string& purse) {
  add("owed " + supplier, -amount);
  add("purse " + purse, -amount);
}

void Keeper::sales_tax_paid(Number amount, const std::string& purse) {
  add("sales tax", -amount);
  add("purse " + purse, -amount);
}

void Keeper::take_back(int event) {
  // As if it had never been; in a closed period it stands until the day on which it was taken back.
  const auto gone = [&](Lasting& lasting) {
    if (lasting.event == event && lasting.counts())
      lasting.gone_from = lasting.day <= closed ? day_ : lasting.day;
  };
  for (auto& [place, facts] : facts_)
    for (Fact& fact : facts) gone(fact);
  for (auto& [tag, turns] : turns_)
    for (Turn& turn : turns) gone(turn);
  for (auto& [number, paper] : papers_) gone(paper);
  for (auto& [id, line] : lines_) {
    gone(line);
    for (Back& back : line.backs) gone(back);
  }
}

}  // namespace second
