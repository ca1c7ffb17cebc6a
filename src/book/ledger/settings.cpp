#include "book/ledger/settings.h"

#include <fmt/format.h>

#include "book/ledger/desk_notes.h"
#include "exact/decimal.h"
#include "exact/ends.h"
#include "exact/nearest.h"

namespace nonrunner::book {

namespace {

void write(Recording& recording, const std::string& name, const std::string& value) {
  auto& put = recording.book().query(
      "INSERT INTO setting VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value");
  put.bind(1, name);
  put.bind(2, value);
  put.exec();
  note_desk(recording, "setting " + name);
}

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

void set(Recording& recording, const std::string& name, const std::string& value) {
  const Currency& currency = recording.currency();
  if (name == "hour") {
    const Money hour = read(name, [&] { return Money::parse(value, currency); });
    if (is_negative(hour)) throw Refusal("set hour: found " + value + ", expected 0 or more");
    write(recording, name, hour.plain(currency));
  } else if (name == "dealer-limit") {
    const auto limit = scaled(value, 0);
    if (!limit || *limit < 1 || *limit > 1000)
      throw Refusal("set dealer-limit: found \"" + value + "\", expected a whole number from 1 to 1000");
    write(recording, name, std::to_string(*limit));
  } else if (name.rfind("purse.", 0) == 0 && name.size() > 6) {
    if (value != "asset" && value != "liability" && value != "credit")
      throw Refusal(fmt::format("set {}: found \"{}\", expected asset, liability or credit{}", name, value,
                                did_you_mean(value, {"asset", "liability", "credit"})));
    write(recording, name, value);
  } else if (name == "tools") {
    if (value != "asset" && value != "expense")
      throw Refusal(fmt::format("set tools: found \"{}\", expected asset or expense{}", value,
                                did_you_mean(value, {"asset", "expense"})));
    write(recording, name, value);
  } else if (name == "closed") {
    close(recording, read(name, [&] { return Day::parse(value); }));
  } else {
    throw Refusal(fmt::format("set: there is no setting \"{}\"{}", name,
                              nearest(name, {"hour", "dealer-limit", "tools"})
                                  ? did_you_mean(name, {"hour", "dealer-limit", "tools"})
                                  : "; known: hour, dealer-limit, tools, purse.NAME"));
  }
}

std::map<std::string, std::string> settings(const Book& book) {
  std::map<std::string, std::string> all;
  auto& rows = book.query("SELECT name, value FROM setting");
  while (rows.executeStep()) all[rows.getColumn(0).getString()] = rows.getColumn(1).getString();
  return all;
}

Money hour(const Book& book) {
  const auto value = book.setting("hour");
  return value ? Money::parse(*value, book.currency()) : Money{};
}

std::string purse_kind(const Book& book, const std::string& purse) {
  if (const auto set = book.setting("purse." + purse)) return *set;
  if (purse.find("card") != std::string::npos) return "liability";
  if (purse.size() >= 6 && purse.compare(purse.size() - 6, 6, "credit") == 0) return "credit";
  return "asset";
}

void close(Recording& recording, Day day) {
  if (day > recording.today())
    throw Refusal(
        fmt::format("close: the day {} has not come yet, expected {} at the latest: a close cannot be taken "
                    "back",
                    day.iso(), recording.today().iso()));
  const auto closed = closed_until(recording.book());
  if (closed && day < *closed)
    throw Refusal(fmt::format("close: the book is closed up to {} already, expected that day or a later one",
                              closed->iso()));
  write(recording, "closed", day.iso());
}

}  // namespace nonrunner::book
