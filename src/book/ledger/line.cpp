#include "book/ledger/line.h"

#include <fmt/format.h>

#include "book/ledger/names.h"
#include "book/ledger/query.h"
#include "exact/hint.h"
#include "exact/nearest.h"
#include "exact/spread.h"

namespace nonrunner::book {

Line line_by_number(const Book& book, std::int64_t number, std::optional<Day> on) {
  Line line;
  const bool found =
      row(book,
          "SELECT l.line, l.entry, e.day, l.id, l.what, l.kind, coalesce(l.source, ''), l.supplier, "
          "coalesce(l.stock, ''), "
          "l.quantity, coalesce(l.gives, 1000), l.amount, l.tax, l.extra, l.core, l.core_tax, l.core_by, "
          "coalesce((SELECT "
          "d.amount FROM discount d WHERE d.line = l.line), 0), EXISTS (SELECT 1 FROM kept_tool k WHERE "
          "k.line = l.line) "
          "FROM line l JOIN entry e USING (entry) WHERE l.line = :line",
          {{":line", number}}, [&](const Row& each) {
            each.into(line.number, line.entry, line.day, line.id, line.what, line.kind, line.source,
                      line.supplier, line.stock, line.quantity, line.gives, line.amount, line.tax, line.extra,
                      line.core, line.core_tax, line.core_by, line.discount, line.tools_kept);
          });
  if (!found) throw std::logic_error("no line " + std::to_string(number));
  each<std::string, std::int64_t>(book, "SELECT vehicle, weight FROM share WHERE line = :line ORDER BY rowid",
                                  {{":line", number}}, [&](const std::string& vehicle, std::int64_t weight) {
                                    line.shares.push_back({vehicle, weight});
                                  });
  each<std::string, Quantity, Money, Money>(
      book,
      "SELECT g.what, sum(g.quantity), sum(g.goods), sum(g.kept) FROM given_back g JOIN entry e "
      "USING "
      "(entry) WHERE g.line = :line AND " +
          counts_on(":on") + " GROUP BY g.what",
      {{":line", number}, {":on", on}},
      [&](const std::string& what, Quantity quantity, Money goods, Money kept) {
        if (what == "shelf") {
          line.shelved = quantity;
        } else if (what == "goods") {
          line.goods_back = quantity;
        } else {
          line.core_back = quantity;
          line.core_back_deposit = goods + kept;
        }
      });
  return line;
}

Quantity Line::pieces_used(Quantity bought) const {
  return Quantity::of(scaled(bought.thousandths(), gives.thousandths(), 1000, Rounding::half_away));
}

std::optional<Line> find_line(const Book& book, const std::string& id) {
  const auto number = first<std::int64_t>(
      book, "SELECT l.line FROM line l JOIN live_entry USING (entry) WHERE l.id = :id", {{":id", id}});
  if (!number) return std::nullopt;
  return line_by_number(book, *number);
}

Line expect_line(const Book& book, const std::string& event, const std::string& id) {
  auto line = find_line(book, id);
  if (line) return *std::move(line);
  std::vector<std::string> recent;
  each<std::string>(book,
                    "SELECT l.id FROM line l JOIN live_entry USING (entry) ORDER BY l.line DESC LIMIT 2000",
                    {}, [&](const std::string& each_id) { recent.push_back(each_id); });
  const std::string found = fmt::format("{}: no receipt line has the id \"{}\"", event, id);
  if (const std::string near = did_you_mean(id, recent); !near.empty()) throw Refusal(found + near);
  throw hinted<Refusal>(found, {Action::list_lines, {}});
}

Money part_of(const Line& line, const std::string& vehicle, Money amount) {
  std::vector<std::int64_t> weights;
  for (const Share& share : line.shares) weights.push_back(share.weight);
  const std::vector<Money> parts = spread(amount, weights);
  Money of_vehicle;
  for (std::size_t i = 0; i < parts.size(); ++i)
    if (line.shares[i].vehicle == vehicle) of_vehicle += parts[i];
  return of_vehicle;
}

std::string purpose_of(const Line& line) {
  return line.kind == "consumable" || line.kind == "sublet" || line.kind == "fee" ? line.kind : "part";
}

namespace {
std::vector<Money> shared(const Line& line, Money amount) {
  std::vector<std::int64_t> weights;
  for (const Share& share : line.shares) weights.push_back(share.weight);
  return spread(amount, weights);
}
}  // namespace

void post_to_line(Draft& draft, const Line& line, Money amount, const std::string& purpose,
                  const std::string& what, std::optional<Quantity> quantity) {
  if (!line.shares.empty()) {
    const std::vector<Money> parts = shared(line, amount);
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const std::string& vehicle = line.shares[i].vehicle;
      draft.post(account::vehicle_cost, vehicle, parts[i]);
      draft.purpose({vehicle, purpose, what, line.number, quantity, -parts[i], {}});
    }
  } else if (line.kind == "tool") {
    draft.post(account::tools, line.tools_kept ? account::tools_kept : "", amount);
  } else if (line.kind == "private") {
    draft.post(account::owner, "", amount);
  } else {
    draft.post(account::overhead, "", amount);
  }
}

void deposit_of_line(Draft& draft, const Line& line, Money amount, const std::string& what) {
  if (line.shares.empty() || is_zero(amount)) return;
  const std::vector<Money> parts = shared(line, amount);
  for (std::size_t i = 0; i < parts.size(); ++i)
    draft.purpose({line.shares[i].vehicle, "due back", what, line.number, {}, parts[i], {}});
}

}  // namespace nonrunner::book
