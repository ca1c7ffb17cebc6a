#include "book/events/receipt.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <set>

#include "book/events/assigned.h"
#include "book/events/attach.h"
#include "book/events/core_back.h"
#include "book/events/fields.h"
#include "book/events/goods_back.h"
#include "book/events/void_entry.h"
#include "book/ledger/asked_names.h"
#include "book/ledger/checks.h"
#include "book/ledger/marks.h"
#include "book/ledger/query.h"
#include "book/ledger/shelf_days.h"
#include "book/ledger/stands.h"
#include "exact/hint.h"
#include "exact/spread.h"

namespace nonrunner::book {

namespace {

// A line with what the whole paper adds to it.
struct Worked {
  Money amount, core, tax, core_tax, extra, discount;
};

std::string called(const ReceiptLine& line) {
  return (line.place.empty() ? "receipt: " : line.place + ": receipt: ") + "line \"" + line.what + "\"";
}

Money amount_of(const ReceiptLine& line) {
  if (line.unit.has_value() == line.amount.has_value())
    throw Refusal(called(line) + (line.unit ? " has both unit and amount, expected one of them"
                                            : " has neither unit nor amount, expected one of them"));
  if (line.quantity <= Quantity{})
    throw Refusal(fmt::format(
        "{} has the quantity {}, expected more than 0 (what goes back has a negative unit or amount)",
        called(line), line.quantity.shown()));
  if (line.what.empty()) throw Refusal(called(line) + " does not say what was bought, expected a few words");
  return line.amount ? *line.amount : line.unit->times(line.quantity);
}

void check_place_of_cost(const Recording& recording, const ReceiptLine& line) {
  const bool for_cars =
      line.kind == "part" || line.kind == "consumable" || line.kind == "sublet" || line.kind == "fee";
  if (!line.core_of.empty() || !line.return_of.empty()) return;
  if (for_cars && line.shares.empty())
    throw Refusal(called(line) + " says no car, expected to = \"TAG\" or share = { TAG = weight }");
  if (line.kind == "stock" && line.stock.empty())
    throw Refusal(called(line) + " is of the kind stock and says no shelf, expected stock = \"ITEM\"");
  if (line.kind != "stock" && !line.stock.empty())
    throw Refusal(fmt::format("{} is of the kind {} and names the shelf \"{}\", expected kind = \"stock\"",
                              called(line), line.kind, line.stock));
  if (!for_cars && line.kind != "tool" && !line.shares.empty())
    throw Refusal(fmt::format(
        "{} is of the kind {} and cannot be for a car; a cost of {} is a part, consumable, sublet or fee",
        called(line), line.kind, line.shares.front().vehicle));
  if (line.gives <= Quantity{}) throw Refusal(called(line) + " gives nothing, expected gives above 0");
  if (is_negative(line.core))
    throw Refusal(fmt::format(
        "{} has a core deposit of {}, expected 0 or more; a core handed over is a line with core_of",
        called(line), line.core.plain(recording.currency())));
}

std::vector<Worked> work_out(const Receipt& receipt) {
  std::vector<Worked> all;
  std::vector<std::int64_t> tax_weights, weights;
  for (const ReceiptLine& line : receipt.lines) {
    Worked worked;
    worked.amount = amount_of(line);
    worked.core = Price::of(line.core).times(line.quantity);
    all.push_back(worked);
    const Money core_taxed = line.tax_on_core ? worked.core : Money{};
    tax_weights.push_back(line.taxed ? (worked.amount + core_taxed).minor() : core_taxed.minor());
    weights.push_back(std::max<std::int64_t>(worked.amount.minor(), 0));
  }
  if (!is_zero(receipt.tax) &&
      std::all_of(tax_weights.begin(), tax_weights.end(), [](auto w) { return w == 0; }))
    throw Refusal(
        "receipt: there is a tax but no line is taxed; mark the lines that it lies on with taxed = true");
  if (!is_zero(receipt.tax) && std::accumulate(tax_weights.begin(), tax_weights.end(), std::int64_t{0}) == 0)
    throw Refusal(
        "receipt: there is a tax and the taxed lines add up to 0; make what was bought and what went back "
        "two papers");
  // A free paper with shipping: each line carries the same.
  if (std::all_of(weights.begin(), weights.end(), [](auto w) { return w == 0; }))
    std::fill(weights.begin(), weights.end(), 1);
  const std::vector<Money> tax = spread(receipt.tax, tax_weights);
  const std::vector<Money> shipping = spread(receipt.shipping, weights);
  const std::vector<Money> discount = spread(receipt.discount, weights);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const ReceiptLine& line = receipt.lines[i];
    all[i].tax = tax[i];
    all[i].extra = shipping[i] - discount[i];
    all[i].discount = discount[i];
    if (line.tax_on_core && tax_weights[i] != 0)
      all[i].core_tax = spread(tax[i], {line.taxed ? all[i].amount.minor() : 0, all[i].core.minor()})[1];
  }
  return all;
}

void check_sums(const Recording& recording, const Receipt& receipt, const std::vector<Worked>& lines) {
  const Currency& currency = recording.currency();
  Money sum = receipt.tax + receipt.shipping - receipt.discount;
  for (const Worked& line : lines) sum += line.amount + line.core;
  if (sum != receipt.total) {
    const Money apart = sum < receipt.total ? receipt.total - sum : sum - receipt.total;
    throw Refusal(fmt::format(
        "receipt: lines + tax + shipping - discount = {}, printed total {}: {} apart; nothing recorded",
        sum.plain(currency), receipt.total.plain(currency), apart.plain(currency)));
  }
  Money paid;
  for (const auto& [purse, amount] : receipt.paid) paid += amount;
  if (paid != receipt.total && !receipt.on_account) {
    const Money apart = paid < receipt.total ? receipt.total - paid : paid - receipt.total;
    throw Refusal(fmt::format(
        "receipt: the purses paid {}, printed total {}: {} apart; what stays unpaid needs on_account = true",
        paid.plain(currency), receipt.total.plain(currency), apart.plain(currency)));
  }
}

void check_ids(const Recording& recording, const Receipt& receipt) {
  std::set<std::string> here;
  for (const ReceiptLine& line : receipt.lines) {
    if (line.id.empty()) continue;
    if (!here.insert(line.id).second)
      throw Refusal(called(line) + " has the id \"" + line.id + "\", which stands twice on this paper");
    if (const auto used = find_line(recording.book(), line.id))
      throw Refusal(fmt::format("{} has the id \"{}\", which entry {} uses already; choose another id",
                                called(line), line.id, used->entry));
  }
}

// What is weighed grows with the product of lines, cars and purses.
void expect_size_of_a_paper(const Receipt& receipt) {
  constexpr std::size_t most_lines = 2000, most_cars = 100, most_purses = 100, most_shares = 5000;
  const auto expect = [](std::size_t found, std::size_t most, const char* what) {
    if (found > most)
      throw Refusal(fmt::format("receipt: found {} {}, expected at most {} on one paper; enter it as several",
                                found, what, most));
  };
  expect(receipt.lines.size(), most_lines, "lines");
  expect(receipt.paid.size(), most_purses, "purses that paid");
  std::size_t cars = 0, shares = 0;
  for (const ReceiptLine& line : receipt.lines) {
    cars = std::max(cars, line.shares.size());
    shares += line.shares.size();
  }
  expect(cars, most_cars, "cars on a line");
  expect(shares, most_shares, "shares of cars in lines");
}

void check_last_days(const Recording& recording, const Receipt& receipt) {
  for (const ReceiptLine& line : receipt.lines)
    if (line.core_by)
      expect_still_ahead(recording, "receipt", "the core of \"" + line.what + "\"", *line.core_by,
                         receipt.day);
  if (receipt.back_by)
    expect_still_ahead(recording, "receipt", "what goes back", *receipt.back_by, receipt.day);
}

void check_supplier(const Receipt& receipt) {
  if (!receipt.supplier.empty()) return;
  if (receipt.on_account)
    throw Refusal("receipt: what stays on account needs the supplier whom it is owed; say who");
  if (receipt.on_paper && receipt.itemised)
    throw hinted<Refusal>("receipt: a whole paper needs its supplier; say who, or that there was no paper",
                          {Action::name_supplier, {}});
}

// What goes back is weighed against the book, not against the lines before it on the paper: each once.
void check_back_once(const Recording& recording, const Receipt& receipt) {
  std::set<std::string> here;
  for (const ReceiptLine& line : receipt.lines) {
    if (!line.core_of.empty() && !here.insert("core " + line.core_of).second)
      throw Refusal(fmt::format(
          "{} hands over the core of {}, which another line of this paper does; make them one line",
          called(line), line.core_of));
    if (line.return_of.empty()) continue;
    if (!here.insert("line " + line.return_of).second)
      throw Refusal(fmt::format("{} gives back {}, which another line of this paper does; make them one line",
                                called(line), line.return_of));
    const auto earlier = find_line(recording.book(), line.return_of);
    if (earlier && earlier->kind == "stock" && !here.insert("shelf " + earlier->stock).second)
      throw Refusal(fmt::format(
          "{} gives back of the shelf \"{}\", as another line of this paper does; make it another paper",
          called(line), earlier->stock));
  }
}

std::int64_t next_line(const Book& book) {
  return *first<std::int64_t>(book, "SELECT coalesce(max(line), 0) + 1 FROM line", {});
}

Cell text_or_none(const std::string& text) { return text.empty() ? Cell() : Cell(text); }

}  // namespace

