#include "book/ledger/shelf_days.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "book/ledger/line.h"
#include "book/ledger/names.h"
#include "book/ledger/query.h"
#include "exact/ends.h"
#include "exact/spread.h"
#include "text/counted.h"

namespace nonrunner::book {

namespace {

// One row of the table `shelf`, with the days on which it counts.
struct ShelfRow {
  ShelfMove move;
  // Of what goes back: what its whole line cost, the pieces of it that were bought, and those that go back.
  Money line_cost;
  Quantity line_pieces, goods;
  Day about, day;
  std::optional<Day> until;  // taken back on that day
  bool told = false;         // said by a person: neither a reversal nor an average
  EntryId entry = 0;         // 0: of an entry that is being made
  std::string kind;
};

// What leaves the shelf, by what and whose it is.
using Leaving = std::tuple<std::string, std::string, std::int64_t>;
Leaving leaving(const ShelfMove& move) { return {move.what, move.vehicle, move.line}; }
using Changes = std::map<Leaving, ShelfChange>;
using Gone = std::map<std::int64_t, Quantity>;  // pieces of each line that went back before

std::int64_t share(Money value, Quantity part, Quantity all) {
  return scaled(value.minor(), part.thousandths(), all.thousandths(), Rounding::half_away);
}

// Names the last entry of that day that takes something.
[[noreturn]] void refuse(const std::string& event, const std::string& item, Day day, Quantity left,
                         const std::vector<const ShelfRow*>& rows) {
  std::string on_it, way_out;
  for (const ShelfRow* row : rows) {
    if (row->entry == 0 || row->move.what == "in") continue;
    on_it = fmt::format(" (entry {}, {})", row->entry, row->kind);
    if (row->move.what == "count")
      way_out =
          fmt::format("; a count is the last thing of its day: take entry {} back and count again after this",
                      row->entry);
  }
  throw Refusal(fmt::format(
      "{}: on {} what lies on the shelf of \"{}\" would be {}{}, expected 0 or more; nothing was recorded{}",
      event, day.iso(), item, left.shown(), on_it, way_out));
}

// The shelf of one item as it goes through its days.
class Shelf {
 public:
  Shelf(const std::string& event, const std::string& item, ShelfChange stands, Gone gone)
      : event_(event), item_(item), pieces_(stands.quantity), value_(stands.amount), gone_(std::move(gone)) {}

  // What leaves on this day comes to, in the order of the header.
  Changes go_through(Day day, const std::vector<const ShelfRow*>& rows) {
    day_ = day;
    rows_ = &rows;
    changes_.clear();
    std::vector<const ShelfMove*> moves;
    for (const ShelfRow* row : rows) moves.push_back(&row->move);
    for (const ShelfMove* move : moves)
      if (move->what == "in") pieces_ += move->quantity, value_ += move->amount;
    give_back(rows);
    draw(moves);
    count(moves);
    return changes_;
  }

