#include "book/second_bookkeeper.h"

#include <algorithm>
#include <cstdlib>
#include <tuple>

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
  fact.stands = fact.day;
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

void Keeper::tell_shelf(const std::string& item, const std::string& what, const std::string& tag,
                        Number pieces, Number worth, const std::string& line, Number line_pieces) {
  ShelfTold told;
  static_cast<Lasting&>(told) = now();
  told.what = what;
  told.tag = tag;
  told.pieces = pieces;
  told.worth = worth;
  told.line = line;
  told.line_pieces = line_pieces;
  shelves_[item].push_back(told);
  reckon_shelf(item);
}

// The whole shelf anew: once for each stretch of days between those on which something of it was taken back.
// In a stretch only what is not yet gone counts, and it is gone through day by day, from the first.
void Keeper::reckon_shelf(const std::string& item) {
  for (auto& [place, facts] : facts_)
    std::erase_if(facts, [&](const Fact& fact) { return fact.of_shelf == item; });
  const std::vector<ShelfTold>& all = shelves_[item];
  std::vector<int> stretches{0};
  for (const ShelfTold& told : all)
    if (told.gone_from != never && told.gone_from > told.day) stretches.push_back(told.gone_from);
  std::sort(stretches.begin(), stretches.end());
  for (std::size_t at = 0; at < stretches.size(); ++at) {
    const int begins = stretches[at], ends = at + 1 < stretches.size() ? stretches[at + 1] : never;
    std::map<int, std::vector<ShelfTold>> days;
    for (const ShelfTold& told : all)
      if (told.day < ends && told.gone_from > told.day && told.gone_from > begins)
        days[told.day].push_back(told);
    Number pieces = 0, value = 0;
    std::map<std::string, Number> went_back;  // of each line
    for (const auto& each_day : days) {
      const int day = each_day.first;
      const std::vector<ShelfTold>& told = each_day.second;
      const auto fact = [&](const std::string& place, Number amount, Number moved) {
        Fact made;
        made.day = std::max(day, begins);
        made.gone_from = ends;
        made.stands = day;
        made.amount = amount;
        made.pieces = moved;
        made.of_shelf = item;
        facts_[place].push_back(made);
      };
      const auto leaves = [&](Number gone, Number worth, const std::string& to) {
        pieces -= gone, value -= worth;
        fact("shelf " + item, -worth, -gone);
        fact(to, worth, 0);
      };
      std::vector<ShelfTold> backs;
      std::map<std::string, Number> drawn;
      Number drawn_in_all = 0;
      for (const ShelfTold& each : told) {
        if (each.what == "in") {
          pieces += each.pieces, value += each.worth;
          fact("shelf " + item, each.worth, each.pieces);
        }
        if (each.what == "back") backs.push_back(each);
        if (each.what == "draw") drawn[each.tag] += each.pieces, drawn_in_all += each.pieces;
      }
      std::stable_sort(backs.begin(), backs.end(), [](const ShelfTold& a, const ShelfTold& b) {
        return std::tuple(a.worth, a.line_pieces, -a.pieces) < std::tuple(b.worth, b.line_pieces, -b.pieces);
      });
      for (const ShelfTold& each : backs) {
        Number& before = went_back[each.line];
        const Number cost = half_away(each.worth * (before + each.pieces), each.line_pieces) -
                            half_away(each.worth * before, each.line_pieces);
        before += each.pieces;
        leaves(
            each.pieces,
            each.pieces == pieces ? value : std::min(std::max<Number>(cost, 0), std::max<Number>(value, 0)),
            "overhead");
      }
      if (drawn_in_all != 0) {
        const Number worth = drawn_in_all == pieces ? value : half_away(value * drawn_in_all, pieces);
        std::vector<Number> weights;
        for (const auto& [tag, part] : drawn) weights.push_back(part);
        const std::vector<Number> shares = shared_out(worth, weights);
        std::size_t next = 0;
        for (const auto& [tag, part] : drawn) leaves(part, shares[next++], "spent " + tag);
      }
      for (const ShelfTold& each : told)
        if (each.what == "count") {
          const Number missing = pieces - each.pieces;
          leaves(missing,
                 each.pieces == 0 ? value
                 : pieces > 0     ? half_away(value * missing, pieces)
                                  : 0,
                 "overhead");
        }
    }
  }
}

