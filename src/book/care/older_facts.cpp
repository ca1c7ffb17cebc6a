#include "book/care/older_facts.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/care/older_rows.h"
#include "book/events/fields.h"
#include "book/events/receipt.h"
#include "book/events/sell.h"
#include "book/ledger/details.h"
#include "book/ledger/line.h"
#include "book/ledger/position.h"
#include "book/ledger/query.h"
#include "book/questions/period.h"
#include "text/toml.h"

namespace nonrunner::book {

namespace {

// The tables of schema/0011-facts.sql and 0012-shelf.sql.
constexpr const char* fact_tables[] = {"purpose", "purchase", "sale",  "discount", "kept_tool",
                                       "charged", "printed",  "noted", "errand",   "shelf"};

EntryId first_of_layout(const Book& book) {
  return first<EntryId>(book, "SELECT entry FROM sealed_from WHERE what = 'days'", {}).value();
}

bool is_cost_account(const std::string& account) {
  return account == account::vehicle_cost || account == account::late_cost || account == account::looking;
}
bool is_recovered(const std::string& account) {
  return account == account::recovered || account == account::recovered_income;
}

// One entry of an older layout, read into rows.
class Older {
 public:
  Older(const Book& book, const Entry& entry) : book_(book), entry_(entry), value_(kept_event(entry.event)) {
    event_ = value_.find("e");
  }

  std::vector<Detail> rows() {
    if (entry_.voids) {
      take_back_shelf();
      return std::move(rows_);
    }
    facts();
    shelf();
    for (const std::string& tag : mentioned_in(entry_)) {
      tag_ = tag;
      money();
    }
    return std::move(rows_);
  }

 private:
  std::string text(const char* key) const {
    const Value* found = event_->find(key);
    return found ? found->text : "";
  }
  Money amount(const Value& of, const char* key) const {
    return Money::parse(of.find(key)->text, book_.currency());
  }
  void row(const char* table, std::vector<Cell> cells) {
    rows_.push_back({detail_table(table), std::move(cells)});
  }
  std::vector<Line> lines(const char* table, std::size_t cell) const {
    std::vector<Line> all;
    const std::size_t wanted = detail_table(table);
    for (const Detail& detail : entry_.details)
      if (detail.table == wanted) all.push_back(line_by_number(book_, number_in(detail, cell)));
    return all;
  }

  void facts() {
    if (entry_.kind == "buy") {
      Money fees;
      if (const Value* all = event_->find("fees"))
        for (const Value& fee : all->items) fees += amount(fee, "amount");
      row("purchase", {text("vehicle"), amount(*event_, "price").minor(), fees.minor()});
    }
    if (entry_.kind == "sell") {
      const Sale sale = read<Sale>(Table(*event_, "entry", "the sale"), book_.currency());
      row("sale", {sale.vehicle, sale.price.minor(), sale.commission_rate.billionths()});
    }
    if (entry_.kind == "finding") row("noted", {text("vehicle"), text("text"), text("cause")});
    if (entry_.kind == "trip") row("errand", {text("why")});
    if (entry_.kind != "receipt") return;
    const Receipt receipt = read<Receipt>(Table(*event_, "entry", "the receipt"), book_.currency());
    const std::vector<Money> discounts = discounts_of(receipt);
    const std::vector<Line> bought = lines("line", cells::line::number);
    std::size_t next = 0;
    for (std::size_t i = 0; i < receipt.lines.size(); ++i) {
      if (!receipt.lines[i].return_of.empty()) continue;
      const Line& line = bought.at(next++);
      if (!is_zero(discounts[i])) row("discount", {line.number, discounts[i].minor()});
      if (line.kind == "tool" && receipt.tools == "asset") row("kept_tool", {line.number});
    }
  }

  void move_shelf(const Posting& posting, const char* what, const std::string& vehicle, std::int64_t line,
                  Cell said) {
    row("shelf", {posting.name, std::string(what), entry_.day.iso(), vehicle.empty() ? Cell() : Cell(vehicle),
                  line == 0 ? Cell() : Cell(line), posting.quantity ? posting.quantity->thousandths() : 0,
                  posting.amount.minor(), said});
  }
  void shelf() {
    std::vector<Line> back = lines("given_back", cells::given_back::line);
    std::erase_if(back, [](const Line& line) { return line.kind != "stock"; });
    std::size_t next = 0;
    bool counted = false;
    for (const Posting& posting : entry_.postings) {
      if (posting.kind != account::stock) continue;
      if (entry_.kind == "draw")
        move_shelf(posting, "draw", text("vehicle"), 0, {});
      else if (entry_.kind == "count")
        counted = true, move_shelf(posting, "count", "", 0, Quantity::parse(text("qty")).thousandths());
      else if (posting.amount >= Money{} && (!posting.quantity || *posting.quantity > Quantity{}))
        move_shelf(posting, "in", "", 0, {});
      else
        move_shelf(posting, "back", "", next < back.size() ? back[next].number : 0, {}), ++next;
    }
    if (entry_.kind == "count" && !counted)
      row("shelf", {text("stock"), std::string("count"), entry_.day.iso(), Cell(), Cell(), std::int64_t{0},
                    std::int64_t{0}, Quantity::parse(text("qty")).thousandths()});
  }
  void take_back_shelf() {
    const Entry original = load_entry(book_, *entry_.voids);
    Older older(book_, original);
    older.shelf();
    for (Detail& detail : older.rows_) {
      for (const std::size_t moved : {cells::shelf::quantity, cells::shelf::amount})
        detail.cells[moved] = -number_in(detail, moved);
      rows_.push_back(std::move(detail));
    }
  }

