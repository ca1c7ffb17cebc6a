#include "book/fixture.h"

#include <sqlite3.h>

#include <algorithm>
#include <cstdlib>

#include "book/events/post.h"
#include "exact/hint.h"
#include "text/toml.h"

std::string Catch::StringMaker<nonrunner::Money>::convert(nonrunner::Money money) {
  return money.plain(nonrunner::Currency{});
}
std::string Catch::StringMaker<nonrunner::Quantity>::convert(nonrunner::Quantity quantity) {
  return quantity.shown();
}
std::string Catch::StringMaker<nonrunner::Day>::convert(nonrunner::Day day) { return day.iso(); }

namespace nonrunner::book {

TemporaryFolder::TemporaryFolder() {
  std::string name = (std::filesystem::temp_directory_path() / "nonrunner-XXXXXX").string();
  if (!::mkdtemp(name.data())) throw std::runtime_error("no temporary folder");
  path_ = name;
}

TemporaryFolder::~TemporaryFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

Money usd(const std::string& amount) { return Money::parse(amount, Currency{}); }
Day on(const std::string& iso) { return Day::parse(iso); }

Shop::Shop(const std::string& currency)
    : book_(std::make_unique<Book>(Book::create(file(), Currency::of(currency), "mi"))) {}

void Shop::reopen() {
  book_.reset();
  book_ = std::make_unique<Book>(Book::open(file()));
}

EntryId Shop::record_events(Recording& recording, const std::string& events) {
  // TOML keeps an inline table on one line; a story in a test may break it.
  std::string line = events;
  std::replace(line.begin(), line.end(), '\n', ' ');
  return book::post(recording, "event = [" + line + "]", "events.toml", folder(), {}).last;
}

EntryId Shop::post(const std::string& events) {
  Recording recording(book(), now, today);
  const EntryId last = record_events(recording, events);
  recording.keep();
  remarks = recording.remarks();
  return last;
}

void Shop::post_sample(const std::string& name) {
  const std::string folder = NONRUNNER_SOURCE "/sample-jobs/" + name, file = folder + "/events.toml";
  record([&](Recording& recording) { book::post(recording, read_file(file), file, folder, {}); });
}

std::string Shop::refusal(const std::string& events) {
  return refusal_of([&](Recording& recording) {
    recording.wary = wary;
    try {
      record_events(recording, events);
    } catch (const Refusal& refusal) {
      std::string text = refusal.what();
      while (text.rfind("events.toml:", 0) == 0) text.erase(0, text.find(": ") + 2);
      refuse_as(text, refusal);
    }
  });
}

VehicleFigures Shop::show(const std::string& tag, std::optional<Day> day) {
  return figures_of(book(), tag, today, day);
}

Money Shop::balance(const std::string& kind, const std::string& name, std::optional<Day> day) {
  for (const NamedBalance& each : balances(book(), kind, day))
    if (each.name == name) return each.amount;
  return Money{};
}

NamedBalance Shop::shelf(const std::string& item) {
  for (const NamedBalance& each : balances(book(), account::stock))
    if (each.name == item) return each;
  return {item, Money{}, Quantity{}};
}

std::string Shop::sql(const std::string& statements) {
  std::string result = "done";
  try {
    book().database().exec(statements);
  } catch (const SQLite::Exception& error) {
    result = error.what();
  }
  if (sqlite3_get_autocommit(book().database().getHandle()) == 0) book().database().exec("ROLLBACK");
  return result;
}

void behind_its_back(const std::filesystem::path& path, const std::string& statements) {
  sqlite3* other = nullptr;
  REQUIRE(sqlite3_open_v2(path.c_str(), &other, SQLITE_OPEN_READWRITE, nullptr) == SQLITE_OK);
  char* error = nullptr;
  const int status = sqlite3_exec(other, statements.c_str(), nullptr, nullptr, &error);
  const std::string what = error ? error : "";
  sqlite3_free(error);
  sqlite3_close(other);
  INFO(statements << ": " << what);
  REQUIRE(status == SQLITE_OK);
}

}  // namespace nonrunner::book
