#include "book/ledger/settings.h"

#include <fmt/format.h>

#include "book/ledger/desk_notes.h"
#include "book/ledger/query.h"
#include "exact/decimal.h"
#include "exact/ends.h"
#include "exact/nearest.h"
#include "text/unicode.h"

namespace nonrunner::book {

namespace {

void write(Recording& recording, const std::string& name, const std::string& value) {
  change(recording.book(),
         "INSERT INTO setting VALUES (:name, :value) ON CONFLICT (name) DO UPDATE SET value = excluded.value",
         {{":name", name}, {":value", value}});
  note_desk(recording, "setting " + name);
}

constexpr std::string_view hour_from = "hour.";  // and the day

// A value read by `reading`, whose refusal gets the name of the setting.
template <class Reading>
auto read(const std::string& name, Reading reading) {
  try {
    return reading();
  } catch (const Refusal& refusal) {
    throw Refusal("set " + name + ": " + refusal.what());
  }
}

}  // namespace

std::string expect_setting(const Book& book, const std::string& name, const std::string& value) {
  const Currency& currency = book.currency();
  if (name.starts_with(hour_from)) {
    read(name, [&] { return Day::parse(name.substr(hour_from.size())); });
    return expect_setting(book, "hour", value);
  }
  if (name == "hour") {
    const Money hour = read(name, [&] { return Money::parse(value, currency); });
    std::int64_t most = 1'000'000;
    for (int i = 0; i < currency.digits; ++i) most *= 10;
    if (is_negative(hour)) throw Refusal("set hour: found " + value + ", expected 0 or more");
    if (hour > Money::of_minor(most))
      throw Refusal("set hour: found " + value + ", expected at most " +
                    Money::of_minor(most).shown(currency));
    return hour.plain(currency);
  }
  if (name == "dealer-limit") {
    const auto limit = scaled(value, 0);
    if (!limit || *limit < 1 || *limit > 1000)
      throw Refusal("set dealer-limit: found \"" + value + "\", expected a whole number from 1 to 1000");
    return std::to_string(*limit);
  }
  if (name.starts_with("purse.") && name.size() > 6) {
    if (const auto hidden = unseen(name))
      throw Refusal(
          fmt::format("set {}: the name holds a character that nobody sees ({}), expected one that can be "
                      "read",
                      cut_to(name, 60), code_point(*hidden)));
    if (value != "asset" && value != "liability" && value != "credit")
      throw Refusal(fmt::format("set {}: found \"{}\", expected asset, liability or credit{}", name, value,
                                did_you_mean(value, {"asset", "liability", "credit"})));
    return value;
  }
  if (name == "tools") {
    if (value != "asset" && value != "expense")
      throw Refusal(fmt::format("set tools: found \"{}\", expected asset or expense{}", value,
                                did_you_mean(value, {"asset", "expense"})));
    return value;
  }
  if (name == "paper-size") {
    if (value != "a4" && value != "letter")
      throw Refusal(fmt::format("set paper-size: found \"{}\", expected a4 or letter{}", value,
                                did_you_mean(value, {"a4", "letter"})));
    return value;
  }
  if (name == "backup-folder") {
    if (const auto hidden = unseen(value); hidden || !value.starts_with('/'))
      throw Refusal(
          fmt::format("set backup-folder: found \"{}\", expected a folder by its whole path, from / on",
                      cut_to(value, 60)));
    return value;
  }
  if (name == "closed") return read(name, [&] { return Day::parse(value); }).iso();
  if (name == "currency" || name == "distance") return value;  // looked at when the book is opened
  throw Refusal(
      fmt::format("set: there is no setting \"{}\"{}", name,
                  nearest(name, {"hour", "dealer-limit", "tools", "paper-size", "backup-folder"})
                      ? did_you_mean(name, {"hour", "dealer-limit", "tools", "paper-size", "backup-folder"})
                      : "; known: hour, dealer-limit, tools, paper-size, backup-folder, purse.NAME"));
}

namespace {

// The first hour holds for all days; a later word for those from its day on.
void set_hour(Recording& recording, const std::string& value, Day from) {
  const Book& book = recording.book();
  if (from > recording.today())
    throw Refusal(fmt::format("set hour: the day {} has not come yet, expected {} at the latest", from.iso(),
                              recording.today().iso()));
  const std::string kept = expect_setting(book, "hour", value);
  if (!book.setting("hour"))
    write(recording, "hour", kept);
  else if (hour(book, from).plain(book.currency()) != kept ||
           book.setting(std::string(hour_from) + from.iso()))
    write(recording, std::string(hour_from) + from.iso(), kept);
}

}  // namespace

void set(Recording& recording, const std::string& name, const std::string& value, std::optional<Day> from) {
  if (name == "closed") {  // an entry of its own
    close(recording, read(name, [&] { return Day::parse(value); }));
    return;
  }
  if (name == "currency" || name == "distance")
    throw Refusal(
        fmt::format("set: the {} of a book is never changed, expected hour, dealer-limit, tools, paper-size, "
                    "backup-folder "
                    "or purse.NAME",
                    name));
  if (name == "hour") return set_hour(recording, value, from.value_or(recording.today()));
  if (from) throw Refusal(fmt::format("set {}: found a day, expected one only with the hour", name));
  write(recording, name, expect_setting(recording.book(), name, value));
}

std::map<std::string, std::string> settings(const Book& book) {
  std::map<std::string, std::string> all;
  each<std::string, std::string>(
      book, "SELECT name, value FROM setting", {},
      [&](const std::string& name, const std::string& value) { all[name] = value; });
  if (const auto closed = closed_until(book)) all["closed"] = closed->iso();
  return all;
}

Money hour(const Book& book, std::optional<Day> on) {
  auto value =
      first<std::string>(book,
                         "SELECT value FROM setting WHERE name GLOB 'hour.*' AND name <= 'hour.' || :on "
                         "ORDER BY name DESC LIMIT 1",
                         {{":on", on}});
  if (!value) value = book.setting("hour");
  return value ? Money::parse(*value, book.currency()) : Money{};
}

std::string purse_kind(const Book& book, const std::string& purse) {
  if (const auto set = book.setting("purse." + purse)) return *set;
  if (purse.find("card") != std::string::npos) return "liability";
  if (purse.size() >= 6 && purse.compare(purse.size() - 6, 6, "credit") == 0) return "credit";
  return "asset";
}

EntryId close(Recording& recording, Day day, const std::string& why) {
  if (day > recording.today())
    throw Refusal(
        fmt::format("close: the day {} has not come yet, expected {} at the latest: a close cannot be taken "
                    "back",
                    day.iso(), recording.today().iso()));
  const auto closed = closed_until(recording.book());
  if (closed && day < *closed)
    throw Refusal(fmt::format("close: the book is closed up to {} already, expected that day or a later one",
                              closed->iso()));
  Draft draft(recording, "close", day);
  draft.event.text("why", why);
  return draft.record();
}

}  // namespace nonrunner::book
