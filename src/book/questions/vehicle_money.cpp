#include "book/questions/vehicle_money.h"

#include <algorithm>
#include <map>

namespace nonrunner::book {

namespace {

bool is_cost_account(const std::string& account) {
  return account == account::vehicle_cost || account == account::late_cost || account == account::looking;
}

// One entry's part in one car's money.
class Reading {
 public:
  Reading(const Book& book, const std::string& tag, const Life& life, std::vector<MoneyLine>& lines)
      : book_(book), tag_(tag), life_(life), lines_(lines) {}

  void read(const Entry& entry) {
    entry_ = &entry;
    const Value value = kept_event(entry.event);
    event_ = value.find("e");
    if (entry.kind == "buy") return buy();
    if (entry.kind == "receipt") return receipt();
    if (entry.kind == "return") return back(false);
    if (entry.kind == "core back") return back(true);
    if (entry.kind == "sell") return sale();
    if (entry.kind == "hours") return add(text("operation"), MoneyKind::paid_hours, -posted(is_cost_account));
    if (entry.kind == "draw")
      return add(text("stock"), MoneyKind::consumable, -posted(is_cost_account), quantity("qty"));
    if (entry.kind == "selling cost")
      return add(text("what"), MoneyKind::selling_cost, -posted_to(account::selling_cost));
    if (entry.kind == "recover" || entry.kind == "recover back")
      return add(text("what"), MoneyKind::recovered,
                 -posted_to(account::recovered) - posted_to(account::recovered_income));
    if (entry.kind == "buyer deposit" || entry.kind == "deposit kept" || entry.kind == "deposit back") {
      add("buyer's deposit", MoneyKind::due_back, -posted_to(account::buyer_deposit));
      return add("buyer's deposit kept", MoneyKind::deposit_kept, -posted_to(account::deposit_kept));
    }
    if (entry.kind == "transfer" || entry.kind == "shelve")
      return add(text("what"), MoneyKind::other_cost, -posted(is_cost_account));
  }

 private:
  std::string text(const char* key) const {
    const Value* found = event_->find(key);
    return found ? found->text : "";
  }
  std::optional<Quantity> quantity(const char* key) const {
    const Value* found = event_->find(key);
    return found ? std::optional(Quantity::parse(found->text)) : std::nullopt;
  }
  template <class Which>
  Money posted(Which which) const {
    Money sum;
    for (const Posting& posting : entry_->postings)
      if (posting.name == tag_ && which(posting.kind)) sum += posting.amount;
    return sum;
  }
  Money posted_to(const char* kind) const {
    return posted([&](const std::string& account) { return account == kind; });
  }
  MoneyLine& line(std::string what, MoneyKind kind, Money amount, std::optional<Quantity> quantity = {}) {
    MoneyLine line;
    line.day = entry_->day;
    line.entry = entry_->id;
    line.what = std::move(what);
    line.kind = kind;
    line.quantity = quantity;
    line.amount = amount;
    line.after_sale = life_.ended != 0 && entry_->id > life_.ended;
    if (kind == MoneyKind::paid_hours) line.operation = line.what;
    lines_.push_back(std::move(line));
    return lines_.back();
  }
  void add(std::string what, MoneyKind kind, Money amount, std::optional<Quantity> quantity = {}) {
    if (!is_zero(amount)) line(std::move(what), kind, amount, quantity);
  }

  void buy() {
    add("price paid", MoneyKind::purchase, -Money::parse(text("price"), book_.currency()));
    Money rest = posted(is_cost_account) - Money::parse(text("price"), book_.currency());
    if (const Value* fees = event_->find("fees"))
      for (const Value& fee : fees->items) {
        const Money amount = Money::parse(fee.find("amount")->text, book_.currency());
        add(fee.find("name")->text, MoneyKind::fee, -amount);
        rest -= amount;
      }
    // `posted` counts what looking cost twice, once brought back to the car and once taken off the overhead:
    // it is nil here, as the lines of the days of looking stand in the list themselves.
    add("other", MoneyKind::other_cost, -rest);
  }

