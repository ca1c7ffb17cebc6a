#include "book/ledger/stands.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "book/ledger/details.h"
#include "book/ledger/purposes.h"
#include "book/ledger/query.h"
#include "exact/ends.h"

namespace nonrunner::book {

namespace {

using Account = std::pair<std::string, std::string>;  // kind and car
using ByDay = std::map<Day, Money>;

// Hours go by the same rules as money: they are counted here in thousandths, as money is in minor units.
const Account own_hours{"own hours", ""}, paid_hours{"paid hours", ""};
bool is_hours(const Account& account) { return account == own_hours || account == paid_hours; }

constexpr EntryId most_entries = 1'000'000'000;

// What stands is parted by purposes as well; money in is positive there.
Account account_of(const Detail& purpose) {
  const std::string& kind = text_in(purpose, cells::purpose::kind);
  const std::string& car = text_in(purpose, cells::purpose::vehicle);
  if (is_put_into_a_car(kind_of_purpose(kind))) return {account::vehicle_cost, car};
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
  if (day == entry.day) return;  // there it stands by itself
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
        !std::holds_alternative<std::monostate>(detail.cells[cells::purpose::stands]))
      return Money{};
    return turned(-Money::of_minor(number_in(detail, cells::purpose::amount)), negative);
  };
  entry.details = split(entry.details, stands, named, [&](Detail detail, Money amount, bool under) {
    detail.cells[cells::purpose::amount] = turned(-amount, negative).minor();
    if (under) detail.cells[cells::purpose::stands] = day.iso();
    return detail;
  });
}

// Whose place an entry takes, and the day that it was given.
struct Said {
  EntryId before = 0;     // 0: it takes no place
  bool replaces = false;  // a quick line's, as its full paper; else it puts right
  Day given;
};
Said said_by(const Book& book, const Entry& entry) {
  Said said{0, false, entry.day};
  row(book,
      "SELECT coalesce(p.takes, 0), coalesce(p.how = 'replaces', 0), coalesce(d.day, e.day) FROM entry e "
      "LEFT JOIN place p ON p.entry = e.entry AND p.how IN ('corrects', 'replaces') LEFT JOIN printed d ON "
      "d.entry = "
      "e.entry WHERE e.entry = :entry ORDER BY p.how LIMIT 1",
      {{":entry", entry.id}}, [&](const Row& of) { of.into(said.before, said.replaces, said.given); });
  return said;
}

// What one account was brought. `main`: by the first, which goes along where the day is put right; `others`: what was more
// of it later, which stays under the days on which it came.
struct Parts {
  Money main;
  ByDay others;
};

// An entry and those before it whose place it took, from the oldest on that counted until another one came.
struct Places {
  Day main, given;
  bool late =
      false;  // the first was typed when its day was closed already, and stood under the first open one
  bool replaced = false;  // a quick line gave its place to its paper, and the day was not put right since
  std::map<Account, Parts> brought;

  // The next one was given the day `now` and bears `bears`.
  void go_on(bool replaces, Day now, Day bears) {
    if (replaces) {
      main = std::min(main, bears);
      replaced = true;
    } else if (now != given) {
      replaced = false;
      if (!late || bears == now) main = now, late = false;
    }
    given = now;
  }
  void take(const Account& account, Day day, Money sum, bool as_main) {
    Parts& parts = brought[account];
    const auto other = parts.others.find(day);
    const Money known =
        (day == main ? parts.main : Money{}) + (other == parts.others.end() ? Money{} : other->second);
    const Money more = sum - known;
    if (is_zero(more) || is_negative(more) != is_negative(sum)) return;
    (as_main && day == main ? parts.main : parts.others[day]) += more;
  }
};

// What the shelf's average by days came to besides for a draw, until it was taken back: its share by pieces, where the car
// drew more than once that day.
Money averaged(const Book& book, const Entry& draw, const Detail& row) {
  static const std::string of_the_day =
      "FROM shelf s JOIN entry e USING (entry) LEFT JOIN entry v ON v.voids = e.entry, (SELECT coalesce("
      "(SELECT r.entry FROM entry r WHERE r.voids = :draw), 1 << 62) AS back) WHERE s.item = :item AND "
      "s.vehicle = :car AND s.about = :about AND s.what = 'draw' AND e.entry < back AND coalesce(v.entry >= "
      "back, 1)";
  const auto sum_of = [&](const std::string& what) {
    return *first<std::int64_t>(book, "SELECT coalesce(sum(" + what + "), 0) " + of_the_day,
                                {{":draw", draw.id},
                                 {":item", text_in(row, cells::shelf::item)},
                                 {":car", text_in(row, cells::shelf::vehicle)},
                                 {":about", text_in(row, cells::shelf::about)}});
  };
  const std::int64_t more = sum_of("iif(e.kind = 'average', -s.amount, 0)"),
                     drawn = sum_of("iif(e.kind = 'draw', s.quantity, 0)"),
                     own = number_in(row, cells::shelf::quantity);
  return drawn == 0 ? Money{} : Money::of_minor(scaled(more, own, drawn, Rounding::half_away));
}

