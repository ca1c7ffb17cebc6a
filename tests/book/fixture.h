// A shop for a test: a book in a temporary folder that goes with it, and short words for what stories about a
// book need. Events are written as in an events file, with lines broken anywhere; the day is 2025-06-30 at
// noon (UTC) unless a story moves it.
#pragma once
#include <catch2/catch.hpp>
#include <filesystem>
#include <initializer_list>
#include <string>
#include <vector>

#include "book/care/check.h"
#include "book/ledger/book.h"
#include "book/questions/figures.h"
#include "commands/hints.h"
#include "exact/money.h"

namespace Catch {
template <>
struct StringMaker<nonrunner::Money> {
  static std::string convert(nonrunner::Money);
};
template <>
struct StringMaker<nonrunner::Quantity> {
  static std::string convert(nonrunner::Quantity);
};
template <>
struct StringMaker<nonrunner::Day> {
  static std::string convert(nonrunner::Day);
};
}  // namespace Catch

namespace nonrunner::book {

// A folder of its own under the system's temporary one, removed with everything in it.
class TemporaryFolder {
 public:
  TemporaryFolder();
  ~TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

Money usd(const std::string& amount);
Day on(const std::string& iso);

class Shop {
 public:
  explicit Shop(const std::string& currency = "USD");

  Day today{2025, 6, 30};
  std::string now = "2025-06-30T12:00:00Z";

  Book& book() { return *book_; }
  std::filesystem::path folder() const { return folder_.path(); }
  std::filesystem::path file() const { return folder_.path() / "shop.book"; }
  void close() { book_.reset(); }  // nothing of ours holds the file
  void reopen();

  // Records the events of "{ do = ... }, { do = ... }", all or nothing; returns the number of the last entry.
  EntryId post(const std::string& events);
  // Records the events of a job of sample-jobs/, with the files that they name.
  void post_sample(const std::string& name);
  // What the first refused event says, whole, without the place in the file; "accepted" where none is
  // (nothing is kept).
  std::string refusal(const std::string& events);
  bool wary = false;  // refusal() of what is entered now; else of a book that is restored
  // What was remarked on by the last post().
  std::vector<std::string> remarks;
  // An action in a recording of its own, kept; and the same, expected to be refused.
  template <class Action>
  void record(Action action) {
    Recording recording(book(), now, today);
    action(recording);
    recording.keep();
  }
  template <class Action>
  std::string refusal_of(Action action) {
    Recording recording(book(), now, today);
    return said([&] { action(recording); });
  }

  VehicleFigures show(const std::string& tag, std::optional<Day> day = {});
  Money purse(const std::string& name, std::optional<Day> day = {}) {
    return balance(account::purse, name, day);
  }
  Money balance(const std::string& kind, const std::string& name = "", std::optional<Day> day = {});
  NamedBalance shelf(const std::string& item);
  std::vector<Due> due(std::optional<Day> day = {}) { return dues(book(), day); }
  Health health() { return check(book()); }

  // Raw SQL through the book's own connection; returns what it was refused with, "done" where it was not. A
  // transaction that it leaves open is taken back.
  std::string sql(const std::string& statements);

  // Runs `action` and gives the text of the Refusal, WrongUsage or MachineFailure that it ends with, its hint
  // said as the command line says it.
  template <class Action>
  static std::string said(Action action) {
    try {
      action();
    } catch (const std::runtime_error& error) {
      return commands::with_hint(error);
    }
    return "accepted";
  }

 private:
  EntryId record_events(Recording&, const std::string& events);
  TemporaryFolder folder_;
  std::unique_ptr<Book> book_;
};

// The book at `path` changed by somebody with another program: plain SQLite, none of our pragmas. Fails the
// test where SQLite does not let them.
void behind_its_back(const std::filesystem::path& path, const std::string& statements);

}  // namespace nonrunner::book