  Money part_of(const Line& line, Money amount) const { return book::part_of(line, tag_, amount); }

  static MoneyKind kind_of(const Line& line) {
    if (line.kind == "consumable") return MoneyKind::consumable;
    if (line.kind == "sublet") return MoneyKind::sublet;
    if (line.kind == "fee") return MoneyKind::fee;
    return MoneyKind::part;
  }

  // After the sale a full paper takes the place of a quick line that was part of the cost of sale: what the
  // quick line stood for stays before the sale, and only the difference comes after it.
  void replaced_late(std::size_t first, Money rest) {
    const Money late = posted_to(account::late_cost);
    for (const Money cost : {rest - late, late})
      if (!is_zero(cost)) line("difference of the paper to the quick line", MoneyKind::other_cost, -cost);
    for (std::size_t i = first; i < lines_.size(); ++i) lines_[i].after_sale = false;
    if (!is_zero(late)) lines_.back().after_sale = true;
  }

  void receipt() {
    const std::string paper = text("supplier") + (text("number").empty() ? "" : " " + text("number"));
    Money rest = posted(is_cost_account);
    const std::size_t before = lines_.size();
    bool without_paper = false;
    const std::size_t table = detail_table("line"), of_papers = detail_table("paper");
    for (const Detail& detail : entry_->details) {
      if (detail.table == of_papers) {  // itemised, on_paper
        without_paper =
            std::get<std::int64_t>(detail.cells[3]) == 0 || std::get<std::int64_t>(detail.cells[4]) == 0;
      }
      if (detail.table != table) continue;
      const Line each = line_by_number(book_, std::get<std::int64_t>(detail.cells[0]));
      const bool mine = std::any_of(each.shares.begin(), each.shares.end(),
                                    [&](const Share& share) { return share.vehicle == tag_; });
      if (!mine) continue;
      if (each.kind != "core back") {
        const Money cost = part_of(each, each.cost());
        MoneyLine& added = line(each.what, kind_of(each), -cost, each.quantity);
        added.paper = paper;
        added.source = each.source;
        added.line = each.id;
        added.line_number = each.number;
        rest -= cost;
      }
      add("deposit on the core of " + each.what, MoneyKind::due_back, -part_of(each, each.deposit()));
    }
    const std::size_t returned = detail_table("given_back");
    for (const Detail& detail : entry_->details) {
      if (detail.table != returned || std::get<std::string>(detail.cells[1]) != "goods") continue;
      const Line each = line_by_number(book_, std::get<std::int64_t>(detail.cells[0]));
      if (std::none_of(each.shares.begin(), each.shares.end(),
                       [&](const Share& share) { return share.vehicle == tag_; }))
        continue;
      const auto cell = [&](std::size_t at) { return std::get<std::int64_t>(detail.cells[at]); };
      const Money back = part_of(each, Money::of_minor(cell(3) + cell(4) - cell(5)));
      MoneyLine& added =
          line(each.what + " went back", kind_of(each), back, Quantity{} - Quantity::of(cell(2)));
      added.paper = paper;
      added.source = each.source;
      added.line = each.id;
      added.line_number = each.number;
      rest += back;
    }
    if (life_.ended != 0 && entry_->id > life_.ended && !is_zero(posted_to(account::vehicle_cost)))
      replaced_late(before, rest);
    else
      add("core short, or the difference to a quick line", MoneyKind::other_cost, -rest);
    for (std::size_t i = before; i < lines_.size(); ++i) {
      lines_[i].without_paper = without_paper;
      lines_[i].quick = without_paper;
    }
  }