  // Money about one car.
  template <class Which>
  Money posted(Which which) const {
    Money sum;
    for (const Posting& posting : entry_.postings)
      if (posting.name == tag_ && which(posting.kind)) sum += posting.amount;
    return sum;
  }
  Money posted_to(const char* kind) const {
    return posted([&](const std::string& account) { return account == kind; });
  }
  void add(const std::string& what, const std::string& kind, Money sum, std::optional<Quantity> quantity = {},
           const Line* line = nullptr, std::optional<Day> stands = {}) {
    if (is_zero(sum) && kind != "sale" && line == nullptr) return;
    row("purpose", {tag_, kind, what, line ? Cell(line->number) : Cell(),
                    quantity ? Cell(quantity->thousandths()) : Cell(), sum.minor(),
                    stands && *stands != entry_.day ? Cell(stands->iso()) : Cell()});
  }

  void money() {
    if (entry_.kind == "buy") return buy();
    if (entry_.kind == "receipt") return receipt();
    if (entry_.kind == "return" || entry_.kind == "core back") return back();
    if (entry_.kind == "sell") return sale();
    if (entry_.kind == "hours") return add(text("operation"), "paid hours", -posted(is_cost_account));
    if (entry_.kind == "draw")
      return add(text("stock"), "consumable", -posted(is_cost_account), Quantity::parse(text("qty")));
    if (entry_.kind == "selling cost")
      return add(text("what"), "selling cost", -posted_to(account::selling_cost));
    if (entry_.kind == "recover" || entry_.kind == "recover back")
      return add(text("what"), "recovered", -posted(is_recovered));
    if (entry_.kind == "buyer deposit" || entry_.kind == "deposit kept" || entry_.kind == "deposit back") {
      add("buyer's deposit", "due back", -posted_to(account::buyer_deposit));
      return add("buyer's deposit kept", "deposit kept", -posted_to(account::deposit_kept));
    }
    if (entry_.kind == "transfer" || entry_.kind == "shelve")
      return add(text("what"), "other cost", -posted(is_cost_account));
  }

  void buy() {
    add("price paid", "purchase", -amount(*event_, "price"));
    if (const Value* fees = event_->find("fees"))
      for (const Value& fee : fees->items) add(fee.find("name")->text, "fee", -amount(fee, "amount"));
  }

  bool mine(const Line& line) const {
    return std::any_of(line.shares.begin(), line.shares.end(),
                       [&](const Share& share) { return share.vehicle == tag_; });
  }

  // The day of the quick line whose place the paper took.
  std::optional<Day> day_replaced() const {
    const std::string replaced = text("replaces");
    if (replaced.empty()) return std::nullopt;
    const auto day = first<Day>(book_, "SELECT day FROM entry WHERE entry = :entry",
                                {{":entry", static_cast<std::int64_t>(std::stoll(replaced))}});
    return day ? std::optional(std::min(*day, entry_.day)) : std::nullopt;
  }

  void receipt() {
    const auto stands = posted_to(account::vehicle_cost) != Money{} ? day_replaced() : std::nullopt;
    Money rest = posted(is_cost_account);
    for (const Line& line : lines("line", cells::line::number)) {
      if (!mine(line)) continue;
      if (line.kind != "core back") {
        const Money cost = part_of(line, tag_, line.cost());
        add(line.what, purpose_of(line), -cost, line.quantity, &line, stands);
        rest -= cost;
      }
      add("deposit on the core of " + line.what, "due back", -part_of(line, tag_, line.deposit()), {},
          is_zero(line.deposit()) ? nullptr : &line);
    }
    each_back(
        [&](const Line& line, Quantity pieces, Money goods, Money tax, Money kept, const std::string& what) {
          if (what != "goods" || !mine(line)) return;
          const Money refund = part_of(line, tag_, goods + tax - kept);
          add(line.what + " went back", purpose_of(line), refund, Quantity{} - pieces, &line, stands);
          rest += refund;
        });
    add("core short, or the difference to a quick line", "other cost", -rest, {}, nullptr, stands);
    // What went on under the day of the paper itself, of a car sold since: the difference to the quick line.
    if (const Money late = posted_to(account::late_cost); stands && !is_zero(late)) {
      add("difference of the paper to the quick line", "other cost", late, {}, nullptr, stands);
      add("difference of the paper to the quick line", "other cost", -late);
    }
  }

