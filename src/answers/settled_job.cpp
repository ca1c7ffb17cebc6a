#include "answers/settled_job.h"

#include <fmt/format.h>

#include <algorithm>

#include "answers/by_hand.h"
#include "answers/own_figures.h"
#include "appraisal/read_job.h"
#include "book/events/comparables.h"
#include "exact/hint.h"
#include "figures/opinion.h"
#include "text/counted.h"
#include "text/made_value.h"
#include "text/table.h"
#include "text/toml.h"

namespace nonrunner::answers {

namespace {

bool is_text(const Value& value, const char* text) {
  return value.kind == Value::Kind::text && value.text == text;
}
bool says_own(const Value* value) {
  return value && (is_text(*value, "own") || (value->kind == Value::Kind::array && !value->items.empty() &&
                                              is_text(value->items[0], "own")));
}
std::string as_toml(const std::vector<double>& values) {
  std::string text;
  for (const double each : values) text += fmt::format("{}{:.6f}", text.empty() ? "[" : ", ", each);
  return text + "]";
}

class Settling {
 public:
  Settling(const book::Book* book, Day day, bool beliefs_only)
      : book_(book), day_(day), beliefs_only_(beliefs_only) {}

  Settled settled(const Table& root) {
    if (const auto shop = root.table("shop", "[shop]")) {
      amount(*shop, "pace", resale::common_practice::pace, 0.01, 100, &OwnFigures::pace);
      place(*shop);
    }
    if (const auto sale = root.table("sale", "[sale]")) {
      amount(*sale, "realised", resale::common_practice::realised, 0.01, 10, &OwnFigures::realised);
      amount(*sale, "days", resale::common_practice::days, 0, 3650, &OwnFigures::days);
    }
    odds(root);
    if (!beliefs_only_) rows(root);
    return result_;
  }

 private:
  const OwnFigures& own(const Table& table, std::string_view key) {
    if (!own_) {
      if (!beliefs_only_ && !book_)
        throw hinted<Refusal>(
            fmt::format("{}: \"{}\" in {} is to be \"own\", and there is no book, expected one, or figures",
                        table.place(key), key, table.name()),
            {Action::use_book, {}});
      own_ = beliefs_only_ ? OwnFigures{} : own_figures(*book_, day_);
    }
    return *own_;
  }

  void take(std::string_view key, const std::string& value) {
    result_.figures += fmt::format("{} = {}\n", key, value);
  }

  // The stated points after the word "own", if there are any.
  std::optional<ThreePoint> stated(const Table& table, std::string_view key) {
    const Value& value = *table.find(key);
    if (value.kind != Value::Kind::array || value.items.size() == 1) return std::nullopt;
    const auto& items = value.items;
    const bool three = items.size() == 4 && is_number(items[1]) && is_number(items[2]) && is_number(items[3]);
    if (!three || !(items[1].real > 0 && items[1].real <= items[2].real && items[2].real <= items[3].real))
      table.refuse(key,
                   "\"own\", or [\"own\", low, likely, high] with the three points that it is shrunk from, "
                   "above 0 and rising");
    return ThreePoint{items[1].real, items[2].real, items[3].real};
  }

  void amount(const Table& table, std::string_view key, resale::OwnPrior prior, double least, double most,
              std::vector<double> (OwnFigures::*values)() const) {
    if (!says_own(table.find(key))) return;
    if (const auto points = stated(table, key)) prior.points = *points;
    const OwnFigures& figures_of_own = own(table, key);
    if (key == "pace") least = figures_of_own.least_pace();
    const resale::OwnAmount taken = resale::own_amount(prior, (figures_of_own.*values)(), least, most);
    take(key, as_toml({taken.points.low, taken.points.likely, taken.points.high}));
    const auto& figures = taken.figures;
    result_.notes.push_back(SettledAmount{std::string(key), prior.points, taken.points,
                                          static_cast<std::size_t>(prior.weight), figures.own.mean,
                                          figures.own.number});
  }

  // One amount of money, not three points: what a day of the place could earn otherwise is counted at its mean.
  void place(const Table& shop) {
    constexpr std::string_view key = "bay_per_day";
    const Value* value = shop.find(key);
    if (!says_own(value)) return;
    const bool states = value->kind == Value::Kind::array && value->items.size() > 1;
    if (states && !(value->items.size() == 2 && is_number(value->items[1]) && value->items[1].real >= 0))
      shop.refuse(key, "\"own\", or [\"own\", amount] with what it is shrunk from, 0 or more");
    const double stated = states ? value->items[1].real : 0;
    const OwnPlace own_place = own(shop, key).place();
    const double taken = own_place.with_stated(stated);
    take(key,
         own_place.cars == 0 ? (states ? value->items[1].text : "0") : plain_units(taken, book_->currency()));
    result_.notes.push_back(SettledAmount{
        std::string(key), ThreePoint::constant(stated), ThreePoint::constant(taken),
        static_cast<std::size_t>(resale::common_practice::place_weight), own_place.a_day(), own_place.cars});
  }