void add_hours(std::map<Account, ByDay>& here, const Entry& entry) {
  const auto add = [&](const Account& account, Day day, const Cell& hours) {
    const Money count = Money::of_minor(std::get<std::int64_t>(hours));
    here[account][day] += count;
    if (day != entry.day) here[account][entry.day] -= count;  // of its labour, which is counted whole
  };
  for (const Detail& detail : entry.details) {
    if (detail.table == detail_table("labour")) {
      add(own_hours, entry.day, detail.cells[cells::labour::own]);
      add(paid_hours, entry.day, detail.cells[cells::labour::paid]);
    } else if (detail.table == detail_table("stood")) {
      const Day day = Day::parse(text_in(detail, cells::stood::day));
      add(own_hours, day, detail.cells[cells::stood::own]);
      add(paid_hours, day, detail.cells[cells::stood::paid]);
    }
  }
}

std::map<Account, ByDay> brought_alone(const Book& book, const Entry& entry) {
  std::map<Account, ByDay> here;
  each<std::string, std::string, Day, Money>(
      book,
      "SELECT a.kind, a.name, c.stands, sum(c.amount) FROM counted c JOIN account a USING (account) WHERE "
      "c.entry = :entry AND a.kind IN ('vehicle cost', 'recovered', 'selling cost') GROUP BY 1, 2, 3",
      {{":entry", entry.id}}, [&](const std::string& kind, const std::string& car, Day day, Money sum) {
        here[{kind, car}][day] = sum;
      });
  add_hours(here, entry);
  if (entry.kind == "draw")
    for (const Detail& row : entry.details)
      if (row.table == detail_table("shelf"))
        here[{account::vehicle_cost, text_in(row, cells::shelf::vehicle)}][entry.day] +=
            averaged(book, entry, row);
  return here;
}

// Taken back as one that never was: it stands nowhere, and what took its place stands alone.
bool never_was(const Book& book, const Entry& entry) {
  return *first<bool>(book, "SELECT EXISTS (SELECT 1 FROM entry v WHERE v.voids = :entry AND v.day = :day)",
                      {{":entry", entry.id}, {":day", entry.day}});
}

using Chain = std::vector<std::pair<Entry, Said>>;
// From the first on to the newest.
Chain chain_of(const Book& book, EntryId newest) {
  Chain chain;
  for (EntryId id = newest; id != 0; id = chain.back().second.before) {
    Entry entry = load_entry(book, id);
    const Said said = said_by(book, entry);
    chain.emplace_back(std::move(entry), said);
  }
  std::reverse(chain.begin(), chain.end());
  return chain;
}

Places taken_by(const Book& book, EntryId newest);

// What the other quick lines had brought whose place a paper took, beside the one that it names: of those that were.
void take_others(const Book& book, EntryId named, Places& places) {
  const auto gone = first<EntryId>(book, "SELECT entry FROM entry WHERE voids = :named", {{":named", named}});
  if (!gone) return;
  for (const GivenPlace& other : places_given(book, *gone)) {
    if (never_was(book, load_entry(book, other.quick))) continue;
    const Places its = taken_by(book, other.quick);
    for (const auto& [account, parts] : its.brought) {
      ByDay& days = places.brought[account].others;
      if (!is_zero(parts.main)) days[its.main] += parts.main;
      for (const auto& [day, amount] : parts.others) days[day] += amount;
    }
  }
}

Places taken_by(const Book& book, EntryId newest) {
  const Chain chain = chain_of(book, newest);
  // Of those that never were only the days are followed. Where none of them was, the newest is the one whose place is taken.
  const auto first_that_was = std::find_if(chain.begin(), std::prev(chain.end()),
                                           [&](const auto& each) { return !never_was(book, each.first); });
  Places places;
  for (auto each = chain.begin(); each != chain.end(); ++each) {
    const auto& [entry, said] = *each;
    if (each == chain.begin()) {
      places.main = entry.day;
      places.given = said.given;
      places.late = entry.day > said.given;
    } else {
      places.go_on(said.replaces, said.given, entry.day);
      if (said.replaces) take_others(book, said.before, places);
    }
    const bool is_first = each == first_that_was;
    if (each < first_that_was || (!is_first && never_was(book, entry))) continue;
    for (const auto& [account, days] : brought_alone(book, entry))
      for (const auto& [day, sum] : days) places.take(account, day, sum, is_first);
  }
  return places;
}

