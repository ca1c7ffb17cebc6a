#include "answers/settled_job.h"

#include <fmt/format.h>

#include <regex>

#include "answers/own_figures.h"
#include "book/events/comparables.h"
#include "exact/ends.h"
#include "text/table.h"
#include "text/toml.h"

namespace nonrunner::answers {

namespace {

bool is_text(const Value& value, const char* text) {
  return value.kind == Value::Kind::text && value.text == text;
}
bool is_number(const Value& value) {
  return value.kind == Value::Kind::whole || value.kind == Value::Kind::real;
}
bool says_own(const Value* value) {
  return value && (is_text(*value, "own") || (value->kind == Value::Kind::array && !value->items.empty() &&
                                              is_text(value->items[0], "own")));
}
std::string shown(double value) { return fmt::format("{:.4g}", value); }
std::string shown(const ThreePoint& p) {
  return fmt::format("{}, {}, {}", shown(p.low), shown(p.likely), shown(p.high));
}
std::string cars(std::size_t number) { return fmt::format("{} car{}", number, number == 1 ? "" : "s"); }

class Settling {
 public:
  Settling(const std::string& text, std::string name, const book::Book* book, Day day, bool beliefs_only)
      : name_(std::move(name)), book_(book), day_(day), beliefs_only_(beliefs_only) {
    for (std::size_t at = 0; at <= text.size();) {
      const std::size_t end = std::min(text.find('\n', at), text.size());
      lines_.push_back(text.substr(at, end - at));
      at = end + 1;
    }
  }

  SettledJob result() {
    std::string text;
    for (std::size_t i = 0; i < lines_.size(); ++i) text += (i > 0 ? "\n" : "") + lines_[i];
    return {text + appended_, notes_};
  }

  void settle(const Table& root) {
    if (const auto shop = root.table("shop", "[shop]"))
      amount(*shop, "pace", resale::common_practice::pace, 0.01, 100, &OwnFigures::pace);
    if (const auto sale = root.table("sale", "[sale]")) {
      amount(*sale, "realised", resale::common_practice::realised, 0.01, 10, &OwnFigures::realised);
      amount(*sale, "days", resale::common_practice::days, 0, 3650, &OwnFigures::days);
    }
    odds(root);
    if (!beliefs_only_) rows(root);
  }

 private:
  const OwnFigures& own(const Table& table, std::string_view key) {
    if (!own_) {
      if (!beliefs_only_ && !book_)
        table.refuse_whole(
            fmt::format(
                "\"{}\" in {} is to be \"own\", and there is no book; name one with --book, or give figures",
                key, table.name()),
            key);
      own_ = beliefs_only_ ? OwnFigures{} : own_figures(*book_, day_);
    }
    return *own_;
  }