 private:
  void take(const Leaving& what, Quantity pieces, Money value) {
    ShelfChange& change = changes_[what];
    change.quantity = change.quantity - pieces;
    change.amount -= value;
    pieces_ = pieces_ - pieces;
    value_ -= value;
    if (pieces_ < Quantity{}) refuse(event_, item_, day_, pieces_, *rows_);
  }
  // The first of several on one day is told by what is said of them, never by when they were typed.
  void give_back(std::vector<const ShelfRow*> rows) {
    std::erase_if(rows, [](const ShelfRow* row) { return row->move.what != "back"; });
    std::stable_sort(rows.begin(), rows.end(), [](const ShelfRow* a, const ShelfRow* b) {
      return std::tuple(a->line_cost, a->line_pieces, a->move.quantity) <
             std::tuple(b->line_cost, b->line_pieces, b->move.quantity);
    });
    for (const ShelfRow* row : rows) {
      const Quantity pieces = Quantity{} - row->move.quantity;
      Quantity& gone = gone_[row->move.line];
      const Money own = step_share(row->line_cost, row->line_pieces.thousandths(), gone.thousandths(),
                                   row->goods.thousandths());
      gone += row->goods;
      take(leaving(row->move), pieces,
           pieces == pieces_ ? value_ : std::min(std::max(own, Money{}), std::max(value_, Money{})));
    }
  }
  void draw(const std::vector<const ShelfMove*>& moves) {
    std::map<std::string, Quantity> by_car;
    Quantity all;
    for (const ShelfMove* move : moves)
      if (move->what == "draw") {
        by_car[move->vehicle] = by_car[move->vehicle] - move->quantity;
        all = all - move->quantity;
      }
    if (all == Quantity{}) return;
    if (all > pieces_) refuse(event_, item_, day_, pieces_ - all, *rows_);
    const Money value = all == pieces_ ? value_ : Money::of_minor(share(value_, all, pieces_));
    std::vector<std::int64_t> weights;
    for (const auto& [car, pieces] : by_car) weights.push_back(pieces.thousandths());
    const std::vector<Money> shares = spread(value, weights);
    std::size_t next = 0;
    for (const auto& [car, pieces] : by_car) take({"draw", car, 0}, pieces, shares[next++]);
  }
  void count(const std::vector<const ShelfMove*>& moves) {
    for (const ShelfMove* move : moves) {
      if (move->what != "count") continue;
      const Quantity found = Quantity::of(*move->said), missing = pieces_ - found;
      const Money value = found == Quantity{}    ? value_
                          : pieces_ > Quantity{} ? Money::of_minor(share(value_, missing, pieces_))
                                                 : Money{};
      take({"count", "", 0}, missing, value);
    }
  }

  const std::string& event_;
  const std::string& item_;
  Quantity pieces_;
  Money value_;
  Gone gone_;
  Day day_;
  const std::vector<const ShelfRow*>* rows_ = nullptr;  // of that day
  Changes changes_;
};

std::vector<ShelfRow> rows_from(const Book& book, const std::string& item, Day from) {
  std::vector<ShelfRow> all;
  rows(book,
       "SELECT s.what, coalesce(s.vehicle, ''), coalesce(s.line, 0), s.quantity, s.amount, s.said, s.about, "
       "e.day, v.day, e.voids IS NULL AND e.kind <> 'average', coalesce(l.amount + l.tax - l.core_tax + "
       "l.extra, 0), coalesce(l.quantity, 1), coalesce((SELECT g.quantity FROM given_back g WHERE g.entry = "
       "s.entry AND g.line = s.line AND g.what = 'goods'), 0), e.entry, e.kind FROM shelf s JOIN entry e "
       "USING "
       "(entry) LEFT JOIN entry v ON v.voids = e.entry LEFT JOIN line l ON l.line = s.line WHERE s.item = "
       ":item AND s.about >= :from ORDER BY s.about, e.entry",
       {{":item", item}, {":from", from}}, [&](const Row& found) {
         ShelfRow& row = all.emplace_back();
         found.into(row.move.what, row.move.vehicle, row.move.line, row.move.quantity, row.move.amount,
                    row.move.said, row.about, row.day, row.until, row.told, row.line_cost, row.line_pieces,
                    row.goods, row.entry, row.kind);
       });
  return all;
}

// What the shelf stood at before the day `from`, as it is known at the end of the day `on`.
ShelfChange stood_before(const Book& book, const std::string& item, Day from, Day on) {
  ShelfChange stood;
  row(book,
      "SELECT coalesce(sum(d.quantity), 0), coalesce(sum(d.amount), 0) FROM account a JOIN account_day d "
      "USING "
      "(account) WHERE a.kind = 'stock' AND a.name = :item AND d.stands < :from AND d.day <= :on",
      {{":item", item}, {":from", from}, {":on", on}},
      [&](const Row& sum) { sum.into(stood.quantity, stood.amount); });
  return stood;
}

// What had gone back of each line before the day `from`, as it is known at the end of the day `on`.
Gone gone_before(const Book& book, const std::string& item, Day from, Day on) {
  Gone gone;
  each<std::int64_t, Quantity>(
      book,
      "SELECT g.line, sum(g.quantity) FROM shelf s JOIN given_back g ON g.entry = s.entry AND g.line = "
      "s.line "
      "AND g.what = 'goods' JOIN entry e ON e.entry = s.entry WHERE s.item = :item AND s.about < :from AND "
      "s.what = 'back' AND " +
          counts_on(":on") + " GROUP BY g.line",
      {{":item", item}, {":from", from}, {":on", on}},
      [&](std::int64_t line, Quantity quantity) { gone[line] = quantity; });
  return gone;
}

// The days after `from` on which something of the item was taken back that had counted until then: from each
// of them on the book is another, also about the days before.
std::vector<Day> taken_back_after(const Book& book, const std::string& item, Day from) {
  std::vector<Day> days;
  each<Day>(book,
            "SELECT DISTINCT v.day FROM shelf s JOIN entry e USING (entry) JOIN entry v ON v.voids = e.entry "
            "WHERE s.item = :item AND v.day > e.day AND v.day > :from ORDER BY 1",
            {{":item", item}, {":from", from}}, [&](Day day) { days.push_back(day); });
  return days;
}

bool counts_in(const ShelfRow& row, Day view) {
  return row.told && !(row.until && (*row.until <= row.day || *row.until <= view));
}

// By the day on which it is to be entered: what about which day is still wanting.
using Wanting = std::map<Day, std::map<Day, Changes>>;

class Settling {
 public:
  Settling(const std::vector<ShelfRow>& rows, Day entry_day) : rows_(rows), entry_day_(entry_day) {}