std::vector<Money> discounts_of(const Receipt& receipt) {
  std::vector<Money> all;
  for (const Worked& line : work_out(receipt)) all.push_back(line.discount);
  return all;
}

std::string called(const Receipt& receipt, const Currency& currency) {
  return receipt.supplier + " " +
         (receipt.number.empty() ? "of " + receipt.day.iso() + " over " + receipt.total.plain(currency)
                                 : receipt.number);
}

void expect_something_paid(Money total, const std::string& event, const Currency& currency) {
  if (total > Money{}) return;
  throw Refusal(
      fmt::format("{}: found an amount of {}, expected one above 0; money that comes back is entered where "
                  "it is due, or on its paper",
                  event, total.plain(currency)));
}

std::optional<EntryId> same_paper(const Book& book, const Receipt& receipt) {
  if (receipt.supplier.empty()) return std::nullopt;
  // A quick line that waits for its paper is not that paper.
  const std::string of_its_kind = receipt.itemised ? " AND p.itemised = 1" : "";
  std::optional<EntryId> entry;
  if (!receipt.number.empty())
    entry = first<EntryId>(book,
                           "SELECT p.entry FROM paper p JOIN live_entry e USING (entry) WHERE p.supplier = "
                           ":supplier AND p.number = :number" +
                               of_its_kind + " LIMIT 1",
                           {{":supplier", receipt.supplier}, {":number", receipt.number}});
  if (entry) return entry;
  return first<EntryId>(book,
                        "SELECT p.entry FROM paper p JOIN live_entry e USING (entry) WHERE p.supplier = "
                        ":supplier AND p.total = :total AND coalesce((SELECT d.day FROM printed d WHERE "
                        "d.entry = p.entry), e.day) = :day AND (:number = '' OR p.number = '')" +
                            of_its_kind + " LIMIT 1",
                        {{":supplier", receipt.supplier},
                         {":total", receipt.total},
                         {":day", receipt.day},
                         {":number", receipt.number}});
}