  template <class Take>
  void each_back(Take take) const {
    const std::size_t table = detail_table("given_back");
    for (const Detail& detail : entry_.details) {
      if (detail.table != table) continue;
      const auto amount_in = [&](std::size_t cell) { return Money::of_minor(number_in(detail, cell)); };
      take(line_by_number(book_, number_in(detail, cells::given_back::line)),
           Quantity::of(number_in(detail, cells::given_back::quantity)), amount_in(cells::given_back::goods),
           amount_in(cells::given_back::tax), amount_in(cells::given_back::kept),
           text_in(detail, cells::given_back::what));
    }
  }

  void back() {
    each_back([&](const Line& line, Quantity pieces, Money goods, Money, Money kept,
                  const std::string& what) {
      if (!mine(line)) return;
      if (what == "core") {
        add("core of " + line.what + " went back", "due back", part_of(line, tag_, goods + kept), {}, &line);
        if (const Money short_by = posted(is_cost_account); !is_zero(short_by))
          add("core of " + line.what + " came back short", "other cost", -short_by, {}, &line);
      } else {
        add(line.what + " went back" + (is_zero(kept) ? "" : ", restocking kept"), purpose_of(line),
            -posted(is_cost_account), Quantity{} - pieces, &line);
      }
    });
  }

  void sale() {
    add("sale price", "sale", -posted_to(account::sales));
    add("buyer's deposit used", "due back", -posted_to(account::buyer_deposit));
    Money rest = posted_to(account::selling_cost);
    if (const Value* costs = event_->find("costs"))
      for (const Value& cost : costs->items) {
        add(cost.find("name")->text, "selling cost", -amount(cost, "amount"));
        rest -= amount(cost, "amount");
      }
    add("commission", "commission", -rest);
  }

