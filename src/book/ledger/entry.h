// An entry on its way into the book: what an event moves (postings), what it says beside (details), and the
// seal.
//
// record() is the only road into the ledger. It refuses what no book may hold (limits.h), checks the balance
// before the database checks it again, computes the SHA-256 over the whole content and the hash of the entry
// before, and writes postings and details first, the entry last (see schema/0002-entries.sql).
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "book/ledger/book.h"
#include "book/ledger/event_text.h"
#include "exact/thousandths.h"

namespace nonrunner::book {

using EntryId = std::int64_t;
using Hash = std::array<std::uint8_t, 32>;

// Kinds of account, as schema/0001-shop.sql lists them.
namespace account {
inline constexpr const char* purse = "purse";
inline constexpr const char* vehicle_cost = "vehicle cost";
inline constexpr const char* recovered = "recovered";
inline constexpr const char* stock = "stock";
inline constexpr const char* core_deposit = "core deposit";
inline constexpr const char* tool_deposit = "tool deposit";
inline constexpr const char* tools = "tools";  // an expense; those named `tools_kept` an asset
inline constexpr const char* tools_kept = "asset";
inline constexpr const char* payable = "payable";
inline constexpr const char* buyer_deposit = "buyer deposit";
inline constexpr const char* sales_tax = "sales tax";
inline constexpr const char* owner = "owner";
inline constexpr const char* sales = "sales";
inline constexpr const char* recovered_income = "recovered income";
inline constexpr const char* deposit_kept = "deposit kept";
inline constexpr const char* cost_of_sale = "cost of sale";
inline constexpr const char* selling_cost = "selling cost";
inline constexpr const char* late_cost = "late cost";
inline constexpr const char* written_off = "written off";
inline constexpr const char* looking = "looking";
inline constexpr const char* overhead = "overhead";
}  // namespace account

// How an entry takes the place of another one, as schema/0026-place.sql lists it.
namespace how {
inline constexpr const char* corrects = "corrects";
inline constexpr const char* replaces = "replaces";    // a quick line's, as its full paper
inline constexpr const char* makes_way = "makes way";  // a reversal, for what puts right
inline constexpr const char* gives_place =
    "gives place";  // a reversal, for a paper that names another quick line
}  // namespace how

struct Posting {
  std::string kind;
  std::string name;
  Money amount;  // a debit is positive
  std::optional<Quantity> quantity;
  std::optional<Day> stands;  // the day under which it counts, where that is another than its entry's
};

using Cell = std::variant<std::monostate, std::int64_t, std::string>;
struct Detail {
  std::size_t table;  // index into detail_tables()
  std::vector<Cell> cells;
  bool operator==(const Detail&) const = default;
};
struct DetailTable {
  std::string name;
  std::string columns;  // without `entry`, in the order of `cells`
  std::size_t width;
};
const std::vector<DetailTable>& detail_tables();
std::size_t detail_table(std::string_view name);

struct Entry {
  EntryId id = 0;
  Day day;
  std::string kind;
  std::string event;
  std::optional<EntryId> voids;
  std::string recorded;
  std::vector<Posting> postings;
  std::vector<Detail> details;
};

// SHA-256 over the hash before and the entry's content, each field with its length, so that nothing can
// shift.
Hash sealed(const Entry&, const Hash& previous);
// The entry as the database holds it now.
Entry load_entry(const Book&, EntryId);

// What an amount about a car was for, as a report names it (schema/0011-facts.sql).
struct Purpose {
  std::string vehicle;
  std::string kind;  // a word of book/ledger/purposes.cpp
  std::string what;
  std::int64_t line = 0;  // the receipt line's number; 0: none
  std::optional<Quantity> quantity;
  Money amount;  // money in is positive
  std::optional<Day> stands;
};

class Draft {
 public:
  // A day that lies in a closed period gives way to the first open one, and a remark says so; the event keeps
  // the day that it was given.
  Draft(Recording& recording, std::string kind, Day day);
  EventText event;  // to be filled by the event; `do` and `date` stand in it already

  // Adds a posting; nothing for zero unless a quantity moves. Postings to one account are kept apart.
  void post(const std::string& kind, const std::string& name, Money amount,
            std::optional<Quantity> quantity = {}, std::optional<Day> stands = {});
  void detail(std::string_view table, std::vector<Cell> cells);
  void mention(const std::string& vehicle);  // once is enough
  void purpose(const Purpose&);  // nothing for an amount of zero, but for a sale and a receipt line
  void voids(EntryId entry) { entry_.voids = entry; }
  void takes_place(EntryId of, const char* how);
  // The day that it bears, where that is another than the one it was given; the event keeps the one given.
  void bears(Day day) { entry_.day = day; }
  Day day() const { return entry_.day; }
  // What it puts into the car stands under `day`, as far as `brought` goes; the rest under its own.
  void stands_under(Day day, const std::string& vehicle, Money brought);
  void settled() { settled_ = true; }  // it follows from others and changes nothing of the shelf
  EntryId record();

 private:
  // As far as the entry that it puts right, and those before that one, had brought it, it stands under the days under
  // which they stood; under the day that it was given, where that is another than theirs.
  void stands_as(EntryId corrected);
  void expect_purposes() const;
  void look_after(const Entry&) const;
  Recording& recording_;
  Entry entry_;
  Day given_;
  std::vector<std::string> mentioned_;
  bool settled_ = false;
};

std::int64_t account_id(Recording&, const std::string& kind,
                        const std::string& name);  // made where it is new
struct Balance {
  Money amount;
  Quantity quantity;
};
Balance balance_of(const Book&, const std::string& kind,
                   const std::string& name);  // zero where there is none

EntryId last_entry(const Book&);
// SQL for "entry e counts at the end of the day `day`" (a parameter such as "?2"): it bears a day up to then,
// is no reversal, and was not taken back by then. An entry that was taken back later counts until the day of
// its reversal; one that never was (its reversal bears its own day) counts on no day.
std::string counts_on(const std::string& day);
std::optional<Day> closed_until(const Book&);
Day open_day(const Book&, Day);  // that day, or the first open one where it lies in a closed period
Cell cell(const std::optional<Day>&);

}  // namespace nonrunner::book
