// The book against the second bookkeeper: thousands of random events, the figures compared after each. A seed
// of your own and more events:  NONRUNNER_SEED=7 NONRUNNER_EVENTS=50000 .build/plain/tests "[agreement]"
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <set>

#include "book/care/export.h"
#include "book/events/post.h"
#include "book/fixture.h"
#include "book/ledger/settings.h"
#include "book/questions/board.h"
#include "book/questions/vehicle_money.h"
#include "book/random_events.h"
#include "sanitized.h"
#include "text/toml.h"
#include "words/due.h"

using namespace nonrunner;
using namespace nonrunner::book;
using second::Keeper;
using second::Number;
using second::Proposal;
using second::RandomEvents;

namespace {

// What differs first, in words; empty where both agree.
class Comparison {
 public:
  Comparison(const Book& book, const Keeper& keeper, int day)
      : book_(book), keeper_(keeper), today_(RandomEvents::calendar(day)) {}

  const std::string& apart() const { return apart_; }

  void whole() {
    places(account::purse, "purse", 1);
    places(account::tool_deposit, "tool deposit", 1);
    places(account::buyer_deposit, "held", -1);
    places(account::payable, "owed", -1);
    places(account::stock, "shelf", 1);
    same("owner", -one(account::owner), keeper_.sum("owner"));
    same("tools", one(account::tools), keeper_.sum("tools"));
    same("tools kept", balance_of(book_, account::tools, account::tools_kept).amount.minor(),
         keeper_.sum("tools kept"));
    same("overhead", one(account::overhead), keeper_.sum("overhead"));
    same("sales tax", -one(account::sales_tax), keeper_.sum("sales tax"));
    same("trial balance", trial_balance(book_).minor(), 0);
    dues();
  }

  void car(const std::string& tag) {
    const second::Car theirs = keeper_.car(tag);
    const VehicleFigures ours = figures_of(book_, tag, today_);
    const auto figure = [&](const char* name, Money amount, Number expected) {
      same(tag + " " + name, amount.minor(), expected);
    };
    if (shown(ours.life.state) != theirs.state) say(tag, shown(ours.life.state), theirs.state);
    figure("cost", ours.cost, theirs.cost);
    figure("late cost", ours.late_cost, theirs.late);
    figure("recovered before", ours.recovered_before, theirs.recovered_before);
    figure("recovered after", ours.recovered_after, theirs.recovered_after);
    figure("sales", ours.sales, theirs.sales);
    figure("selling costs", ours.selling_costs, theirs.selling);
    figure("deposit kept", ours.deposit_kept, theirs.kept);
    figure("deposit held", ours.deposit_held, theirs.held);
    figure("carried", ours.carried, theirs.carried);
    same(tag + " own hours", ours.own_hours.thousandths(), theirs.own);
    same(tag + " paid hours", ours.paid_hours.thousandths(), theirs.paid);
    same(tag + " distance", ours.distance.thousandths(), theirs.distance);
    figure("still brings", ours.still_brings.value_or(Money::of_minor(-1)), theirs.still_brings.value_or(-1));
    // The lines of the report: which of them came up to the sale, and which after it.
    Money costs, late, recovered, recovered_late;
    for (const MoneyLine& line : money_of(book_, tag)) {
      if (line.kind <= MoneyKind::other_cost) (line.after_sale ? late : costs) -= line.amount;
      if (line.kind == MoneyKind::recovered) (line.after_sale ? recovered_late : recovered) += line.amount;
    }
    same(tag + " cost by its lines", costs.minor(), ours.cost.minor());
    same(tag + " late cost by its lines", late.minor(), ours.late_cost.minor());
    same(tag + " recovered by its lines", recovered.minor(), ours.recovered_before.minor());
    same(tag + " recovered late by its lines", recovered_late.minor(), ours.recovered_after.minor());
    if (theirs.ended != 0) {
      figure("cash profit", ours.cash_profit.value_or(Money{}), theirs.cash_profit);
      figure("profit", ours.profit.value_or(Money{}), theirs.profit);
      same(tag + " days", ours.days.value_or(-1), theirs.ended_day - theirs.bought_day);
      Number lines = 0;
      for (const MoneyLine& line : money_of(book_, tag))
        if (line.kind != MoneyKind::due_back) lines += line.amount.minor();
      same(tag + " lines of the report", lines, theirs.cash_profit);
    }
    if (theirs.state == "sold" || theirs.state == "owned")
      figure("break-even", ours.break_even_price.value_or(Money{}), theirs.break_even);
    if (theirs.sales > 0 && theirs.state == "sold")
      same(tag + " margin in millionths", static_cast<Number>(std::llround(*ours.margin * 1e6)),
           second::half_away(theirs.cash_profit * 1'000'000, theirs.sales));
  }

