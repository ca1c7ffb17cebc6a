#include "book/care/older_endings.h"

#include <fmt/format.h>

#include <map>
#include <set>
#include <utility>

#include "book/care/older_rows.h"
#include "book/ledger/position.h"
#include "book/ledger/query.h"
#include "book/ledger/stands.h"
#include "book/questions/figures.h"
#include "exact/ends.h"

namespace nonrunner::book {

namespace {

constexpr const char* ending_tables[] = {"ended"};

EntryId first_with_endings(const Book& book) {
  return *first<EntryId>(book, "SELECT entry FROM sealed_from WHERE what = 'ended'", {});
}

// Sales and write-offs of before that put another one right, with their cars.
std::vector<std::pair<EntryId, std::string>> put_right_before(const Book& book) {
  std::vector<std::pair<EntryId, std::string>> all;
  each<EntryId, std::string>(
      book,
      "SELECT l.entry, l.vehicle FROM life l JOIN place p ON p.entry = l.entry WHERE p.how = 'corrects' AND "
      "l.turn IN ('sold', 'finished') AND l.entry < :since ORDER BY l.entry",
      {{":since", first_with_endings(book)}},
      [&](EntryId entry, const std::string& tag) { all.emplace_back(entry, tag); });
  return all;
}

// What is shown of a car, by what it is called.
using Shown = std::map<std::string, Money>;
Shown shown_of(const Book& book, const std::string& tag, const std::vector<int>& years) {
  Shown all;
  const Position now = position_of(book, tag);
  all["cost"] = now.cost;
  all["late cost"] = now.late_cost;
  all["recovered before its end"] = now.recovered_before;
  all["recovered after its end"] = now.recovered_after;
  if (now.life.ended != 0) {
    const Position then = position_of(book, tag, now.life.ended_day);
    all["cash profit on the day of its end"] = then.cash_profit() + then.late_cost - then.recovered_after;
  }
  for (const int year : years) {
    const Position was = position_of(book, tag, Day(year, 1, 1).plus(-1)),
                   is = position_of(book, tag, Day(year, 12, 31));
    all[fmt::format("cost of what was sold in {}", year)] = is.cost_of_sale - was.cost_of_sale;
    all[fmt::format("late cost in {}", year)] = is.late_cost - was.late_cost;
    all[fmt::format("income from recoveries in {}", year)] = is.income() - was.income();
  }
  return all;
}

}  // namespace

std::vector<std::string> add_older_endings(Book& book) {
  const auto entries = put_right_before(book);
  if (entries.empty()) return {};
  std::vector<int> years;
  each<int>(book, "SELECT DISTINCT CAST(substr(day, 1, 4) AS INTEGER) FROM entry ORDER BY 1", {},
            [&](int year) { years.push_back(year); });
  std::map<std::string, Shown> before;
  for (const auto& each : entries) before.try_emplace(each.second, shown_of(book, each.second, years));
  while_open(book, ending_tables, [&] {
    for (const auto& [id, tag] : entries)
      if (const auto day = ended_under(book, load_entry(book, id));
          day && rows_beside(book, id, ending_tables).empty())
        add_older_row(book, id, {detail_table("ended"), {day->iso()}});
  });
  std::vector<std::string> lines;
  for (auto& [tag, figures] : before) {
    Shown now = shown_of(book, tag, years);
    if (const Life life = life_of(book, tag); life.ended != 0)
      now["cash profit on the day of its end"] = *figures_of(book, tag, life.ended_day).first_cash_profit;
    for (const auto& [what, amount] : figures)
      if (now[what] != amount)
        lines.push_back(fmt::format("{}: {}: {} before, {} now", tag, what, amount.plain(book.currency()),
                                    now[what].plain(book.currency())));
  }
  return lines;
}

bool older_endings_agree(const Book& book, const Entry& entry) {
  if (entry.id >= first_with_endings(book)) return true;
  std::vector<Detail> follows;
  if (const auto day = ended_under(book, entry)) follows.push_back({detail_table("ended"), {day->iso()}});
  return follows == rows_beside(book, entry.id, ending_tables);
}

}  // namespace nonrunner::book