  // Goes through the days of the view that begins with `view` and lasts until the day before `end`.
  void go_through(Shelf shelf, Day view, std::optional<Day> end) {
    for (std::size_t i = 0; i < rows_.size();) {
      const Day day = rows_[i].about;
      if (end && day >= *end) break;
      std::size_t next = i;
      std::vector<const ShelfRow*> counting;
      for (; next < rows_.size() && rows_[next].about == day; ++next)
        if (counts_in(rows_[next], view)) counting.push_back(&rows_[next]);
      Changes changes = shelf.go_through(day, counting);
      const Day enter = std::max(day, view);
      if (enter >= entry_day_) compare(changes, day, enter, i, next);
      i = next;
    }
  }
  const Wanting& wanting() const { return wanting_; }

 private:
  // What the changes should be, less what is entered about that day up to the day `enter`.
  void compare(Changes& changes, Day day, Day enter, std::size_t first, std::size_t last) {
    const auto less = [&](const Leaving& what, Quantity quantity, Money amount) {
      changes[what].quantity = changes[what].quantity - quantity;
      changes[what].amount -= amount;
    };
    for (std::size_t i = first; i < last; ++i)
      if (rows_[i].move.what != "in" && rows_[i].day <= enter)
        less(leaving(rows_[i].move), rows_[i].move.quantity, rows_[i].move.amount);
    for (const auto& [entered, about] : wanting_)
      if (const auto found = about.find(day); entered <= enter && found != about.end())
        for (const auto& [what, change] : found->second) less(what, change.quantity, change.amount);
    std::erase_if(changes, [](const auto& each) {
      return each.second.quantity == Quantity{} && is_zero(each.second.amount);
    });
    if (!changes.empty()) wanting_[enter][day] = std::move(changes);
  }

