#include "book/questions/figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "book/events/goods_back.h"
#include "book/events/part_out.h"
#include "book/ledger/moved.h"
#include "book/ledger/position.h"
#include "book/ledger/query.h"
#include "book/ledger/settings.h"
#include "exact/ends.h"

namespace nonrunner::book {

namespace {

std::vector<std::string> cars_of_entry(const Book& book, EntryId entry) {
  std::vector<std::string> cars;
  each<std::string>(book, "SELECT vehicle FROM mention WHERE entry = :entry", {{":entry", entry}},
                    [&](const std::string& tag) { cars.push_back(tag); });
  return cars;
}

void read_money(const Book& book, VehicleFigures& figures, const Position& position) {
  figures.cost = position.cost;
  figures.late_cost = position.late_cost;
  figures.recovered_before = position.recovered_before;
  figures.recovered_after = position.recovered_after;
  figures.recovered_beyond_cost = position.beyond_cost;
  figures.carried = position.carried;
  figures.looking = position.looking;
  figures.sales = position.sales;
  figures.selling_costs = position.selling_costs;
  figures.deposit_kept = position.deposit_kept;
  figures.deposit_held = position.deposit_held;
  if (figures.life.bought == 0) return;
  row(book, "SELECT price, fees FROM purchase WHERE entry = :entry", {{":entry", figures.life.bought}},
      [&](const Row& purchase) { purchase.into(figures.price_paid, figures.fees); });
}

void read_work(const Book& book, VehicleFigures& figures, std::optional<Day> on) {
  each<std::string, Hours, Hours>(book,
                                  "SELECT l.operation, sum(l.own), sum(l.paid) FROM labour l JOIN entry e "
                                  "USING (entry) WHERE l.vehicle = :tag AND " +
                                      counts_on(":on") + " GROUP BY l.operation ORDER BY min(e.entry)",
                                  {{":tag", figures.tag}, {":on", on}},
                                  [&](const std::string& operation, Hours own, Hours paid) {
                                    figures.hours.push_back({operation, own, paid});
                                    figures.own_hours += own;
                                    figures.paid_hours += paid;
                                  });
  figures.distance = *first<Distance>(book,
                                      "SELECT coalesce(sum(t.distance), 0) FROM trip t JOIN entry e USING "
                                      "(entry) WHERE t.vehicle = :tag AND " +
                                          counts_on(":on"),
                                      {{":tag", figures.tag}, {":on", on}});
  each<Money>(book,
              "SELECT a.price FROM advert a JOIN entry e USING (entry) WHERE a.vehicle = :tag AND " +
                  counts_on(":on") + " ORDER BY e.day, e.entry",
              {{":tag", figures.tag}, {":on", on}}, [&](Money price) {
                figures.advertised_last = price;
                if (!figures.advertised_first) figures.advertised_first = price;
              });
}

// What was agreed at the sale; zero where it was an amount.
Rate commission_rate_of(const Book& book, EntryId sale) {
  const auto rate =
      first<std::int64_t>(book, "SELECT rate FROM sale WHERE entry = :entry", {{":entry", sale}});
  return rate ? Rate::parse(unscaled_trimmed(*rate, 9)) : Rate{};
}

// What was paid for selling it after its end, less what was kept of a deposit, by the day from which the sale counts; what the
// sale brought more of it when it was put right is its own.
Money sold_after_its_end(const Book& book, const std::string& tag, const Life& life) {
  if (life.ended_stands == life.ended_day) return {};
  return *first<Money>(
      book,
      "SELECT coalesce(sum(c.amount), 0) FROM account a JOIN counted c USING (account) WHERE a.name = :tag "
      "AND a.kind IN ('selling cost', 'deposit kept') AND c.day <= :day AND c.stands > :end AND c.entry <> "
      ":sale",
      {{":tag", tag}, {":day", life.ended_day}, {":end", life.ended_stands}, {":sale", life.ended}});
}

void work_out(const Book& book, VehicleFigures& f, const Position& position, const Expected& expected) {
  const bool ended = f.life.ended != 0, sold = f.life.state == State::sold;
  if (ended) {
    f.days = days_between(f.life.bought_said, f.life.ended_said);
    f.cash_profit = position.cash_profit();
    f.profit = *f.cash_profit - Price::of(f.hour).times(f.own_hours);
    // Of a sale of a closed period that was put right what stands after it was there by the day from which it counts.
    const Position then = position_of(book, f.tag, f.life.ended_day);
    f.first_cash_profit =
        then.cash_profit() + then.late_cost - then.recovered_after + sold_after_its_end(book, f.tag, f.life);
    if (f.own_hours > Hours{})
      f.per_own_hour = Money::of_minor(
          scaled(f.cash_profit->minor(), 1000, f.own_hours.thousandths(), Rounding::half_away));
    if (sold && f.sales > Money{}) {
      const auto ratio = [&](Money part) {
        return static_cast<double>(part.minor()) / static_cast<double>(f.sales.minor());
      };
      f.margin = ratio(*f.cash_profit);
      f.margin_after_own_hours = ratio(*f.profit);
    }
  }
  const Money income = f.recovered_before + f.recovered_after + f.deposit_kept;
  if (sold) {
    f.commission_rate = commission_rate_of(book, f.life.ended);
    f.break_even_price = f.commission_rate.grossed_up(
        f.cost + f.late_cost + f.selling_costs - f.commission_rate.of(f.sales, Rounding::half_away) - income);
  }
  if (f.life.state == State::owned)
    f.break_even_price = expected.commission.grossed_up(f.cost + f.selling_costs - income +
                                                        expected.to_complete + expected.selling_costs);
  // Where more was recovered than is in it, it breaks even at nothing.
  if (f.break_even_price) f.break_even_price = std::max(*f.break_even_price, Money{});
}

}  // namespace

VehicleFigures figures_of(const Book& book, const std::string& tag, Day today, std::optional<Day> on,
                          const Expected& expected) {
  VehicleFigures figures;
  figures.tag = tag;
  const Position position = position_of(book, tag, on);
  figures.life = position.life;
  read_money(book, figures, position);
  read_work(book, figures, on);
  figures.hour = hour(book, figures.life.ended != 0 ? std::optional(figures.life.ended_said) : on);
  work_out(book, figures, position, expected);
  if (figures.life.state == State::owned)
    figures.days_held = days_between(figures.life.bought_said, on.value_or(today));
  figures.still_brings = still_brings(book, tag, on);
  figures.due = dues(book, on, tag);
  for (const Waiting& each : tray(book, on, tag)) figures.waiting.push_back(each.entry);
  figures.final = figures.life.ended != 0 && figures.due.empty() && figures.waiting.empty() &&
                  is_zero(figures.deposit_held);
  return figures;
}

std::vector<NamedBalance> balances(const Book& book, const std::string& account_kind, std::optional<Day> on) {
  std::vector<NamedBalance> all;
  const auto take = [&](const Row& row) {
    NamedBalance& balance = all.emplace_back();
    row.into(balance.name, balance.amount, balance.quantity);
  };
  if (on)
    rows(book,
         "SELECT a.name, sum(d.amount), sum(d.quantity) FROM account a JOIN account_day d USING (account) "
         "WHERE a.kind = "
         ":kind AND d.day <= :on GROUP BY a.account ORDER BY a.account",
         {{":kind", account_kind}, {":on", on}}, take);
  else
    rows(book,
         "SELECT a.name, coalesce(b.amount, 0), coalesce(b.quantity, 0) FROM account a LEFT JOIN balance b "
         "USING "
         "(account) WHERE a.kind = :kind ORDER BY a.account",
         {{":kind", account_kind}}, take);
  return all;
}

std::vector<Due> dues(const Book& book, std::optional<Day> on, const std::string& vehicle) {
  std::vector<Due> all;
  // Cores: the deposit of each line less what came back or was given up for it. Of one car: from its own
  // lines, so that it takes no longer in a book of many years.
  const std::string which =
      vehicle.empty()
          ? ":tag = ''"
          : "l.line IN (SELECT s.line FROM share s WHERE s.vehicle = :tag UNION ALL SELECT c.line FROM "
            "charged c WHERE c.vehicle = :tag)";
  rows(book,
       "SELECT l.id, l.what, l.supplier, l.core + l.core_tax - coalesce((SELECT sum(g.goods + g.kept) FROM "
       "given_back g "
       "JOIN entry e USING (entry) WHERE g.line = l.line AND g.what = 'core' AND " +
           counts_on(":on") +
           "), 0) AS due, l.core_by, l.line FROM line l JOIN entry e USING (entry) WHERE l.core > 0 AND " +
           which + " AND " + counts_on(":on") + " AND due <> 0 ORDER BY l.line",
       {{":on", on}, {":tag", vehicle}}, [&](const Row& core) {
         Due& due = all.emplace_back();
         std::int64_t number = 0;
         core.into(due.line, due.what, due.from, due.amount, due.by, number);
         due.kind = figures::DueKind::core;
         // A part that was moved took its deposit along.
         if (holder_of(book, number, on))
           due.vehicles = cars_with(book, line_by_number(book, number, on), on);
         else
           each<std::string>(book, "SELECT vehicle FROM share WHERE line = :line ORDER BY rowid",
                             {{":line", number}},
                             [&](const std::string& tag) { due.vehicles.push_back(tag); });
         if (!vehicle.empty() &&
             std::find(due.vehicles.begin(), due.vehicles.end(), vehicle) == due.vehicles.end())
           all.pop_back();
       });
  if (vehicle.empty()) {
    for (const NamedBalance& tool : balances(book, account::tool_deposit, on)) {
      if (is_zero(tool.amount)) continue;
      Due due{tool.name, "", {}, tool.amount, {}, {}, figures::DueKind::tool_deposit};
      row(book,
          "SELECT d.supplier, d.by_day FROM deposit_by d JOIN entry e USING (entry) WHERE d.account = :tool "
          "AND " +
              counts_on(":on") + " ORDER BY entry DESC LIMIT 1",
          {{":tool", tool.name}, {":on", on}}, [&](const Row& last) { last.into(due.from, due.by); });
      all.push_back(std::move(due));
    }
    for (const NamedBalance& purse : balances(book, account::purse, on))
      if (purse.amount > Money{} && purse_kind(book, purse.name) == "credit")
        all.push_back({purse.name, purse.name, {}, purse.amount, {}, {}, figures::DueKind::credit});
  }
  std::stable_sort(all.begin(), all.end(), [](const Due& a, const Due& b) {
    if (a.by.has_value() != b.by.has_value()) return a.by.has_value();
    return a.by && *a.by < *b.by;
  });
  return all;
}

Money trial_balance(const Book& book) {
  return *first<Money>(book, "SELECT coalesce(sum(amount), 0) FROM balance", {});
}

std::vector<Waiting> tray(const Book& book, std::optional<Day> on, const std::string& vehicle) {
  std::vector<Waiting> all;
  // Of one car: from its own entries.
  const std::string which =
      vehicle.empty() ? ":tag = ''" : "p.entry IN (SELECT m.entry FROM mention m WHERE m.vehicle = :tag)";
  rows(book,
       "SELECT p.entry, e.day, p.total, p.supplier, (SELECT what FROM line l WHERE l.entry = p.entry ORDER "
       "BY l.line "
       "LIMIT 1) FROM paper p JOIN entry e USING (entry) WHERE " +
           which + " AND " + (vehicle.empty() ? "" : "+") + "p.itemised = 0 AND p.on_paper = 1 AND " +
           counts_on(":on") + " ORDER BY p.entry",
       {{":tag", vehicle}, {":on", on}}, [&](const Row& row) {
         Waiting& waiting = all.emplace_back();
         row.into(waiting.entry, waiting.day, waiting.total, waiting.supplier, waiting.what);
       });
  for (Waiting& waiting : all) waiting.vehicles = cars_of_entry(book, waiting.entry);
  return all;
}

std::vector<MayGoBack> may_go_back(const Book& book, Day day, const std::string& vehicle) {
  std::vector<std::pair<std::int64_t, Day>> lines;
  const std::string which =
      vehicle.empty() ? ":tag = ''" : "l.line IN (SELECT s.line FROM share s WHERE s.vehicle = :tag)";
  each<std::int64_t, Day>(
      book,
      "SELECT l.line, p.back_by FROM paper p JOIN entry e USING (entry) JOIN line l ON l.entry = p.entry "
      "WHERE p.back_by "
      ">= :on AND l.kind IN ('part', 'consumable', 'stock', 'tool') AND l.amount > 0 AND " +
          counts_on(":on") + " AND " + which + " ORDER BY p.back_by, l.line",
      {{":on", day}, {":tag", vehicle}},
      [&](std::int64_t number, Day by) { lines.emplace_back(number, by); });
  std::vector<MayGoBack> all;
  for (const auto& [number, by] : lines) {
    const Line line = line_by_number(book, number, day);
    // Who has handed in the old part has fitted the new one (common practice, no source).
    const Quantity fitted = std::max(Quantity{}, line.core_back - line.goods_back);
    const Quantity unused = line.left() - fitted;
    if (unused <= Quantity{}) continue;
    const Refund refund = full_refund(line, unused);
    Money comes = refund.goods + refund.tax;
    if (!vehicle.empty()) comes = part_of(line, vehicle, comes);
    all.push_back({line.id, line.what, line.supplier, by, comes});
  }
  return all;
}

}  // namespace nonrunner::book