namespace {
// The event says what its tools are wherever the shop has set it: the setting may change, the entry may not.
std::string tools_of(const Book& book, const Receipt& receipt) {
  if (!receipt.tools.empty()) return receipt.tools;
  const bool any = std::any_of(receipt.lines.begin(), receipt.lines.end(), [](const ReceiptLine& line) {
    return line.kind == "tool" && line.shares.empty();
  });
  return any ? book.setting("tools").value_or("") : "";
}
}  // namespace

namespace {
// Where the quick line stood in the budgets of these cars, by the last word on it.
std::map<std::string, std::string> places_of(const Book& book, EntryId quick,
                                             const std::vector<Share>& shares) {
  std::map<std::string, std::string> places;
  for (const Share& share : shares) {
    for (const DatedMark& mark : marks_of(book, share.vehicle))
      if (mark.entry == quick && mark.says == says::under) places[share.vehicle] = mark.name;
    const auto moved = assigned(book, share.vehicle);
    if (const auto found = moved.find(fmt::format("entry {}", quick)); found != moved.end())
      places[share.vehicle] = found->second;
  }
  return places;
}

// In the order of the header's list, up to the sums.
std::vector<Worked> checked(const Recording& recording, const Receipt& receipt) {
  if (receipt.lines.empty())
    throw Refusal(
        "receipt: there is no line, expected at least one; what is not itemised yet is a quick line");
  expect_size_of_a_paper(receipt);
  for (const ReceiptLine& line : receipt.lines) amount_of(line);
  for (const ReceiptLine& line : receipt.lines) check_place_of_cost(recording, line);
  expect_not_negative(recording, "receipt", "shipping", receipt.shipping);
  expect_not_negative(recording, "receipt", "discount", receipt.discount);
  std::vector<Worked> worked = work_out(receipt);
  // A book that is restored is taken as it was.
  if (recording.wary && !receipt.itemised)
    expect_something_paid(receipt.total, "receipt", recording.currency());
  check_sums(recording, receipt, worked);
  return worked;
}

void refuse_same_paper(const Recording& recording, const Receipt& receipt) {
  const auto same = receipt.again ? std::nullopt : same_paper(recording.book(), receipt);
  if (!same) return;
  throw hinted<Refusal>(
      fmt::format("receipt: {} is in the book already (entry {}); if it is another one, say so",
                  called(receipt, recording.currency()), *same),
      {Action::allow_again, {}});
}

// Posts the lines of one paper, each where it belongs, and keeps what the ledger knows of them.
class Lines {
 public:
  Lines(Draft& draft, Recording& recording, const Receipt& receipt, bool tools_kept)
      : draft_(draft),
        recording_(recording),
        receipt_(receipt),
        tools_kept_(tools_kept),
        entry_(last_entry(recording.book()) + 1),
        number_(next_line(recording.book())) {}

