#include "book/care/older_apart.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "book/care/compared.h"
#include "book/care/export.h"
#include "book/ledger/entry.h"

namespace nonrunner::book {

namespace {

using Tick = std::function<void(std::size_t, std::size_t)>;

// The places of entries among those that do not come by themselves.
class Places {
 public:
  explicit Places(const Book& book) : averages_(averages_of(book)) {}
  // Absent for one that does.
  std::optional<std::size_t> of(EntryId entry) const {
    const auto at = std::lower_bound(averages_.begin(), averages_.end(), entry);
    if (at != averages_.end() && *at == entry) return std::nullopt;
    return static_cast<std::size_t>(entry - (at - averages_.begin()));
  }
  EntryId at(std::size_t place) const {
    auto entry = static_cast<EntryId>(place);
    for (const EntryId average : averages_) entry += average <= entry ? 1 : 0;
    return entry;
  }
  const std::vector<EntryId>& averages() const { return averages_; }

 private:
  std::vector<EntryId> averages_;
};

// A book with what of it the comparison asks again and again.
struct Side {
  const Book& book;
  std::string counted;  // in SQL
  Places places;
  std::set<std::size_t> of_shelf;  // the places of entries that move something on or off one
};

Side side_of(const Book& book, const std::string& counted) {
  Side side{book, counted, Places(book), {}};
  each<EntryId>(
      book, "SELECT DISTINCT p.entry FROM posting p JOIN account a USING (account) WHERE a.kind = 'stock'",
      {}, [&](EntryId entry) {
        if (const auto place = side.places.of(entry)) side.of_shelf.insert(*place);
      });
  return side;
}

// What one place says: its rows one after the other. `sql`: the entry first.
struct Question {
  std::string what, sql;
  int columns = 0;
};

class Comparing {
 public:
  Comparing(const Book& book, const Book& again, const Tick& tick)
      : here_(side_of(book, but_for_its_closing(book))),
        there_(side_of(again, but_for_its_closing(book))),
        tick_(tick),
        first_(static_cast<std::size_t>(first_by_days(book))) {}  // no average was entered before

  OlderApart run() {
    entries();
    shelf_is_other_ = shelves_before_differ();
    events();
    postings();
    details();
    accounts();
    desk();
    return std::move(result_);
  }

 private:
  std::string said(const Side& side, const Question& question, std::size_t place) const {
    std::string text;
    rows(side.book, fmt::format("SELECT * FROM ({}) WHERE entry = {}", question.sql, side.places.at(place)),
         {}, [&](const Row& row) { text += (text.empty() ? "" : "; ") + text_of(row, question.columns, 1); });
    return text;
  }

  // By place, what its rows say as a number; 0 where there are none.
  std::vector<std::size_t> asked(const Side& side, const Question& question) const {
    std::vector<std::size_t> all;
    std::size_t looked_at = 0;
    rows(side.book, question.sql, {}, [&](const Row& row) {
      if (tick_ && ++looked_at % 1024 == 0) tick_(looked_at, looked_at);
      const auto place = side.places.of(row.number(0));
      if (!place) return;
      if (all.size() <= *place) all.resize(*place + 1, 0);
      std::string text = text_of(row, question.columns, 1);
      if (question.what == "events") renumber(text, side.places.averages());
      all[*place] = (all[*place] * 31 + std::hash<std::string>()(text)) | 1U;
    });
    return all;
  }

  // Tells of the first place before which by age, and of the first from there on which not, says something else.
  void compare(const Question& here, const Question& there) {
    std::vector<std::size_t> mine = asked(here_, here), theirs = asked(there_, there);
    const std::size_t most = std::max(mine.size(), theirs.size());
    mine.resize(most, 0);
    theirs.resize(most, 0);
    bool told[2] = {false, false};
    for (std::size_t place = 0; place < most; ++place) {
      const bool is_later = place >= first_;
      if (mine[place] == theirs[place] || told[is_later]) continue;
      told[is_later] = true;
      const std::string of = said(here_, here, place), other = said(there_, there, place);
      (is_later ? result_.later : result_.by_age)
          .push_back(fmt::format("{}: entry {}: {}, and {} when it is entered again", here.what,
                                 here_.places.at(place), parting(of, other), parting(other, of)));
    }
  }

  void entries() {
    const Question all{
        "entries", fmt::format("SELECT entry, day, kind FROM entry WHERE {} ORDER BY entry", here_.counted),
        3};
    compare(all, all);
    const EntryId theirs = last_entry(there_.book), mine = last_entry(here_.book);
    const EntryId more = (theirs - static_cast<EntryId>(there_.places.averages().size())) -
                         (mine - static_cast<EntryId>(here_.places.averages().size()));
    if (more > 0 && there_.counted == "true")
      result_.later.push_back(fmt::format("entries: {} more when it is entered again", more));
  }

  // What lies on the shelves at the end of the older layout, in pieces and in money.
  bool shelves_before_differ() const {
    const auto shelves = [&](const Side& side) {
      std::map<std::string, std::pair<std::int64_t, std::int64_t>> all;
      each<std::string, std::int64_t, std::int64_t>(
          side.book,
          fmt::format("SELECT a.name, sum(p.amount), sum(p.quantity) FROM posting p JOIN account a USING "
                      "(account) WHERE a.kind = 'stock' AND p.entry < {} GROUP BY a.name",
                      side.places.at(first_)),
          {}, [&](const std::string& name, std::int64_t amount, std::int64_t pieces) {
            all[name] = {amount, pieces};
          });
      return all;
    };
    return shelves(here_) != shelves(there_);
  }