  void replace(const Table& table, std::string_view key, const std::string& by) {
    const int line = table.find(key)->line;
    const std::regex written(
        fmt::format(R"((^|[\s{{,.]){}\s*=\s*("own"|'own'|\[\s*["']own["'][^\]]*\]))", key));
    std::string& text = lines_.at(static_cast<std::size_t>(std::max(line, 1) - 1));
    if (!std::regex_search(text, written))
      table.refuse_whole(fmt::format("\"{}\" in {} is to be \"own\", expected it on one line: {} = \"own\"",
                                     key, table.name(), key),
                         key);
    text = std::regex_replace(text, written, fmt::format("$1{} = {}", key, by),
                              std::regex_constants::format_first_only);
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
    const resale::OwnAmount taken = resale::own_amount(prior, (own(table, key).*values)(), least, most);
    replace(
        table, key,
        fmt::format("[{:.6f}, {:.6f}, {:.6f}]", taken.points.low, taken.points.likely, taken.points.high));
    const auto& figures = taken.figures;
    notes_.push_back(fmt::format("{}: stated {}, counting as {}; own {}; taken {}", key, shown(prior.points),
                                 cars(static_cast<std::size_t>(prior.weight)),
                                 figures.own.number == 0 ? "none yet"
                                                         : fmt::format("{} over {}", shown(figures.own.mean),
                                                                       cars(figures.own.number)),
                                 shown(taken.points)));
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
    for (std::size_t i = 0; i < causes.size(); ++i) {
      replace(causes[i], "odds", fmt::format("{:.6f}", taken.share[i]));
      notes_.push_back(fmt::format("odds of {}: stated {}; own {} of {}; taken {}",
                                   causes[i].text_or("name", "a cause"), shown(taken.prior[i]), counts[i],
                                   cars(taken.cars), shown(taken.share[i])));
    }
  }

  void rows(const Table& root) {
    const auto value = root.table("value", "[value]");
    if (!value || !value->find("from") || !is_text(*value->find("from"), "book")) return;
    if (value->has("sound")) return;  // the reader says that only one of the two can be
    if (!book_)
      value->refuse_whole(
          "\"from\" in [value] is \"book\", and there is no book; name one with --book, or give "
          "[[comparable]] rows",
          "from");
    const auto vehicle = root.table("vehicle", "[vehicle]");
    if (!vehicle || !vehicle->find("year") || !is_number(*vehicle->find("year")))
      return;  // the reader says what is missing
    const std::string description = vehicle->text_or("description", "");
    const int year = static_cast<int>(vehicle->find("year")->real);
    const auto fitting = book::comparables_that_fit(*book_, description, year, day_);
    if (fitting.empty() && !root.has("comparable"))
      value->refuse_whole(fmt::format("none of the book's {} comparables fits a {} \"{}\"; add some: "
                                      "nonrunner comparable add --csv FILE",
                                      book::all_comparables(*book_).size(), year, description),
                          "from");
    const std::regex written(R"(from\s*=\s*["']book["'])");
    std::string& line = lines_.at(static_cast<std::size_t>(std::max(value->find("from")->line, 1) - 1));
    line = std::regex_replace(line, written, "from = \"rows\"", std::regex_constants::format_first_only);
    insert(root, fitting);
    notes_.push_back(
        fmt::format("comparables: {} of the book's {} fit: by model, within 5 years, seen in the last 2",
                    fitting.size(), book::all_comparables(*book_).size()));
  }

  void insert(const Table& root, const std::vector<book::KeptComparable>& fitting) {
    const Currency& currency = book_->currency();
    std::string inside, after;
    for (const book::KeptComparable& each : fitting) {
      const std::string price = each.price.plain(currency), kind = each.sold ? "sold" : "asking";
      inside += fmt::format(
          " {{ price = {}, kind = \"{}\", odometer = {}, year = {}, grade = {}, date = {}, book = {} }},",
          price, kind, each.odometer.shown(), each.year, each.grade.shown(), each.day.iso(), each.id);
      after += fmt::format(
          "\n[[comparable]]\nprice = {}\nkind = \"{}\"\nodometer = {}\nyear = {}\ngrade = {}\ndate = "
          "{}\nbook = {}\n",
          price, kind, each.odometer.shown(), each.year, each.grade.shown(), each.day.iso(), each.id);
    }
    // An array written in brackets cannot be added to later on: the rows go into it.
    const std::regex opened(R"(^\s*comparable\s*=\s*\[)");
    if (root.has("comparable"))
      for (std::string& line : lines_) {
        std::smatch match;
        if (!std::regex_search(line, match, opened)) continue;
        line.insert(static_cast<std::size_t>(match.position() + match.length()), inside);
        return;
      }
    appended_ = after.empty() ? "" : "\n" + after;
  }

  std::string name_;
  const book::Book* book_;
  Day day_;
  bool beliefs_only_;
  std::vector<std::string> lines_;
  std::string appended_;
  std::vector<std::string> notes_;
  std::optional<OwnFigures> own_;
};

SettledJob settle(const std::string& text, const std::string& name, const book::Book* book, Day day,
                  bool beliefs_only) {
  Value tree;
  try {
    tree = parse_toml(text, name);
  } catch (const Refusal&) {
    return {text, {}};
  }
  Settling settling(text, name, book, day, beliefs_only);
  settling.settle(Table(tree, name, "the file"));
  return settling.result();
}

}  // namespace

SettledJob settled_job(const std::string& text, const std::string& name, const book::Book* book, Day day) {
  return settle(text, name, book, day, false);
}

std::string with_common_practice(const std::string& text, const std::string& name) {
  return settle(text, name, nullptr, Day{}, true).text;
}

}  // namespace nonrunner::answers