  void post(const ReceiptLine& given, const Worked& worked) {
    deposits_.emplace_back();
    if (!given.return_of.empty()) {
      ids_.emplace_back();
      GoodsBack back;
      back.day = receipt_.day;
      back.line = given.return_of;
      back.quantity = given.quantity;
      back.goods = -worked.amount;
      back.tax = -worked.tax;
      back.restocking = worked.extra;
      back.from = given.from;
      back.out_of = given.out_of;
      out_of_[ids_.size() - 1] = post_goods_back(draft_, recording_, "receipt", back);
      return;
    }
    const Line line = line_of(given, worked);
    ids_.push_back(line.id);
    for (const Share& share : given.shares) {
      meet_vehicle(recording_, "receipt", share.vehicle);
      draft_.mention(share.vehicle);
    }
    std::optional<Quantity> gives;
    if (given.kind == "stock")
      gives = Quantity::of(
          scaled(given.quantity.thousandths(), given.gives.thousandths(), 1000, Rounding::half_away));
    if (!given.core_of.empty()) {
      // The paper gives money back: what it gives is what is received for the old part.
      const auto of = find_line(recording_.book(), given.core_of);
      deposits_.back() = of ? deposit_decided(*of, given.quantity, given.deposit) : given.deposit;
      post_core_back(
          draft_, recording_, "receipt",
          {given.core_of, given.quantity, -(line.amount + line.tax + line.extra), deposits_.back()});
    } else if (gives) {
      post_to_shelf(draft_, given.stock, {"in", "", 0, *gives, line.cost(), {}}, {*gives, line.cost()});
    } else {
      post_to_line(draft_, line, line.cost(), purpose_of(line), given.what, given.quantity);
    }
    draft_.post(account::core_deposit, line.id, line.deposit());
    deposit_of_line(draft_, line, -line.deposit(), "deposit on the core of " + given.what);
    keep(given, line);
  }
  // As the entry keeps them; "" for what goes back.
  const std::vector<std::string>& ids() const { return ids_; }
  // What was decided of the deposits of cores that are handed over.
  const std::vector<std::optional<Money>>& deposits() const { return deposits_; }
  // What of goods that went back comes out of which car, by the place of their line.
  const std::map<std::size_t, std::vector<OutOf>>& out_of() const { return out_of_; }

