#include "book/ledger/limits.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "book/ledger/query.h"
#include "exact/ends.h"
#include "text/unicode.h"

namespace nonrunner::book {

namespace {

constexpr std::size_t longest_name = 10'000, longest_event = 1 << 20;
constexpr std::int64_t most_units = 1'000'000'000;
constexpr std::int64_t most_turned_over = Money::limit / 10 * 9;

enum class Measure { none, money, pieces, hours, distance, words };

// The measure of each column of each table of details, in the order of its cells.
const std::vector<std::vector<Measure>>& measures() {
  static const std::vector<std::vector<Measure>> all = [] {
    const std::map<std::string, Measure, std::less<>> known = {
        {"amount", Measure::money},       {"tax", Measure::money},       {"extra", Measure::money},
        {"core", Measure::money},         {"core_tax", Measure::money},  {"goods", Measure::money},
        {"kept", Measure::money},         {"total", Measure::money},     {"price", Measure::money},
        {"still_brings", Measure::money}, {"quantity", Measure::pieces}, {"gives", Measure::pieces},
        {"own", Measure::hours},          {"paid", Measure::hours},      {"distance", Measure::distance},
        {"text", Measure::words},         {"why", Measure::words},       {"value", Measure::words}};
    std::vector<std::vector<Measure>> tables;
    for (const DetailTable& table : detail_tables()) {
      std::vector<Measure> columns;
      for (std::size_t at = 0; at < table.columns.size();) {
        const std::size_t end = std::min(table.columns.find(',', at), table.columns.size());
        const std::string name = table.columns.substr(at, end - at);
        const auto found = known.find(name);
        columns.push_back(found == known.end() ? Measure::none : found->second);
        at = end == table.columns.size() ? end : end + 2;
      }
      tables.push_back(std::move(columns));
    }
    return tables;
  }();
  return all;
}

std::int64_t magnitude(std::int64_t number) { return number < 0 ? -number : number; }

std::string decimal(std::int64_t thousandths) { return unscaled_trimmed(thousandths, 3); }

// "4006381333931.00" as a person reads it, also beyond the range of Money.
std::string shown(std::int64_t minor, const Currency& currency) {
  std::string text = unscaled(minor, currency.digits);
  const std::size_t first = minor < 0 ? 1 : 0;
  for (std::size_t at = std::min(text.find('.'), text.size()); at > first + 3;) {
    at -= 3;
    text.insert(at, ",");
  }
  return text;
}

void expect_money(const Entry& entry, std::int64_t minor, const Currency& currency) {
  std::int64_t most = most_units;
  for (int i = 0; i < currency.digits; ++i) most *= 10;
  if (magnitude(minor) > most)
    throw Refusal(fmt::format("{}: found the amount {}, expected at most {}; is it a barcode?", entry.kind,
                              shown(minor, currency), shown(most, currency)));
}

void expect_measure(const Entry& entry, Measure measure, std::int64_t number, const Currency& currency) {
  const auto expect_at_most = [&](std::int64_t most, const char* what, const char* advice) {
    if (magnitude(number) > most * 1000)
      throw Refusal(fmt::format("{}: found {} {}, expected at most {}; {}", entry.kind, decimal(number), what,
                                decimal(most * 1000), advice));
  };
  switch (measure) {
    case Measure::none:
    case Measure::words:
      return;
    case Measure::money:
      return expect_money(entry, number, currency);
    case Measure::pieces:
      return expect_at_most(1'000'000, "pieces", "is it a barcode?");
    case Measure::hours:
      return expect_at_most(10'000, "hours", "is it an amount of money?");
    case Measure::distance:
      return expect_at_most(100'000, "miles or kilometres", "is it the odometer?");
  }
}

}  // namespace

void expect_name(const std::string& event, const std::string& name) {
  if (const auto hidden = unseen(name)) {
    if (broken_utf8(name))
      throw Refusal(
          fmt::format("{}: \"{}\" is not UTF-8 text, expected UTF-8; save it as UTF-8 and try again", event,
                      cut_to(name, 60)));
    throw Refusal(fmt::format(
        "{}: \"{}\" holds a character that nobody sees ({}), expected a name that can be read; type it anew",
        event, cut_to(name, 60), code_point(*hidden)));
  }
  if (name.size() > longest_name)
    throw Refusal(
        fmt::format("{}: \"{}\" has {} bytes, expected a name of at most {}; put what is longer into a file "
                    "and attach it",
                    event, cut_to(name, 40), name.size(), longest_name));
}

void expect_shows(const std::string& event, const std::string& name) {
  if (const auto hidden = filler(name))
    throw Refusal(fmt::format(
        "{}: \"{}\" holds a character that nobody sees ({}), expected a name that can be read; type it anew",
        event, cut_to(name, 60), code_point(*hidden)));
  if (!name.empty() && is_blank(name))
    throw Refusal(fmt::format(
        "{}: found a name of nothing but blanks, expected one that can be read; type it anew", event));
}

namespace {
template <class Expect>
void each_name(const Entry& entry, Expect expect) {
  for (const Posting& posting : entry.postings) expect(entry.kind, posting.name);
  for (const Detail& detail : entry.details)
    for (std::size_t i = 0; i < detail.cells.size(); ++i) {
      // What somebody wrote in their own words may have lines, and whatever the event itself may have.
      const auto* text = std::get_if<std::string>(&detail.cells[i]);
      if (text && measures()[detail.table][i] != Measure::words) expect(entry.kind, *text);
    }
}
}  // namespace

void expect_names_show(const Entry& entry) {
  if (!entry.voids) each_name(entry, expect_shows);
}

void expect_readable(const Entry& entry) {
  if (const auto at = broken_utf8(entry.event))
    throw Refusal(fmt::format("{}: byte {} of what is said is not UTF-8 text, expected UTF-8: {}", entry.kind,
                              *at + 1, cut_to(entry.event, 60)));
  if (entry.voids) return;  // it names what is there already
  if (entry.event.size() > longest_event)
    throw Refusal(fmt::format(
        "{}: what is said has {} bytes, expected at most {}; put what is longer into a file and attach it",
        entry.kind, entry.event.size(), longest_event));
  each_name(entry, expect_name);
}

void expect_shop_sized(const Recording& recording, const Entry& entry) {
  const Currency& currency = recording.currency();
  if (entry.day < Day(1886, 1, 1) || entry.day > Day(2200, 12, 31))
    throw Refusal(fmt::format("{}: found the day {}, expected one from 1886-01-01 to 2200-12-31", entry.kind,
                              entry.day.iso()));
  std::int64_t moved = 0;
  for (const Posting& posting : entry.postings) {
    expect_money(entry, posting.amount.minor(), currency);
    if (posting.quantity) expect_measure(entry, Measure::pieces, posting.quantity->thousandths(), currency);
    moved += magnitude(posting.amount.minor());
  }
  for (const Detail& detail : entry.details)
    for (std::size_t i = 0; i < detail.cells.size(); ++i)
      if (const auto* number = std::get_if<std::int64_t>(&detail.cells[i]))
        expect_measure(entry, measures()[detail.table][i], *number, currency);
  if (moved == 0) return;
  const std::int64_t before =
      first<std::int64_t>(recording.book(), "SELECT amount FROM turned_over", {}).value_or(0);
  if (before > most_turned_over - moved)
    throw Refusal(fmt::format(
        "{}: the book has turned over {} and cannot add up more than {}; void what is no amount of money, or "
        "begin a new book",
        entry.kind, shown(before, currency), shown(most_turned_over, currency)));
}

}  // namespace nonrunner::book
