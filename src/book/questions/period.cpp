#include "book/questions/period.h"

#include <algorithm>

#include "book/ledger/position.h"
#include "book/ledger/query.h"
#include "book/ledger/taken_back.h"
#include "book/questions/journal.h"

namespace nonrunner::book {

namespace {
// The day on which an entry `e` moves what it moves.
const std::string moves_on = taken_back_on("e");
// Those entries `e` of the days :from to :to, see the header. The signs: see schema/0008-live-entry.sql.
const std::string moves_here =
    "(" + moves_on + " >= :from AND " + moves_on +
    " <= :to AND "
    "CASE WHEN e.voids IS NULL "
    "THEN NOT EXISTS (SELECT 1 FROM entry v WHERE v.voids = e.entry AND " +
    taken_back_on("v") +
    " <= :to) "
    "ELSE EXISTS (SELECT 1 FROM entry o WHERE o.entry = e.voids AND o.day < :from) END)";
// Those without reversals: what was said on a day of the period and still stood at its end.
const std::string stood_here = "(+e.day >= :from AND " + counts_on(":to") + ")";

}  // namespace

namespace {

// What a car's cost and its recoveries are on a day, by the accounts that a report shows them under: debits
// positive. They add up to what its two accounts hold.
struct Shown {
  Money vehicle_cost, recovered, cost_of_sale, written_off, late_cost, looking, income;
  Money closed_cost, closed_recovered;  // what a sale or a write-off took out of the first two
  Money off_looking;                    // what recoveries took off it
};
Shown shown_of(const Position& position) {
  Shown shown;
  const Money off = position.recovered_before - position.beyond_cost;
  if (position.life.ended != 0) {
    (position.life.state == State::sold ? shown.cost_of_sale : shown.written_off) = position.cost_of_sale;
    shown.closed_cost = position.cost;
    shown.closed_recovered = off;
  } else if (position.life.state == State::passed) {
    shown.looking = position.looking;
    shown.off_looking = off;
  } else {
    shown.vehicle_cost = position.cost;
    shown.recovered = -off;
  }
  shown.late_cost = position.late_cost;
  shown.income = -position.income();
  return shown;
}

void add_cars(std::vector<AccountMovement>& all, const Book& book, Day from, Day to) {
  const auto before = all_positions(book, from.plus(-1)), after = all_positions(book, to);
  for (const auto& each : after) {
    const std::string& tag = each.first;
    const auto found = before.find(tag);
    const Shown then = found == before.end() ? Shown{} : shown_of(found->second), now = shown_of(each.second);
    const auto add = [&](const char* kind, Money Shown::*field, Money closing, Money set_off = {}) {
      const Money sum = now.*field - then.*field;
      if (is_zero(sum) && is_zero(closing) && is_zero(set_off)) return;
      all.push_back(
          {kind, tag, sum, std::max(sum, Money{}), std::max(-sum, Money{}), Quantity{}, closing, set_off});
    };
    add(account::vehicle_cost, &Shown::vehicle_cost, then.closed_cost - now.closed_cost);
    add(account::recovered, &Shown::recovered, now.closed_recovered - then.closed_recovered);
    add(account::cost_of_sale, &Shown::cost_of_sale, {});
    add(account::written_off, &Shown::written_off, {});
    add(account::late_cost, &Shown::late_cost, {});
    add(account::looking, &Shown::looking, {}, now.off_looking - then.off_looking);
    add(account::recovered_income, &Shown::income, {});
  }
}

}  // namespace

std::vector<AccountMovement> movements(const Book& book, Day from, Day to) {
  std::vector<AccountMovement> all;
  rows(
      book,
      "SELECT a.kind, a.name, sum(p.amount), sum(max(p.amount, 0)), -sum(min(p.amount, 0)), "
      "coalesce(sum(p.quantity), 0) FROM posting p JOIN entry e USING (entry) JOIN account a USING (account) "
      "WHERE a.kind NOT IN ('vehicle cost', 'recovered', 'late cost', 'looking', 'recovered income', 'cost "
      "of "
      "sale', 'written off') AND " +
          moves_here + " GROUP BY a.account ORDER BY a.account",
      {{":from", from}, {":to", to}}, [&](const Row& of) {
        AccountMovement& each = all.emplace_back();
        of.into(each.kind, each.name, each.sum, each.in, each.out, each.quantity);
      });
  add_cars(all, book, from, to);
  return all;
}

OwnerMoved owner_moved(const Book& book, Day from, Day to) {
  OwnerMoved all;
  each<bool, Money, Money>(
      book,
      "SELECT coalesce(taken.kind, e.kind) IN ('owner in', 'owner out'), sum(max(p.amount, 0)), "
      "-sum(min(p.amount, 0)) FROM account a JOIN posting p USING (account) JOIN entry e USING (entry) LEFT "
      "JOIN entry taken ON taken.entry = e.voids WHERE a.kind = 'owner' AND " +
          moves_here + " GROUP BY 1",
      {{":from", from}, {":to", to}}, [&](bool money, Money debits, Money credits) {
        if (money)
          all.put_in = credits, all.taken_out = debits;
        else
          all.on_papers = debits - credits;
      });
  return all;
}

std::vector<PeriodLine> posted_to(const Book& book, const std::string& account_kind, Day from, Day to) {
  std::vector<PeriodLine> all;
  each<Day, EntryId, std::string, std::string, Money>(
      book,
      "SELECT " + moves_on +
          " AS moved, e.entry, e.event, a.name, p.amount FROM account a JOIN posting p USING (account) JOIN "
          "entry e USING (entry) WHERE a.kind = :kind AND p.amount <> 0 AND " +
          moves_here + " ORDER BY moved, e.entry, p.seq",
      {{":from", from}, {":to", to}, {":kind", account_kind}},
      [&](Day day, EntryId entry, const std::string& event, const std::string& name, Money amount) {
        all.push_back({day, entry, words_for(event), name, amount});
      });
  return all;
}

std::vector<PutIn> put_into_cars(const Book& book, Day from, Day to) {
  std::vector<PutIn> all;
  each<EntryId, std::string, std::string, Money>(
      book,
      "SELECT e.entry, u.kind, coalesce(l.source, ''), sum(CASE WHEN e.voids IS NULL THEN -u.amount ELSE "
      "u.amount END) FROM entry e JOIN purpose u ON u.entry = coalesce(e.voids, e.entry) LEFT JOIN line l ON "
      "l.line = u.line WHERE u.kind IN ('purchase', 'fee', 'part', 'consumable', 'sublet', 'paid hours', "
      "'other cost') AND " +
          moves_here + " GROUP BY e.entry, u.kind, coalesce(l.source, '') ORDER BY e.entry",
      {{":from", from}, {":to", to}},
      [&](EntryId entry, const std::string& kind, const std::string& source, Money amount) {
        all.push_back({entry, kind, source, amount});
      });
  return all;
}

Money tax_in_costs(const Book& book, Day from, Day to) {
  const auto sum_of = [&](const std::string& amount, const std::string& rows_of) {
    return *first<Money>(book,
                         "SELECT coalesce(sum(CASE WHEN e.voids IS NULL THEN " + amount + " ELSE -(" +
                             amount + ") END), 0) FROM entry e JOIN " + rows_of + " AND " + moves_here,
                         {{":from", from}, {":to", to}});
  };
  return sum_of(
             "l.tax - l.core_tax",
             "line l ON l.entry = coalesce(e.voids, e.entry) WHERE l.kind NOT IN ('private', 'core back')") -
         sum_of(
             "g.tax",
             "given_back g ON g.entry = coalesce(e.voids, e.entry) JOIN line l USING (line) WHERE g.what = "
             "'goods' AND l.kind <> 'private'");
}

std::vector<PeriodLine> parts_sold(const Book& book, Day from, Day to) {
  std::vector<PeriodLine> all;
  each<Day, EntryId, std::string, std::string, Money>(
      book,
      "SELECT e.day, e.entry, u.what, u.vehicle, CASE WHEN e.voids IS NULL THEN u.amount ELSE -u.amount END "
      "FROM entry e JOIN purpose u ON u.entry = coalesce(e.voids, e.entry) WHERE u.kind = 'recovered' AND " +
          moves_here + " ORDER BY e.day, e.entry, u.rowid",
      {{":from", from}, {":to", to}},
      [&](Day day, EntryId entry, const std::string& what, const std::string& vehicle, Money amount) {
        all.push_back({day, entry, what, vehicle, amount});
      });
  return all;
}

namespace {
// Of a paper `p` and its entry, or reversal, `e` of moves_here: whether it takes back one of before the period, or puts one right.
const std::string of_before =
    "(e.voids IS NOT NULL OR EXISTS (WITH RECURSIVE earlier(entry) AS (SELECT l.takes FROM place l WHERE "
    "l.entry = p.entry AND l.how = 'corrects' UNION SELECT l.takes FROM earlier JOIN place l USING (entry) "
    "WHERE l.how = 'corrects') SELECT 1 FROM earlier JOIN entry o USING (entry) JOIN entry v ON v.voids = "
    "o.entry WHERE o.day < :from AND v.day > o.day))";
}  // namespace

std::vector<PeriodLine> without_paper(const Book& book, Day from, Day to) {
  std::vector<PeriodLine> all;
  rows(book,
       "SELECT " + moves_on +
           " AS moved, e.entry, e.event, coalesce((SELECT group_concat(vehicle, ' ') FROM mention m WHERE "
           "m.entry = p.entry), ''), iif(e.voids IS NULL, p.total, -p.total), " +
           of_before +
           " FROM paper p JOIN entry e ON e.entry = p.entry OR e.voids = p.entry WHERE (p.on_paper = 0 OR "
           "p.itemised = 0) "
           "AND " +
           moves_here + " ORDER BY moved, e.entry",
       {{":from", from}, {":to", to}}, [&](const Row& of) {
         PeriodLine& line = all.emplace_back();
         std::string event;
         of.into(line.day, line.entry, event, line.about, line.amount, line.of_before);
         line.what = words_for(event);
       });
  return all;
}

std::vector<figures::Trip> trips(const Book& book, Day from, Day to) {
  std::vector<figures::Trip> all;
  std::vector<std::pair<std::string, Distance>> cars;  // of the last one
  const auto name_cars = [&] {
    if (all.empty()) return;
    for (const auto& [vehicle, distance] : cars) {
      std::string& names = all.back().vehicles;
      names += (names.empty() ? "" : ", ") + vehicle + (cars.size() > 1 ? " " + distance.shown() : "");
    }
    cars.clear();
  };
  each<EntryId, bool, Day, std::string, std::string, Distance>(
      book,
      "SELECT e.entry, e.voids IS NOT NULL, e.day, coalesce((SELECT r.why FROM errand r WHERE r.entry = "
      "t.entry), ''), t.vehicle, iif(e.voids IS NULL, t.distance, -t.distance) FROM trip t JOIN entry e ON "
      "e.entry = t.entry OR e.voids = t.entry WHERE " +
          moves_here + " ORDER BY e.day, e.entry, t.rowid",
      {{":from", from}, {":to", to}},
      [&](EntryId entry, bool taken_back, Day day, const std::string& why, const std::string& vehicle,
          Distance distance) {
        if (all.empty() || all.back().entry != entry) {
          name_cars();
          all.push_back({day, "", why, {}, "", entry, taken_back});
        }
        all.back().distance = all.back().distance + distance;
        cars.emplace_back(vehicle, distance);
      });
  name_cars();
  return all;
}

Money sales_returned(const Book& book, Day from, Day to) {
  return *first<Money>(
      book,
      "SELECT coalesce(sum(-p.amount), 0) FROM entry v JOIN entry e ON e.entry = v.voids JOIN posting p ON "
      "p.entry = e.entry JOIN account a USING (account) WHERE a.kind = 'sales' AND v.day > e.day AND v.day "
      ">= :from AND v.day <= :to",
      {{":from", from}, {":to", to}});
}

std::vector<figures::Sale> sales(const Book& book, Day from, Day to) {
  std::vector<figures::Sale> all;
  each<Day, std::string, Money>(
      book,
      "SELECT e.day, l.vehicle, coalesce((SELECT -sum(p.amount) FROM posting p JOIN account a USING "
      "(account) WHERE p.entry = e.entry AND a.kind = 'sales'), 0) FROM life l JOIN entry e USING (entry) "
      "WHERE l.turn = 'sold' AND " +
          stood_here + " ORDER BY e.day, e.entry",
      {{":from", from}, {":to", to}}, [&](Day day, const std::string& tag, Money price) {
        all.push_back({day, tag, price});
      });
  return all;
}

Hours own_hours(const Book& book, const std::string& vehicle, Day from, Day to) {
  return *first<Hours>(
      book,
      "SELECT coalesce(sum(CASE WHEN e.day < :from THEN -l.own ELSE l.own END), 0) FROM labour l JOIN entry "
      "e "
      "USING (entry) WHERE l.vehicle = :tag AND (" +
          stood_here +
          // Taken back within the period, of a day before it.
          " OR (e.day < :from AND EXISTS (SELECT 1 FROM entry v WHERE v.voids = e.entry AND v.day >= :from "
          "AND v.day <= :to)))",
      {{":from", from}, {":to", to}, {":tag", vehicle}});
}

}  // namespace nonrunner::book