// Under which days the hours stand that the entry brings, own and paid, but for what stands under its own.
std::map<Day, std::array<Money, 2>> hours_under(const Entry& entry, const Places& places) {
  std::map<Day, std::array<Money, 2>> all;
  for (const Detail& detail : entry.details) {
    if (detail.table != detail_table("labour")) continue;
    const std::array<Account, 2> accounts = {own_hours, paid_hours};
    for (std::size_t i = 0; i < accounts.size(); ++i) {
      const auto brought = places.brought.find(accounts[i]);
      if (brought == places.brought.end()) continue;
      Money left = Money::of_minor(number_in(detail, i == 0 ? cells::labour::own : cells::labour::paid));
      const auto put = [&](Day day, Money hours) {
        if (day == entry.day) return;
        const Money stands = std::clamp(hours, Money{}, left);
        if (!is_zero(stands)) all[day][i] += stands;
        left -= stands;
      };
      put(places.main, brought->second.main);
      for (const auto& [day, hours] : brought->second.others) put(day, hours);
    }
  }
  return all;
}

// Sold, or written off.
bool ends_a_life(const Entry& entry) {
  return std::any_of(entry.details.begin(), entry.details.end(), [](const Detail& detail) {
    if (detail.table != detail_table("life")) return false;
    const std::string& turn = text_in(detail, cells::life::turn);
    return turn == "sold" || turn == "finished";
  });
}

// On an open day, but for a paper that bears the first one in the place of a quick line of before.
bool stands_by_itself(Day bears, Day given, const Places& places) {
  return bears == given && !places.replaced;
}

}  // namespace

void Draft::stands_under(Day day, const std::string& vehicle, Money brought) {
  if (brought > Money{}) put_under(entry_, {account::vehicle_cost, vehicle}, day, brought);
}

void Draft::stands_as(EntryId corrected) {
  Places places = taken_by(recording_.book(), corrected);
  places.go_on(false, given_, entry_.day);
  if (stands_by_itself(entry_.day, given_, places)) return;
  for (const auto& [account, parts] : places.brought) {
    if (is_hours(account)) continue;
    put_under(entry_, account, places.main, parts.main);
    for (const auto& [day, amount] : parts.others) put_under(entry_, account, day, amount);
  }
  for (const auto& [day, hours] : hours_under(entry_, places))
    detail("stood", {day.iso(), hours[0].minor(), hours[1].minor()});
  if (ends_a_life(entry_) && places.main != entry_.day) detail("ended", {places.main.iso()});
}

std::optional<Day> ended_under(const Book& book, const Entry& entry) {
  if (!ends_a_life(entry)) return std::nullopt;
  const Said said = said_by(book, entry);
  if (said.before == 0 || said.replaces) return std::nullopt;
  Places places = taken_by(book, said.before);
  places.go_on(false, said.given, entry.day);
  const bool stands_alone = stands_by_itself(entry.day, said.given, places);
  return stands_alone || places.main == entry.day ? std::nullopt : std::optional(places.main);
}

std::vector<Stood> stood_for_paper(const Book& book, EntryId quick, Day given, Day bears) {
  Places places = taken_by(book, quick);
  places.go_on(true, given, bears);
  std::vector<Stood> all;
  for (const auto& [account, parts] : places.brought) {
    if (account.first != account::vehicle_cost) continue;
    all.push_back({account.second, places.main, parts.main});
    for (const auto& [day, amount] : parts.others) all.push_back({account.second, day, amount});
  }
  return all;
}

std::vector<GivenPlace> places_given(const Book& book, EntryId before) {
  std::vector<GivenPlace> all;
  for (EntryId id = before - 1; id > 0; --id) {
    const Entry entry = load_entry(book, id);
    if (entry.kind == "average") continue;
    if (!entry.voids) break;
    if (!*first<bool>(book,
                      "SELECT EXISTS (SELECT 1 FROM place WHERE entry = :entry AND how = 'gives place')",
                      {{":entry", id}}))
      break;
    all.push_back({*entry.voids, entry.day});
  }
  std::reverse(all.begin(), all.end());
  return all;
}

std::optional<Day> day_of_quick_line(const Book& book, EntryId corrected, Day given) {
  const Places places = taken_by(book, corrected);
  return places.replaced && places.given == given ? std::optional(places.main) : std::nullopt;
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

}  // namespace nonrunner::book