 private:
  Line line_of(const ReceiptLine& given, const Worked& worked) {
    Line line;
    line.number = number_++;
    line.entry = entry_;
    line.what = given.what;
    line.quantity = given.quantity;
    line.id = given.id.empty() ? fmt::format("{}.{}", entry_, ids_.size() + 1) : given.id;
    // Somebody may have named a line like this.
    while (given.id.empty() && find_line(recording_.book(), line.id)) line.id += "x";
    line.kind = given.core_of.empty() ? given.kind : "core back";
    line.shares = given.shares;
    line.tools_kept = tools_kept_;
    line.amount = worked.amount;
    line.tax = worked.tax;
    line.core_tax = worked.core_tax;
    line.extra = worked.extra;
    line.discount = worked.discount;
    line.core = worked.core;
    return line;
  }

  void keep(const ReceiptLine& given, const Line& line) {
    if (!is_zero(line.discount)) draft_.detail("discount", {line.number, line.discount.minor()});
    if (line.kind == "tool" && line.tools_kept) draft_.detail("kept_tool", {line.number});
    if (is_to_be_named(given)) draft_.detail("unnamed", {line.number});
    draft_.detail("line",
                  {line.number, line.id, given.what, given.quantity.thousandths(), line.amount.minor(),
                   line.kind, text_or_none(given.source), static_cast<std::int64_t>(given.taxed),
                   line.tax.minor(), line.extra.minor(), line.core.minor(), line.core_tax.minor(),
                   cell(given.core_by), text_or_none(given.stock),
                   given.kind == "stock" ? Cell(given.gives.thousandths()) : Cell(), receipt_.supplier});
    for (const Share& share : given.shares)
      draft_.detail("share", {line.number, share.vehicle, share.weight});
    for (const auto& [vehicle, name] : given.under)
      draft_.detail("mark", {vehicle, line.number, std::string(says::under), name});
    if (given.more)
      for (const Share& share : given.shares)
        draft_.detail("mark", {share.vehicle, line.number, std::string(says::more), given.what});
  }

  bool is_to_be_named(const ReceiptLine& given) const {
    if (receipt_.itemised || receipt_.lines.size() != 1) return false;
    // Kept by a page of before that was a key of its own: these words stood where nobody had typed any.
    return given.unnamed || (recording_.kept_as && given.what == name_to_come);
  }