  void board() {
    std::set<std::string> seen;
    for (const BoardRow& row : book::board(book_, today_)) {
      const second::Car theirs = keeper_.car(row.tag);
      seen.insert(row.tag);
      if (shown(row.state) != theirs.state) say(row.tag + " on the board", shown(row.state), theirs.state);
      same(row.tag + " carried on the board", row.carried.minor(), theirs.carried);
      same(row.tag + " cost on the board", row.cost.minor(), theirs.cost_less_recovered);
      if (row.cash_profit)
        same(row.tag + " profit on the board", row.cash_profit->minor(), theirs.cash_profit);
    }
  }

  void on(int day) {
    for (const auto& [kind, place] : {std::pair{account::purse, "purse"}, {account::stock, "shelf"}}) {
      for (const NamedBalance& each : balances(book_, kind, RandomEvents::calendar(day))) {
        const std::string what =
            fmt::format("{} {} on {}", place, each.name, RandomEvents::calendar(day).iso());
        same(what, each.amount.minor(), keeper_.sum_on(std::string(place) + " " + each.name, day));
        if (kind == account::stock)
          same(what + ", pieces", each.quantity.thousandths(), keeper_.pieces_on(each.name, day));
      }
    }
  }

 private:
  template <class Ours, class Theirs>
  void say(const std::string& what, const Ours& ours, const Theirs& theirs) {
    if (apart_.empty())
      apart_ = fmt::format("{}: the book says {}, the second bookkeeper {}", what, ours, theirs);
  }
  void same(const std::string& what, Number ours, Number theirs) {
    if (ours != theirs) say(what, ours, theirs);
  }
  Number one(const char* kind) { return balance_of(book_, kind, "").amount.minor(); }

  void places(const char* kind, const std::string& place, Number sign) {
    std::map<std::string, Number> ours, theirs;
    for (const NamedBalance& each : balances(book_, kind)) {
      ours[each.name] = sign * each.amount.minor();
      if (place == "shelf")
        same("pieces of " + each.name, each.quantity.thousandths(), keeper_.pieces(each.name));
    }
    for (const std::string& name : keeper_.places(place)) theirs[name] = keeper_.sum(place + " " + name);
    for (const auto& [name, amount] : ours) same(place + " " + name, amount, theirs[name]);
    for (const auto& [name, amount] : theirs) same(place + " " + name, ours[name], amount);
  }

  void dues() {
    std::map<std::string, Number> ours, theirs = keeper_.cores_due();
    for (const Due& due : book::dues(book_))
      ours[due.line.empty() ? nonrunner::words::called(due) : due.line] = due.amount.minor();
    for (const std::string& tool : keeper_.places("tool deposit"))
      if (const Number out = keeper_.sum("tool deposit " + tool); out != 0)
        theirs["deposit on " + tool] = out;
    if (const Number credit = keeper_.sum("purse yard-credit"); credit > 0)
      theirs["credit in the purse yard-credit"] = credit;
    for (const auto& [what, amount] : ours)
      same("due: " + what, amount, theirs.contains(what) ? theirs[what] : 0);
    for (const auto& [what, amount] : theirs)
      same("due: " + what, ours.contains(what) ? ours[what] : 0, amount);
    std::vector<int> waiting;
    for (const Waiting& each : tray(book_)) waiting.push_back(static_cast<int>(each.entry));
    if (waiting != keeper_.quick_lines()) say("tray", waiting.size(), keeper_.quick_lines().size());
  }

  const Book& book_;
  const Keeper& keeper_;
  Day today_;
  std::string apart_;
};

Number from_environment(const char* name, Number otherwise) {
  const char* value = std::getenv(name);
  return value ? std::atoll(value) : otherwise;
}

// The tags that an event names: those whose figures it may have changed.
std::vector<std::string> tags_in(const std::string& toml, const Keeper& keeper) {
  std::vector<std::string> tags;
  for (const std::string& tag : keeper.tags()) {
    const auto at = toml.find(tag);
    if (at != std::string::npos && !std::isdigit(static_cast<unsigned char>(toml[at + tag.size()])))
      tags.push_back(tag);
  }
  return tags;
}

// However many events there are, none lies in days to come.
const Day far_off(2199, 1, 1);

struct Run {
  Shop shop;
  Keeper keeper;
  std::string apart;  // what differed, with the event that it came after
  int accepted = 0, refused = 0, voided = 0, replaced = 0;

