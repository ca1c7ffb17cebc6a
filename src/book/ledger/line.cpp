#include "book/ledger/line.h"

#include <fmt/format.h>

#include "book/ledger/names.h"
#include "exact/hint.h"
#include "exact/nearest.h"
#include "exact/spread.h"

namespace nonrunner::book {

Line line_by_number(const Book& book, std::int64_t number, std::optional<Day> on) {
  Line line;
  auto& row = book.query(
      "SELECT l.line, l.entry, e.day, l.id, l.what, l.kind, coalesce(l.source, ''), l.supplier, "
      "coalesce(l.stock, ''), l.quantity, "
      "coalesce(l.gives, 1000), l.amount, l.tax, l.extra, l.core, l.core_tax, l.core_by "
      "FROM line l JOIN entry e USING (entry) WHERE l.line = ?");
  row.bind(1, number);
  if (!row.executeStep()) throw std::logic_error("no line " + std::to_string(number));
  line.number = row.getColumn(0).getInt64();
  line.entry = row.getColumn(1).getInt64();
  line.day = Day::parse(row.getColumn(2).getString());
  line.id = row.getColumn(3).getString();
  line.what = row.getColumn(4).getString();
  line.kind = row.getColumn(5).getString();
  line.source = row.getColumn(6).getString();
  line.supplier = row.getColumn(7).getString();
  line.stock = row.getColumn(8).getString();
  line.quantity = Quantity::of(row.getColumn(9).getInt64());
  line.gives = Quantity::of(row.getColumn(10).getInt64());
  line.amount = Money::of_minor(row.getColumn(11).getInt64());
  line.tax = Money::of_minor(row.getColumn(12).getInt64());
  line.extra = Money::of_minor(row.getColumn(13).getInt64());
  line.core = Money::of_minor(row.getColumn(14).getInt64());
  line.core_tax = Money::of_minor(row.getColumn(15).getInt64());
  if (!row.getColumn(16).isNull()) line.core_by = Day::parse(row.getColumn(16).getString());
  row.tryReset();
  auto& shares = book.query("SELECT vehicle, weight FROM share WHERE line = ? ORDER BY rowid");
  shares.bind(1, number);
  while (shares.executeStep())
    line.shares.push_back({shares.getColumn(0).getString(), shares.getColumn(1).getInt64()});
  auto& facts = book.query(
      "SELECT coalesce((SELECT d.amount FROM discount d WHERE d.line = ?1), 0), EXISTS (SELECT 1 FROM "
      "kept_tool k "
      "WHERE k.line = ?1)");
  facts.bind(1, number);
  facts.executeStep();
  line.discount = Money::of_minor(facts.getColumn(0).getInt64());
  line.tools_kept = facts.getColumn(1).getInt() != 0;
  facts.tryReset();
  auto& back = book.query(
      "SELECT g.what, sum(g.quantity), sum(g.goods), sum(g.tax), sum(g.kept) FROM given_back g JOIN entry e "
      "USING (entry) WHERE g.line = ?1 AND " +
      counts_on("?2") + " GROUP BY g.what");
  back.bind(1, number);
  back.bind(2, on ? on->iso() : "9999-12-31");
  while (back.executeStep()) {
    const Quantity quantity = Quantity::of(back.getColumn(1).getInt64());
    const Money goods = Money::of_minor(back.getColumn(2).getInt64());
    const std::string what = back.getColumn(0).getString();
    if (what == "shelf") {
      line.shelved = quantity;
    } else if (what == "goods") {
      line.goods_back = quantity;
      line.goods_back_amount = goods;
      line.goods_back_tax = Money::of_minor(back.getColumn(3).getInt64());
    } else {
      line.core_back = quantity;
      line.core_back_deposit = goods + Money::of_minor(back.getColumn(4).getInt64());
    }
  }
  return line;
}

Quantity Line::pieces_used(Quantity bought) const {
  return Quantity::of(scaled(bought.thousandths(), gives.thousandths(), 1000, Rounding::half_away));
}

std::optional<Line> find_line(const Book& book, const std::string& id) {
  auto& find = book.query("SELECT l.line FROM line l JOIN live_entry USING (entry) WHERE l.id = ?");
  find.bind(1, id);
  if (!find.executeStep()) return std::nullopt;
  const std::int64_t number = find.getColumn(0).getInt64();
  find.tryReset();
  return line_by_number(book, number);
}

Line expect_line(const Book& book, const std::string& event, const std::string& id) {
  auto line = find_line(book, id);
  if (line) return *std::move(line);
  std::vector<std::string> recent;
  auto& all = book.query("SELECT id FROM line ORDER BY line DESC LIMIT 2000");
  while (all.executeStep()) recent.push_back(all.getColumn(0).getString());
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
      draft.purpose({vehicle, purpose, what, line.number, quantity, -parts[i], {}, ""});
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
    draft.purpose({line.shares[i].vehicle, "due back", what, line.number, {}, parts[i], {}, ""});
}

}  // namespace nonrunner::book
