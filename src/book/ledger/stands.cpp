#include "book/ledger/stands.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/ledger/query.h"
#include "exact/ends.h"
#include "text/toml.h"

namespace nonrunner::book {

namespace {

using Account = std::pair<std::string, std::string>;  // kind and car
using ByDay = std::map<Day, Money>;

constexpr EntryId most_entries = 1'000'000'000;

// What stands is parted by purposes as well; money in is positive there.
Account account_of(const Detail& purpose) {
  const std::string& kind = std::get<std::string>(purpose.cells[1]);
  const std::string& car = std::get<std::string>(purpose.cells[0]);
  if (is_cost_kind(kind)) return {account::vehicle_cost, car};
  return {kind == "recovered"      ? account::recovered
          : kind == "selling cost" ? account::selling_cost
                                   : "",
          car};
}

Money turned(Money amount, bool negative) { return negative ? -amount : amount; }

// Splits what `amount_of` finds in each row, in their order, into what goes under `day` and what is left.
template <class Row, class Amount, class Stand>
std::vector<Row> split(const std::vector<Row>& rows, Money left, Amount amount_of, Stand stand) {
  std::vector<Row> all;
  for (const Row& row : rows) {
    const Money amount = amount_of(row);
    const Money taken = std::clamp(amount, Money{}, std::max(left, Money{}));
    if (taken <= Money{}) {
      all.push_back(row);
      continue;
    }
    all.push_back(stand(row, taken, true));
    if (taken != amount) all.push_back(stand(row, amount - taken, false));
    left -= taken;
  }
  return all;
}

// Of what the entry moves on the account and what stands nowhere yet, up to `brought` goes under the day.
void put_under(Entry& entry, const Account& account, Day day, Money brought) {
  const bool negative = is_negative(brought);
  const auto moved = [&](const Posting& posting) {
    const bool ours = posting.kind == account.first && posting.name == account.second && !posting.stands;
    return ours ? turned(posting.amount, negative) : Money{};
  };
  Money sum;
  for (const Posting& posting : entry.postings) sum += moved(posting);
  const Money stands = std::clamp(sum, Money{}, turned(brought, negative));
  entry.postings = split(entry.postings, stands, moved, [&](Posting posting, Money amount, bool under) {
    posting.amount = turned(amount, negative);
    if (under) posting.stands = day;
    return posting;
  });
  const std::size_t table = detail_table("purpose");
  const auto named = [&](const Detail& detail) {
    if (detail.table != table || account_of(detail) != account ||
        !std::holds_alternative<std::monostate>(detail.cells[6]))
      return Money{};
    return turned(-Money::of_minor(std::get<std::int64_t>(detail.cells[5])), negative);
  };
  entry.details = split(entry.details, stands, named, [&](Detail detail, Money amount, bool under) {
    detail.cells[5] = turned(-amount, negative).minor();
    if (under) detail.cells[6] = day.iso();
    return detail;
  });
}

// The entry that this one puts right; 0: none.
EntryId corrected_by(const Entry& entry) {
  if (entry.event.find("corrects = ") == std::string::npos) return 0;
  const Value event = *parse_toml("e = " + entry.event, "the entry").find("e");
  const Value* corrects = event.find("corrects");
  return corrects ? std::stoll(corrects->text) : 0;
}

struct Brought {
  std::map<Account, ByDay> money;
  Day first;  // of the first of them: its own, and of its hours
  Hours own, paid;
};

// By this entry and by those that it put right: under each day the most that one of them had there.
Brought brought_by(const Book& book, EntryId id) {
  Brought all;
  for (; id != 0;) {
    const Entry entry = load_entry(book, id);
    std::map<Account, ByDay> here;
    each<std::string, std::string, Day, Money>(
        book,
        "SELECT a.kind, a.name, c.stands, sum(c.amount) FROM counted c JOIN account a USING (account) WHERE "
        "c.entry = :entry AND a.kind IN ('vehicle cost', 'recovered', 'selling cost') GROUP BY 1, 2, 3",
        {{":entry", id}}, [&](const std::string& kind, const std::string& car, Day day, Money sum) {
          Money& most = all.money[{kind, car}][day];
          if (turned(sum, is_negative(sum)) > turned(most, is_negative(most))) most = sum;
        });
    all.first = entry.day;
    all.own = all.paid = Hours{};
    for (const Detail& detail : entry.details)
      if (detail.table == detail_table("labour")) {
        all.own = Hours::of(std::get<std::int64_t>(detail.cells[2]));
        all.paid = Hours::of(std::get<std::int64_t>(detail.cells[3]));
      }
    id = corrected_by(entry);
  }
  return all;
}

// The day that the first of them was given.
Day given_day(const Book& book, EntryId id) {
  for (;;) {
    const Entry entry = load_entry(book, id);
    const EntryId before = corrected_by(entry);
    if (before != 0) {
      id = before;
      continue;
    }
    const Value event = *parse_toml("e = " + entry.event, "the entry").find("e");
    const Value* day = event.find("date");
    return day ? day->day : entry.day;
  }
}

}  // namespace

void Draft::stands_under(Day day, const std::string& vehicle, Money brought) {
  if (brought > Money{}) put_under(entry_, {account::vehicle_cost, vehicle}, day, brought);
}

bool Draft::stands_as(EntryId corrected) {
  if (entry_.day == given_) return false;  // an open day: it stands there
  const Book& book = recording_.book();
  const Brought brought = brought_by(book, corrected);
  const bool moved = given_day(book, corrected) != given_;
  const auto under = [&](Day day) { return moved && day == brought.first ? given_ : day; };
  for (const auto& [account, days] : brought.money)
    for (const auto& [day, amount] : days) put_under(entry_, account, under(day), amount);
  bool any = std::any_of(entry_.postings.begin(), entry_.postings.end(), [&](const Posting& posting) {
    return posting.stands && *posting.stands != entry_.day;
  });
  for (const Detail& each : std::vector<Detail>(entry_.details)) {
    if (each.table != detail_table("labour")) continue;
    const Hours own = std::min(brought.own, Hours::of(std::get<std::int64_t>(each.cells[2])));
    const Hours paid = std::min(brought.paid, Hours::of(std::get<std::int64_t>(each.cells[3])));
    if (own == Hours{} && paid == Hours{}) continue;
    detail("stood", {under(brought.first).iso(), own.thousandths(), paid.thousandths()});
    any = true;
  }
  return any;
}

Value without_corrects(Recording& recording, const Table& event,
                       const std::function<EntryId(EntryId)>& numbered) {
  Value bare = event.value();
  recording.corrects.reset();
  if (!event.has("corrects")) return bare;
  const EntryId id = numbered(event.whole("corrects", 1, most_entries));
  const std::string kind = event.text("do");
  if (!first<EntryId>(
          recording.book(),
          "SELECT e.entry FROM entry e JOIN entry v ON v.voids = e.entry WHERE e.entry = :entry AND "
          "e.kind = :kind",
          {{":entry", id}, {":kind", kind}}))
    event.refuse("corrects", "the number of an entry of the same kind that was taken back");
  recording.corrects = Corrects{id, kind};
  std::erase_if(bare.entries, [](const auto& each) { return each.first == "corrects"; });
  return bare;
}

bool stands_for_others(const Book& book, const Entry& entry) {
  const auto closed = closed_until(book);
  return corrected_by(entry) != 0 || (closed && entry.day <= *closed);
}

}  // namespace nonrunner::book