  void back(bool core) {
    const std::size_t table = detail_table("given_back");
    for (const Detail& detail : entry_->details) {
      if (detail.table != table) continue;
      const Line each = line_by_number(book_, std::get<std::int64_t>(detail.cells[0]));
      const Money kept = Money::of_minor(std::get<std::int64_t>(detail.cells[5]));
      if (core) {
        add("core of " + each.what + " went back", MoneyKind::due_back,
            part_of(each, Money::of_minor(std::get<std::int64_t>(detail.cells[3])) + kept));
        add("core of " + each.what + " came back short", MoneyKind::other_cost, -posted(is_cost_account));
      } else {
        MoneyLine& added = line(each.what + " went back" + (is_zero(kept) ? "" : ", restocking kept"),
                                kind_of(each), -posted(is_cost_account),
                                Quantity{} - Quantity::of(std::get<std::int64_t>(detail.cells[2])));
        added.source = each.source;
        added.line = each.id;
        added.line_number = each.number;
      }
    }
  }

  void sale() {
    // A car given away was sold all the same: its line stands there with 0.
    line("sale price", MoneyKind::sale, -posted_to(account::sales));
    add("buyer's deposit used", MoneyKind::due_back, -posted_to(account::buyer_deposit));
    Money rest = posted_to(account::selling_cost);
    if (const Value* costs = event_->find("costs"))
      for (const Value& cost : costs->items) {
        const Money amount = Money::parse(cost.find("amount")->text, book_.currency());
        add(cost.find("name")->text, MoneyKind::selling_cost, -amount);
        rest -= amount;
      }
    add("commission", MoneyKind::commission, -rest);
  }

  const Book& book_;
  const std::string& tag_;
  const Life& life_;
  std::vector<MoneyLine>& lines_;
  const Entry* entry_ = nullptr;
  const Value* event_ = nullptr;
};

}  // namespace

std::vector<MoneyLine> money_of(const Book& book, const std::string& tag, std::optional<Day> on) {
  std::vector<EntryId> entries;
  auto& rows = book.query(
      "SELECT DISTINCT e.entry FROM mention m JOIN entry e USING (entry) WHERE m.vehicle = ?1 AND "
      "e.money = 1 AND " +
      stands("?2") + " ORDER BY e.day, e.entry");
  rows.bind(1, tag);
  rows.bind(2, on ? on->iso() : "9999-12-31");
  while (rows.executeStep()) entries.push_back(rows.getColumn(0).getInt64());
  const Life life = life_of(book, tag, on);
  std::vector<MoneyLine> lines;
  Reading reading(book, tag, life, lines);
  for (const EntryId entry : entries) {
    const Entry loaded = load_entry(book, entry);
    reading.read(loaded);
  }
  return lines;
}

std::vector<WorkLine> work_of(const Book& book, const std::string& tag, std::optional<Day> on) {
  const Life life = life_of(book, tag, on);
  std::vector<WorkLine> all;
  auto& rows = book.query(
      "SELECT e.day, l.operation, l.own, l.paid, e.entry FROM labour l JOIN entry e USING (entry) WHERE "
      "l.vehicle = ?1 AND " +
      stands("?2") + " ORDER BY e.day, e.entry");
  rows.bind(1, tag);
  rows.bind(2, on ? on->iso() : "9999-12-31");
  while (rows.executeStep())
    all.push_back({Day::parse(rows.getColumn(0).getString()), rows.getColumn(4).getInt64(),
                   rows.getColumn(1).getString(), Hours::of(rows.getColumn(2).getInt64()),
                   Hours::of(rows.getColumn(3).getInt64()),
                   life.ended != 0 && rows.getColumn(4).getInt64() > life.ended});
  return all;
}

std::vector<std::pair<Day, Money>> adverts_of(const Book& book, const std::string& tag) {
  std::vector<std::pair<Day, Money>> all;
  auto& rows = book.query(
      "SELECT e.day, a.price FROM advert a JOIN live_entry e USING (entry) WHERE a.vehicle = ? ORDER BY "
      "e.day, e.entry");
  rows.bind(1, tag);
  while (rows.executeStep())
    all.emplace_back(Day::parse(rows.getColumn(0).getString()),
                     Money::of_minor(rows.getColumn(1).getInt64()));
  return all;
}

}  // namespace nonrunner::book