  void go(std::uint64_t seed, Number events) {
    RandomEvents random(seed, keeper);
    shop.today = far_off;
    keeper.hour = 2000;
    shop.record([](Recording& recording) { set(recording, "hour", "20"); });
    auto recording = std::make_unique<Recording>(shop.book(), shop.now, shop.today);
    for (Number n = 0; n < events && apart.empty(); ++n) {
      const int next = static_cast<int>(last_entry(shop.book())) + 1;
      Proposal proposal = random.next(next);
      // What may be refused is tried in a recording of its own, so that nothing of it stays.
      if (proposal.fate != Proposal::Fate::accepted) recording = kept_and_begun(std::move(recording));
      std::string said;
      EntryId entry = 0;
      try {
        entry =
            book::post(*recording, "event = [" + proposal.toml + "]", "events.toml", shop.folder(), {}).last;
      } catch (const Refusal& refusal) {
        said = refusal.what();
      }
      if (said.empty()) {
        ++accepted;
        voided += proposal.toml.find("\"void\"") != std::string::npos;
        replaced += proposal.toml.find("replaces = ") != std::string::npos;
        keeper.begin(static_cast<int>(entry), random.day());
        proposal.apply();
      } else {
        ++refused;
        recording.reset();
        recording = std::make_unique<Recording>(shop.book(), shop.now, shop.today);
      }
      const std::string begins = "events.toml:1: " + proposal.refusal;
      if (said.empty() ? proposal.fate == Proposal::Fate::refused
                       : proposal.fate == Proposal::Fate::accepted || said.rfind(begins, 0) != 0)
        apart = said.empty() ? "accepted, but it had to be refused" : "refused: " + said;
      Comparison comparison(shop.book(), keeper, random.day());
      comparison.whole();
      for (const std::string& tag : n % 50 == 0 ? keeper.tags() : tags_in(proposal.toml, keeper))
        comparison.car(tag);
      if (n % 50 == 0) comparison.board();
      if (apart.empty()) apart = comparison.apart();
      if (!apart.empty())
        apart = fmt::format("seed {}, event {} (entry {}): {}\n{}", seed, n, entry, proposal.toml, apart);
      if (n % 400 == 399 && random.day() > 40) {
        keeper.closed = random.day() - 40;
        close(*recording, RandomEvents::calendar(keeper.closed));
      }
    }
    recording->keep();
    recording.reset();
    for (int day = 0; day <= random.day() && apart.empty(); day += 7) {
      Comparison comparison(shop.book(), keeper, random.day());
      comparison.on(day);
      apart = comparison.apart();
    }
  }

 private:
  std::unique_ptr<Recording> kept_and_begun(std::unique_ptr<Recording> recording) {
    recording->keep();
    recording.reset();
    return std::make_unique<Recording>(shop.book(), shop.now, shop.today);
  }
};

}  // namespace

TEST_CASE("the second bookkeeper agrees with the book after each of thousands of random events",
          "[book][agreement]") {
  const Number events = from_environment("NONRUNNER_EVENTS", 1000);
  const Number first = from_environment("NONRUNNER_SEED", 1),
               last = sanitized || std::getenv("NONRUNNER_SEED") ? first : first + 2;
  for (Number seed = first; seed <= last; ++seed) {
    Run run;
    run.go(static_cast<std::uint64_t>(seed), events);
    CHECK(run.apart == "");
    WARN(fmt::format(
        "seed {}: {} events accepted, of them {} voids and {} papers that replace a quick line; {} refused",
        seed, run.accepted, run.voided, run.replaced, run.refused));
    CHECK(run.accepted > events * 8 / 10);
    CHECK(run.voided > events / 100);
    CHECK(run.replaced > events / 200);
    const Health health = run.shop.health();
    CHECK(health.findings.empty());
    CHECK(health.sound);
    CHECK(health.entries == last_entry(run.shop.book()));

    // Book -> events -> book: the same figures.
    const auto folder = run.shop.folder() / "export";
    export_to(run.shop.book(), folder, true, run.shop.today);
    Shop again;
    again.today = far_off;
    again.record([&](Recording& recording) {
      post(recording, read_file((folder / "events.toml").string()), "events.toml", folder, {});
    });
    Comparison comparison(again.book(), run.keeper, 4000);
    comparison.whole();
    comparison.board();
    for (const std::string& tag : run.keeper.tags()) comparison.car(tag);
    for (int day = 0; day < 4000; day += 30) comparison.on(day);
    CHECK(comparison.apart() == "");
    CHECK(last_entry(again.book()) == last_entry(run.shop.book()));
    CHECK(again.health().findings.empty());
  }
}