  void odds(const Table& root) {
    std::vector<Table> causes = root.tables("cause", "[[cause]]");
    std::vector<double> prior;
    const Table *asks = nullptr, *states = nullptr;
    for (const Table& cause : causes) {
      const Value* value = cause.find("odds");
      if (!says_own(value)) {
        states = &cause;
        continue;
      }
      asks = &cause;
      const bool pair = value->kind == Value::Kind::array && value->items.size() > 1;
      if (pair && !(value->items.size() == 2 && is_number(value->items[1]) && value->items[1].real > 0))
        cause.refuse("odds", "\"own\", or [\"own\", odds] with the odds that it is shrunk from, above 0");
      prior.push_back(pair ? value->items[1].real : 1);
    }
    if (!asks) return;
    if (states)
      states->refuse_whole("\"odds\" are \"own\" in another [[cause]], expected it of all causes or of none",
                           "odds");
    std::vector<std::size_t> counts;
    for (const Table& cause : causes) {
      const auto& known = own(cause, "odds").causes;
      const auto found = known.find(cause.text_or("name", ""));
      counts.push_back(found == known.end() ? 0 : found->second.found);
    }
    const resale::ShrunkOdds taken = resale::shrunk(prior, resale::common_practice::odds_weight, counts);
    take("odds", as_toml(taken.share));
    for (std::size_t i = 0; i < causes.size(); ++i) {
      result_.notes.push_back(
          SettledOdds{causes[i].text_or("name", ""), taken.prior[i], taken.share[i], counts[i], taken.cars});
    }
  }

  void rows(const Table& root) {
    const auto value = root.table("value", "[value]");
    if (!value || !value->find("from") || !is_text(*value->find("from"), "book")) return;
    if (value->has("sound")) return;  // the reader says that only one of the two can be
    if (!book_)
      throw hinted<Refusal>(
          value->place("from") +
              ": \"from\" in [value] is \"book\", and there is no book, expected one, or [[comparable]] rows",
          {Action::use_book, {}});
    const auto vehicle = root.table("vehicle", "[vehicle]");
    if (!vehicle || !vehicle->find("year") || !is_number(*vehicle->find("year")))
      return;  // the reader says what is missing
    const std::string description = vehicle->text_or("description", "");
    const int year = static_cast<int>(vehicle->find("year")->real);
    const auto fitting = book::comparables_that_fit(*book_, description, year, day_);
    if (fitting.empty() && !root.has("comparable"))
      throw hinted<Refusal>(
          fmt::format("{}: none of the book's {} fits a {} \"{}\"", value->place("from"),
                      counted(book::all_comparables(*book_).size(), "comparable"), year, description),
          {Action::add_comparables, {}});
    take("comparables", rows_as_toml(fitting));
    result_.notes.push_back(SettledRows{fitting.size(), book::all_comparables(*book_).size()});
  }

  std::string rows_as_toml(const std::vector<book::KeptComparable>& fitting) const {
    std::string rows;
    for (const book::KeptComparable& each : fitting)
      rows += fmt::format(
          "{}{{ price = {}, kind = \"{}\", odometer = {}, year = {}, grade = {}, date = {}, book = {} }}",
          rows.empty() ? "" : ", ", each.price.plain(book_->currency()), each.sold ? "sold" : "asking",
          each.odometer.shown(), each.year, each.grade.shown(), each.day.iso(), each.id);
    return "[" + rows + "]";
  }

  const book::Book* book_;
  Day day_;
  bool beliefs_only_;
  Settled result_;
  std::optional<OwnFigures> own_;
};

Value* within(Value& table, std::string_view key) {
  for (auto& [name, value] : table.entries)
    if (name == key) return &value;
  return nullptr;
}

// `value` in the place of what stood there, and at its line.
void put(Value* place, const Value& value) {
  if (!place) return;
  const int line = place->line;
  *place = value;
  place->line = line;
  for (Value& item : place->items) item.line = line;
}

void add_rows(Value& job, const Value& rows) {
  Value* asks = within(job, "value");
  Value* from = asks ? within(*asks, "from") : nullptr;
  if (!from) return;
  from->text = "rows";
  Value* comparables = within(job, "comparable");
  if (!comparables) {
    job.entries.emplace_back("comparable", Value());
    comparables = &job.entries.back().second;
    comparables->kind = Value::Kind::array;
    comparables->line = from->line;
  }
  for (Value row : rows.items) {
    row.line = from->line;
    comparables->items.push_back(std::move(row));
  }
}

}  // namespace

Settled settled(const Value& job, const std::string& name, const book::Book* book, Day day) {
  return Settling(book, day, false).settled(Table(job, name, "the file"));
}

Settled believed(const Value& job, const std::string& name) {
  return Settling(nullptr, Day{}, true).settled(Table(job, name, "the file"));
}

void settle(Value& job, const std::string& figures) {
  const Value taken = parse_toml(figures, "the settled figures");
  for (const auto& [key, value] : taken.entries) {
    if (key == "by_hand") {
      put_by_hand(job, value);
    } else if (key == "comparables") {
      add_rows(job, value);
    } else if (key == "odds") {
      if (Value* causes = within(job, "cause"))
        for (std::size_t i = 0; i < causes->items.size() && i < value.items.size(); ++i)
          put(within(causes->items[i], "odds"), value.items[i]);
    } else if (Value* table = within(job, key == "pace" || key == "bay_per_day" ? "shop" : "sale")) {
      put(within(*table, key), value);
    }
  }
}

ReadJob read_settled_job(const std::string& text, const std::string& name, const book::Book* book,
                         const Currency& currency, Day day) {
  appraisal::refuse_too_long(text, name);
  Value tree = parse_toml(text, name);
  appraisal::refuse_unfit_names(tree, name);
  ReadJob result;
  result.settled = settled(tree, name, book, day);
  settle(tree, result.settled.figures);
  result.job = appraisal::read_job(tree, name, currency);
  return result;
}

}  // namespace nonrunner::answers