  // In SQL: whether what the entry costs is another sum by age.
  std::string costs_by_age(const std::string& entry) const {
    if (!shelf_is_other_) return "0";
    return fmt::format(
        "EXISTS (SELECT 1 FROM posting s JOIN account t USING (account) WHERE s.entry = {} AND t.kind = "
        "'stock')",
        entry);
  }

  void events() {
    const auto of = [&](const Side& side) {
      return Question{"events",
                      fmt::format("SELECT entry, event FROM entry WHERE entry >= {} AND {} ORDER BY entry",
                                  side.places.at(first_), side.counted),
                      2};
    };
    compare(of(here_), of(there_));
  }

  void postings() {
    const auto of = [&](const Side& side) {
      return Question{
          "postings",
          fmt::format(
              "SELECT p.entry AS entry, a.kind, a.name, CASE WHEN {} THEN NULL ELSE p.amount END, "
              "p.quantity, p.stands FROM posting p JOIN account a USING (account) WHERE p.entry >= {} "
              "ORDER BY p.entry, p.seq",
              costs_by_age("p.entry"), side.places.at(first_)),
          6};
    };
    compare(of(here_), of(there_));
  }

  void details() {
    for (const DetailTable& table : detail_tables()) {
      if (table.name == "noted_before") continue;  // of the chain of notes, which begins anew
      // What was found was once kept in the order of typing: it is the same facts in another one.
      const char* order = table.name == "found" ? "what, name, value" : "rowid";
      // Which entry it is its event says as well, and there it is renumbered.
      const std::string columns = table.name == "place" ? "how" : table.columns;
      const bool is_money = table.name == "shelf" || table.name == "purpose" || table.name == "charged";
      const auto begins = first<EntryId>(here_.book, "SELECT entry FROM sealed_from WHERE what = :what",
                                         {{":what", table.name}});
      const auto from = here_.places.of(begins.value_or(1)).value_or(first_);
      const auto of = [&](const Side& side) {
        return Question{
            table.name,
            fmt::format(
                "SELECT d.entry AS entry, {} FROM {} d WHERE d.entry >= {} AND NOT {}{} ORDER BY d.entry, {}",
                columns, table.name, side.places.at(std::max(first_, from)),
                is_money ? costs_by_age("d.entry") : "0",
                table.name == "stood" ? " AND (d.own <> 0 OR d.paid <> 0)" : "", order),
            2 + static_cast<int>(std::count(columns.begin(), columns.end(), ','))};
      };
      compare(of(here_), of(there_));
    }
  }

  void accounts() {
    using Sums = std::map<std::pair<std::string, std::string>, std::string>;
    const auto sums = [](const Book& book) {
      Sums all;
      each<std::string, std::string, Money, Quantity>(
          book,
          "SELECT a.kind, a.name, s.amount, s.quantity FROM account_sum s JOIN account a USING (account) "
          "WHERE "
          "s.amount <> 0 OR s.quantity <> 0",
          {}, [&](const std::string& kind, const std::string& name, Money amount, Quantity pieces) {
            all[{kind, name}] = amount.plain(book.currency()) +
                                (pieces == Quantity{} ? "" : " (" + pieces.shown() + " pieces)");
          });
      return all;
    };
    Sums mine = sums(here_.book), theirs = sums(there_.book);
    for (const auto& each : theirs) mine.try_emplace(each.first, "nothing");
    static const std::set<std::string> the_same_at_any_age = {account::purse,         account::payable,
                                                              account::core_deposit,  account::tool_deposit,
                                                              account::buyer_deposit, account::owner};
    for (const auto& [name, sum] : mine) {
      const auto found = theirs.find(name);
      const std::string other = found == theirs.end() ? "nothing" : found->second;
      if (sum == other) continue;
      const bool is_later = the_same_at_any_age.contains(name.first);
      (is_later ? result_.later : result_.by_age)
          .push_back(fmt::format("accounts: {}{}: {}, and {} when it is entered again", name.first,
                                 name.second.empty() ? "" : " " + name.second, sum, other));
    }
  }

  void desk() {
    const std::vector<Compared> tables = {
        {"settings", "SELECT name, value FROM setting WHERE name <> 'closed' ORDER BY name", 2, false},
        {"comparables",
         "SELECT model, price, kind, odometer, year, grade, day, note FROM comparable ORDER BY comparable", 8,
         false},
        {"appraisals", "SELECT vehicle, day, entry <> 0, job FROM appraisal ORDER BY appraisal", 4, false},
        {"files taken in", "SELECT sha256, name, day FROM taken_in ORDER BY sha256", 3, false},
        {"headings",
         "SELECT vehicle, CASE WHEN what LIKE 'entry %' THEN 'an entry' ELSE what END AS of, heading FROM "
         "assigned WHERE what NOT LIKE 'line %' OR EXISTS (SELECT 1 FROM line l JOIN live_entry USING "
         "(entry) "
         "WHERE 'line ' || l.id = what) ORDER BY vehicle, of, heading",
         3, false}};
    for (const Compared& table : tables)
      if (const std::string text = apart(here_.book, there_.book, table, tick_); !text.empty())
        result_.later.push_back(text);
  }

  Side here_, there_;
  const Tick& tick_;
  std::size_t first_;  // the place from which on entries are read by days
  bool shelf_is_other_ = false;
  OlderApart result_;
};

}  // namespace

OlderApart older_apart(const Book& book, const Book& again, const Tick& tick) {
  return Comparing(book, again, tick).run();
}

}  // namespace nonrunner::book