  Draft& draft_;
  Recording& recording_;
  const Receipt& receipt_;
  bool tools_kept_;
  EntryId entry_;
  std::int64_t number_;
  std::vector<std::string> ids_;
  std::vector<std::optional<Money>> deposits_;
  std::map<std::size_t, std::vector<OutOf>> out_of_;
};

void write_event(Draft& draft, Receipt kept, const Lines& lines, const Currency& currency) {
  for (std::size_t i = 0; i < kept.lines.size(); ++i) {
    kept.lines[i].id = lines.ids()[i];
    kept.lines[i].deposit = lines.deposits()[i];
    if (!kept.lines[i].return_of.empty()) {
      kept.lines[i].kind.clear();  // that of the line it gives back
      kept.lines[i].out_of = lines.out_of().at(i);
      if (!kept.lines[i].out_of.empty()) kept.lines[i].from.clear();
    }
  }
  write(draft, currency, std::move(kept));
}

// What the purses gave, and what stays on account.
void post_payment(Draft& draft, Recording& recording, const Receipt& receipt) {
  Money paid;
  for (const auto& [purse, amount] : receipt.paid) {
    meet_purse(recording, "receipt", purse);
    draft.post(account::purse, purse, -amount);
    paid += amount;
  }
  draft.post(account::payable, receipt.supplier, paid - receipt.total);
  draft.detail("paper", {receipt.supplier, receipt.number, receipt.total.minor(),
                         static_cast<std::int64_t>(receipt.itemised),
                         static_cast<std::int64_t>(receipt.on_paper), cell(receipt.back_by)});
}

// Of what puts right a paper that took the place of a quick line: the day that it bears.
std::optional<Day> day_of_place(const Recording& recording, Day given) {
  if (!recording.corrects || recording.corrects->kind != "receipt") return std::nullopt;
  const auto day = day_of_quick_line(recording.book(), recording.corrects->entry, given);
  return day ? std::optional(open_day(recording.book(), *day)) : std::nullopt;
}

// One that stood beside the one that the paper names: the paper counts from the earliest day on.
void take_place_of(const Book& book, const GivenPlace& other, Replaced& replaced,
                   std::vector<EntryId>& quick) {
  const Entry entry = load_entry(book, other.quick);
  quick.push_back(entry.id);
  replaced.day = std::min(replaced.day, other.gone);
  if (other.gone == entry.day) return;
  for (const Posting& posting : entry.postings)
    if (posting.kind == account::vehicle_cost) replaced.cars.push_back(posting.name);
}

EntryId record_paper(Recording& recording, const Receipt& receipt) {
  const Book& book = recording.book();
  const std::string tools = tools_of(book, receipt);
  const std::vector<Worked> worked = checked(recording, receipt);
  Replaced replaced;
  std::vector<EntryId> quick;
  if (receipt.replaces) {
    const auto others = places_given(book, last_entry(book) + 1);
    replaced =
        void_for_replacement(recording, {receipt.day, *receipt.replaces, by_full_paper, receipt.later, {}});
    quick.push_back(*receipt.replaces);
    for (const GivenPlace& other : others) take_place_of(book, other, replaced, quick);
  }
  refuse_same_paper(recording, receipt);
  check_ids(recording, receipt);
  check_last_days(recording, receipt);
  check_supplier(receipt);
  weigh_supplier(recording, "receipt", receipt.supplier);
  check_back_once(recording, receipt);

  Draft draft(recording, "receipt", receipt.day);
  const auto day = receipt.replaces ? std::optional(replaced.day) : day_of_place(recording, receipt.day);
  if (day) draft.bears(*day);
  if (receipt.replaces && draft.day() != receipt.day && is_entered_now(recording))
    recording.remarks().push_back(
        fmt::format("receipt: dated {}, it counts from {}, {}", receipt.day.iso(), draft.day().iso(),
                    quick.size() > 1 ? "the first day of the quick lines whose place it takes"
                                     : "the day of the quick line whose place it takes"));
  if (day && *day != receipt.day && open_day(book, receipt.day) == receipt.day)
    draft.detail("printed", {receipt.day.iso()});
  Lines lines(draft, recording, receipt, tools == "asset");
  for (std::size_t i = 0; i < receipt.lines.size(); ++i) lines.post(receipt.lines[i], worked[i]);
  for (const std::string& vehicle : replaced.cars) draft.mention(vehicle);
  for (const EntryId each : quick)
    for (const Stood& stood : stood_for_paper(book, each, receipt.day, draft.day()))
      draft.stands_under(stood.day, stood.vehicle, stood.amount);
  post_payment(draft, recording, receipt);
  Receipt kept = receipt;
  kept.later = receipt.replaces && replaced.later;
  kept.tools = tools;
  if (receipt.replaces) draft.takes_place(*receipt.replaces, how::replaces);
  write_event(draft, std::move(kept), lines, recording.currency());
  const EntryId recorded = draft.record();
  if (receipt.replaces) photos_follow(recording, *receipt.replaces, recorded);
  return recorded;
}

}  // namespace

EntryId record(Recording& recording, const Receipt& receipt) {
  // The place of a quick line passes on to a paper of one line, which is the same thing; of several nobody knows
  // which it was.
  if (receipt.replaces && receipt.lines.size() == 1 && receipt.lines.front().under.empty()) {
    Receipt placed = receipt;
    placed.lines.front().under = places_of(recording.book(), *receipt.replaces, receipt.lines.front().shares);
    return record_paper(recording, placed);
  }
  return record_paper(recording, receipt);
}

}  // namespace nonrunner::book