  const std::vector<ShelfRow>& rows_;
  Day entry_day_;
  Wanting wanting_;
};

void enter_average(Recording& recording, const std::string& item, Day day,
                   const std::map<Day, Changes>& wanting, std::set<std::string>& cars) {
  Draft draft(recording, "average", day);
  draft.event.text("stock", item);
  for (const auto& [about, changes] : wanting)
    for (const auto& [leaving, change] : changes) {
      const auto& [what, car, line] = leaving;
      draft.post(account::stock, item, change.amount, change.quantity, about);
      draft.detail("shelf", {item, what, about.iso(), car.empty() ? Cell() : Cell(car),
                             line == 0 ? Cell() : Cell(line), change.quantity.thousandths(),
                             change.amount.minor(), Cell()});
      if (car.empty()) {
        draft.post(account::overhead, "", -change.amount, Quantity{}, about);
        continue;
      }
      cars.insert(car);
      draft.mention(car);
      draft.post(account::vehicle_cost, car, -change.amount, Quantity{}, about);
      draft.purpose({car, "consumable", item, 0, {}, change.amount, about});
    }
  draft.settled();
  draft.record();
}

}  // namespace

ShelfChange change_of_shelf(const Book& book, const std::string& event, const std::string& item, Day day,
                            const ShelfMove& move) {
  const std::vector<ShelfRow> rows = rows_from(book, item, day);
  std::vector<const ShelfRow*> counting;
  ShelfChange entered;
  for (const ShelfRow& row : rows) {
    if (row.about != day) break;
    if (counts_in(row, day)) counting.push_back(&row);
    if (row.day <= day && leaving(row.move) == leaving(move)) {
      entered.quantity += row.move.quantity;
      entered.amount += row.move.amount;
    }
  }
  ShelfRow added;
  added.move = move;
  if (move.line != 0) {
    const Line line = line_by_number(book, move.line);
    added.line_cost = line.cost();
    added.line_pieces = line.quantity;
    added.goods = move.goods;
  }
  counting.push_back(&added);
  Shelf shelf(event, item, stood_before(book, item, day, day), gone_before(book, item, day, day));
  const ShelfChange change = shelf.go_through(day, counting)[leaving(move)];
  return {change.quantity - entered.quantity, change.amount - entered.amount};
}

void post_to_shelf(Draft& draft, const std::string& item, const ShelfMove& move, const ShelfChange& change) {
  if (change.quantity != Quantity{} || !is_zero(change.amount))
    draft.post(account::stock, item, change.amount, change.quantity);
  draft.detail("shelf",
               {item, move.what, draft.day().iso(), move.vehicle.empty() ? Cell() : Cell(move.vehicle),
                move.line == 0 ? Cell() : Cell(move.line), change.quantity.thousandths(),
                change.amount.minor(), move.said ? Cell(*move.said) : Cell()});
}

void settle_shelf(Recording& recording, const std::string& event, const std::string& item, Day from,
                  Day entry_day) {
  const Book& book = recording.book();
  const std::vector<ShelfRow> rows = rows_from(book, item, from);
  std::vector<Day> views = taken_back_after(book, item, from);
  views.insert(views.begin(), from);
  Settling settling(rows, entry_day);
  for (std::size_t i = 0; i < views.size(); ++i) {
    const auto end = i + 1 < views.size() ? std::optional(views[i + 1]) : std::nullopt;
    if (end && *end <= entry_day) continue;
    settling.go_through(
        Shelf(event, item, stood_before(book, item, from, views[i]), gone_before(book, item, from, views[i])),
        views[i], end);
  }
  std::set<std::string> cars;
  for (const auto& [day, wanting] : settling.wanting()) enter_average(recording, item, day, wanting, cars);
  if (cars.empty()) return;
  std::string sold;
  for (const std::string& car : cars)
    if (const State state = life_of(book, car).state; state == State::sold || state == State::finished)
      sold += (sold.empty() ? ", of them sold: " : ", ") + car;
  recording.remarks().push_back(fmt::format("the average of \"{}\" by days changed what {} drew{}", item,
                                            counted(cars.size(), "car"), sold));
}

}  // namespace nonrunner::book