Number LineKept::refund(Number all, Number now) const {
  const Number before = sum("goods", &Back::pieces);
  return half_away(all * (before + now), line.pieces) - half_away(all * before, line.pieces);
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
      if (turn.what != "passed" || car.bought == 0) car.state = turn.what == "bought" ? "owned" : turn.what;
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
        // Under which day it stands decides, whenever it was typed.
        if (fact.counts()) (car.ended != 0 && fact.stands > car.ended_day ? after : before) += fact.amount;
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
  car.cost_less_recovered = std::max<Number>(car.cost - car.recovered_before, 0);
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
      for (const char* gone : {"recovered ", "off "})  // off: to another car, or to the shelf
        if (const auto sold = facts_.find(gone + tag); sold != facts_.end())
          for (const Fact& each : sold->second)
            if (each.counts() && (each.day > fact.day || (each.day == fact.day && each.event > fact.event)))
              since += each.amount;
      car.still_brings = std::max<Number>(0, fact.amount - since);
    }
  // At the price p the commission is rate x p: p - rate x p has to bring what is fixed, in whole cents or
  // more.
  const Number rate = sum("rate " + tag), fixed = out - in - half_away(car.sales * rate, 1000);
  const Number wanted = fixed * 1000, part = 1000 - rate;
  car.break_even = std::max<Number>(wanted / part + (wanted % part > 0 ? 1 : 0), 0);
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

void Keeper::spend(const std::vector<Part>& parts, Number amount, bool off) {
  std::vector<Number> weights;
  for (const Part& part : parts) weights.push_back(part.weight);
  const std::vector<Number> shares = shared_out(amount, weights);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    add("spent " + parts[i].tag, shares[i]);
    if (off) add("off " + parts[i].tag, -shares[i]);
  }
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
    line.discount = discount[i];
    if (line.tax_on_core && taxed[i] != 0)
      line.core_tax = shared_out(tax[i], {line.taxed ? line.amount : 0, line.core})[1];
  }
}

void Keeper::receipt(Paper paper) {
  work_out(paper);
  // The paper takes the place of its quick line from the earlier of both days. Where that lies in a closed
  // period it counts there, and the paper comes in its place from then on: as far as it went under its day.
  std::map<std::string, Number> stood;
  int stood_under = 0;
  const int typed_on = day_;
  if (paper.replaces != 0) {
    const int quick_day = papers_.at(paper.replaces).day;
    const bool later = quick_day <= closed;
    for (auto& [place, facts] : facts_)
      for (const Fact& fact : facts)
        if (later && place.rfind("spent ", 0) == 0 && fact.event == paper.replaces)
          stood[place] += fact.amount;
    stood_under = quick_day;
    day_ = later ? closed + 1 : std::min(quick_day, day_);
    take_back(paper.replaces);
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
    goods_went_back(line.return_of, line.pieces, -line.amount,
                    std::min(-line.tax, std::max<Number>(from.tax_of(line.pieces), 0)),
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
      tell_shelf(line.stock, "in", "", half_away(line.pieces * line.gives, 1000), kept.cost());
    else
      spend_on_line(line, kept.cost());
  }
  papers_[event_] = kept_paper;
  for (const auto& [place, amount] : stood) {
    Number now = 0;
    for (const Fact& fact : facts_[place])
      if (fact.event == event_) now += fact.amount;
    Fact moved;
    static_cast<Lasting&>(moved) = this->now();
    moved.amount = std::min(now, amount);
    moved.stands = stood_under;
    facts_[place].push_back(moved);
    add(place, -moved.amount);
  }
  day_ = typed_on;
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
    const Number used = half_away(pieces * kept.line.gives, 1000);
    tell_shelf(kept.line.stock, "back", "", used, kept.cost(), id,
               half_away(kept.line.pieces * kept.line.gives, 1000));
    add("overhead", -refund);
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
  tell_shelf(item, "draw", tag, pieces, 0);
}

void Keeper::count(const std::string& item, Number found) { tell_shelf(item, "count", "", found, 0); }

void Keeper::shelve_line(const std::string& id, const std::string& item, Number pieces) {
  LineKept& kept = lines_.at(id);
  const Number amount = half_away(kept.cost() * pieces, kept.line.pieces);
  spend(kept.line.parts, -amount, true);
  tell_shelf(item, "in", "", pieces, amount);
  Back back;
  static_cast<Lasting&>(back) = now();
  back.what = "shelf";
  back.pieces = pieces;
  kept.backs.push_back(back);
}

void Keeper::shelve(const std::string& tag, const std::string& item, Number pieces, Number amount) {
  add("spent " + tag, -amount);
  add("off " + tag, amount);
  tell_shelf(item, "in", "", pieces, amount);
}

void Keeper::transfer(const std::string& from, const std::string& to, Number amount) {
  if (from == "tools") {
    const Number off_kept = std::clamp<Number>(sum("tools kept"), 0, amount);
    add("tools kept", -off_kept);
    add("tools", off_kept - amount);
  } else {
    add("spent " + from, -amount);
    add("off " + from, amount);
  }
  add(to == "overhead" ? to : "spent " + to, amount);
}

void Keeper::recover(const std::string& tag, Number amount, const std::string& purse) {
  add("purse " + purse, amount);
  add("recovered " + tag, amount);
}

void Keeper::recover_back(const std::string& tag, Number amount, const std::string& purse) {
  add("purse " + purse, -amount);
  add("recovered " + tag, -amount);
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
  for (auto& [item, told] : shelves_) {
    for (ShelfTold& each : told) gone(each);
    reckon_shelf(item);
  }
}

}  // namespace second