  const Book& book_;
  const Entry& entry_;
  Value value_;
  const Value* event_ = nullptr;
  std::string tag_;
  std::vector<Detail> rows_;
};

}  // namespace

void add_older_facts(Book& book) {
  const EntryId since = first_of_layout(book);
  if (since == 1) return;
  while_open(book, fact_tables, [&] {
    for (EntryId id = 1; id < since; ++id) {
      const Entry entry = load_entry(book, id);
      std::vector<Detail> rows = Older(book, entry).rows();
      sort_by_table(rows);
      for (const Detail& detail : rows) add_older_row(book, id, detail);
    }
  });
}

namespace {

// What the version before made of a car's postings: by the order of typing.
struct AsShown {
  Money cost, late_cost, carried, recovered_before, recovered_after;
  Money first;  // of a car that was sold or finished: the cash profit of then
};
AsShown as_shown(const Book& book, const std::string& tag, const Life& life) {
  AsShown shown;
  const auto take = [&](const std::string& kind, const std::string& event, bool after, Money sum) {
    const bool closing = event == "sell" || event == "write off" || event == "pass";
    const bool of_the_car = kind == account::vehicle_cost || (kind == account::late_cost && !after);
    const bool looked_at = kind == account::looking && life.state == State::considered;
    if (of_the_car || looked_at || kind == account::recovered) shown.carried += sum;
    if ((of_the_car || kind == account::looking) && !closing) shown.cost += sum;
    if (kind == account::late_cost && after) shown.late_cost += sum;
    if (is_recovered(kind) && !closing) (after ? shown.recovered_after : shown.recovered_before) -= sum;
    const bool by_then = !after && (kind == account::selling_cost || kind == account::deposit_kept);
    if (kind == account::sales || by_then) shown.first -= sum;
  };
  each<std::string, std::string, bool, Money>(
      book,
      "SELECT a.kind, e.kind, e.entry > :ended, sum(p.amount) FROM account a JOIN posting p USING (account) "
      "JOIN "
      "live_entry e USING (entry) WHERE a.name = :tag AND a.kind IN ('vehicle cost', 'recovered', 'recovered "
      "income', 'late cost', 'looking', 'sales', 'selling cost', 'deposit kept') GROUP BY 1, 2, 3",
      {{":tag", tag}, {":ended", life.ended == 0 ? std::int64_t{9'000'000'000'000'000'000} : life.ended}},
      take);
  shown.first += shown.recovered_before - shown.cost;
  return shown;
}

// What its year showed as the inventory of a car at the end of a day.
Money closing_as_shown(const Book& book, const std::string& tag, Day day) {
  return *first<Money>(
      book,
      "SELECT coalesce(sum(p.amount), 0) FROM account a JOIN posting p USING (account) JOIN entry e USING "
      "(entry) WHERE a.name = :tag AND a.kind IN ('vehicle cost', 'recovered') AND e.day <= :on",
      {{":tag", tag}, {":on", day}});
}

// What is a result of its year, by the kind of its account: debits positive. Tools kept as an asset are none.
bool is_result(const std::string& kind, const std::string& name) {
  if (kind == account::tools) return name != account::tools_kept;
  for (const char* each :
       {account::sales, account::recovered_income, account::deposit_kept, account::cost_of_sale,
        account::selling_cost, account::late_cost, account::written_off, account::looking, account::overhead})
    if (kind == each) return true;
  return false;
}
// What was moved on its days, as they stand beside the entries, but for what the same year took back.
Money result_as_shown(const Book& book, int year) {
  Money result;
  each<std::string, std::string, Money>(book,
                                        "SELECT a.kind, a.name, sum(p.amount) FROM account a JOIN posting p "
                                        "USING (account) JOIN entry e USING (entry) "
                                        "WHERE e.day >= :from AND e.day <= :to GROUP BY a.account",
                                        {{":from", Day(year, 1, 1)}, {":to", Day(year, 12, 31)}},
                                        [&](const std::string& kind, const std::string& name, Money sum) {
                                          if (is_result(kind, name)) result -= sum;
                                        });
  return result;
}
Money result_now(const Book& book, int year) {
  Money result;
  for (const AccountMovement& moved : movements(book, Day(year, 1, 1), Day(year, 12, 31)))
    if (is_result(moved.kind, moved.name)) result -= moved.sum;
  return result;
}

// The years in which something was entered.
std::vector<int> years(const Book& book) {
  std::vector<int> all;
  each<int>(book, "SELECT DISTINCT CAST(substr(day, 1, 4) AS INTEGER) FROM entry ORDER BY 1", {},
            [&](int year) { all.push_back(year); });
  return all;
}

}  // namespace

namespace {
void add_changed(std::vector<std::string>& all, const Book& book, const std::string& tag,
                 const std::vector<int>& entered) {
  const auto add = [&](const std::string& what, Money before, Money now) {
    if (before != now)
      all.push_back(fmt::format("{}: {} before, {} now", what, before.plain(book.currency()),
                                now.plain(book.currency())));
  };
  const Position now = position_of(book, tag);
  const AsShown before = as_shown(book, tag, now.life);
  add(tag + ": cost", before.cost, now.cost);
  add(tag + ": late cost", before.late_cost, now.late_cost);
  add(tag + ": carried", before.carried, now.carried);
  if (now.life.ended != 0) {
    add(tag + ": recovered before its end", before.recovered_before, now.recovered_before);
    add(tag + ": recovered after its end", before.recovered_after, now.recovered_after);
    add(tag + ": cash profit on the day of its end", before.first,
        position_of(book, tag, now.life.ended_day).cash_profit());
  }
  for (const int year : entered) {
    const Day end(year, 12, 31);
    add(fmt::format("{}: in the inventory on {}", tag, end.iso()), closing_as_shown(book, tag, end),
        position_of(book, tag, end).carried);
  }
}
}  // namespace

std::vector<std::string> figures_that_changed(const Book& book) {
  std::vector<std::string> all;
  const std::vector<int> entered = years(book);
  for (const int year : entered) {
    try {
      const Money before = result_as_shown(book, year), now = result_now(book, year);
      if (before != now)
        all.push_back(fmt::format("the year {}: result {} before, {} now", year,
                                  before.plain(book.currency()), now.plain(book.currency())));
    } catch (const Refusal& refusal) {
      all.push_back(fmt::format("the year {}: cannot be reckoned: {}", year, refusal.what()));
    }
  }
  for (const std::string& tag : all_tags(book)) {
    try {
      add_changed(all, book, tag, entered);
    } catch (const Refusal&
                 refusal) {  // of a version that looked at no sums: what is in the way can be voided now
      all.push_back(fmt::format("{}: cannot be reckoned: {}", tag, refusal.what()));
    }
  }
  return all;
}

bool older_facts_agree(const Book& book, const Entry& entry) {
  if (entry.id >= first_of_layout(book)) return true;
  std::vector<Detail> said = Older(book, entry).rows();
  sort_by_table(said);
  return said == rows_beside(book, entry.id, fact_tables);
}

}  // namespace nonrunner::book
