// What is still to come, counted state by state the slow and obvious way: invented cars whose correction may fail and be
// followed by others that share its lines, with this and that bought and worked already. The way here knows neither the
// estimate nor the chain of the program; it only knows how the car was made up.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include "answers/budget.h"
#include "book/events/appraisals.h"
#include "book/fixture.h"
#include "sanitized.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

struct Need {
  char sort;  // p part, c consumable, s work sent out, h hours
  std::string name;
  int pieces = 1;  // or hours
};
struct Made {
  double works = 1;
  std::vector<Need> needs;
};

// One price for each name, whichever correction names it.
int price_of(const std::string& name) { return 7 + static_cast<int>(name.back() - 'a') * 13; }

class Invented {
 public:
  explicit Invented(std::uint64_t seed) : die_(seed) {
    const int count = from_to(1, 3);
    for (int i = 0; i < count; ++i) {
      Made made;
      made.works = i + 1 < count ? from_to(2, 9) / 10.0 : (from_to(0, 2) > 0 ? 1 : 0.8);
      for (const char sort : {'p', 'c', 's', 'h'})
        for (char each = 'a'; each <= 'd'; ++each)
          if (from_to(0, 2) > 0)
            made.needs.push_back(
                {sort, std::string(1, sort) + " thing " + each, sort == 's' ? 1 : from_to(1, 3)});
      chain_.push_back(made);
    }
  }
  int from_to(int first, int last) {
    return first + static_cast<int>(die_() % static_cast<unsigned>(last - first + 1));
  }

  std::string job() const {
    std::string text =
        "[vehicle]\ntag = \"pip\"\ndescription = \"invented\"\ncomplaint = \"stands\"\n[deal]\nasking = "
        "500\nfees = 0\n"
        "[shop]\nhour = 20\npace = 1\nhours_per_week = 10\n[sale]\ndays = 10\ncosts = 0\n[aims]\nprofit = "
        "0\n[value]\n"
        "sound = 9000\n[[cause]]\nname = \"x\"\nodds = 1\nfound = 300\ncorrection = \"make 0\"\n";
    for (std::size_t i = 0; i < chain_.size(); ++i) {
      text += fmt::format("[[correction]]\nname = \"make {}\"\nworks = {}\n", i, chain_[i].works);
      if (i + 1 < chain_.size()) text += fmt::format("otherwise = \"make {}\"\n", i + 1);
      const auto list = [&](const char* key, char sort, auto row) {
        std::string rows;
        for (const Need& need : chain_[i].needs)
          if (need.sort == sort) rows += (rows.empty() ? "" : ", ") + row(need);
        if (!rows.empty()) text += fmt::format("{} = [{}]\n", key, rows);
      };
      list("parts", 'p', [](const Need& need) {
        return fmt::format("{{ name = \"{}\", qty = {}, new = {} }}", need.name, need.pieces,
                           price_of(need.name));
      });
      list("consumables", 'c', [](const Need& need) {
        return fmt::format("{{ name = \"{}\", qty = {}, price = {} }}", need.name, need.pieces,
                           price_of(need.name));
      });
      list("sublet", 's', [](const Need& need) {
        return fmt::format("{{ name = \"{}\", price = {} }}", need.name, price_of(need.name));
      });
      list("operations", 'h', [](const Need& need) {
        return fmt::format("{{ name = \"{}\", hours = {} }}", need.name, need.pieces);
      });
    }
    return text;
  }

  // Books so much of a third of the names.
  void book(Shop& shop) {
    for (const auto& [name, sort] : names()) {
      if (from_to(0, 2) > 0) continue;
      const int count = from_to(1, 4);
      have_[name] = count;
      if (sort == 'h')
        shop.post(fmt::format(
            "{{ do = \"hours\", date = 2025-04-01, vehicle = \"pip\", operation = \"{}\", own = {} }}", name,
            count));
      else
        shop.post(fmt::format(
            "{{ do = \"receipt\", date = 2025-04-01, supplier = \"Cleave Yard\", paid = \"cash\", total = "
            "{0}.00, line = [{{ "
            "what = \"{1}\", qty = {2}, amount = {0}.00, kind = \"{3}\", to = \"pip\" }}], again = true }}",
            count * 5, name, count,
            sort == 'p'   ? "part"
            : sort == 'c' ? "consumable"
                          : "sublet"));
    }
  }

  struct ToCome {
    std::map<std::string, double> line;
    double cash = 0, hours = 0;
  };
  ToCome to_come() const {
    // How likely it is that the first 1, 2 ... of them are made, and no more.
    std::vector<double> chance;
    double left = 1;
    for (const Made& made : chain_) {
      chance.push_back(left * made.works);
      left *= 1 - made.works;
    }
    chance.back() += left;
    ToCome all;
    for (const auto& [name, sort] : names()) {
      std::vector<double> need(chain_.size(), 0);
      for (std::size_t state = 0; state < chain_.size(); ++state)
        for (std::size_t i = 0; i <= state; ++i)
          for (const Need& each : chain_[i].needs)
            if (each.name == name) need[state] += each.pieces;
      const double have = have_.contains(name) ? have_.at(name) : 0;
      double likeliest = 0, most = -1, expected = 0;
      for (std::size_t state = 0; state < chain_.size(); ++state) {
        if (need[state] > 0 && chance[state] > most) {
          most = chance[state];
          likeliest = need[state];
        }
        expected += chance[state] * std::max(0.0, need[state] - have);
      }
      const bool done = (sort == 'p' && have >= likeliest) || ((sort == 'c' || sort == 's') && have > 0);
      if (sort == 'h') {
        all.hours += expected;
        continue;
      }
      all.line[name] = done ? 0 : expected * price_of(name);
      all.cash += all.line[name];
    }
    return all;
  }

 private:
  std::map<std::string, char> names() const {
    std::map<std::string, char> all;
    for (const Made& made : chain_)
      for (const Need& need : made.needs) all[need.name] = need.sort;
    return all;
  }
  std::mt19937_64 die_;
  std::vector<Made> chain_;
  std::map<std::string, int> have_;
};

}  // namespace

TEST_CASE("what is to come is what the slow way counts state by state, on 60 invented cars",
          "[answers][states]") {
  int open = 0, shared = 0;
  for (std::uint64_t seed = 1; seed <= (sanitized ? 12 : 60); ++seed) {
    INFO("seed " << seed);
    Invented car(seed);
    Shop shop;
    shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 500.00, purse = "cash" })");
    shop.record([&](Recording& recording) {
      keep_appraisal(recording, "pip", on("2025-02-28"), 0, {car.job(), "", "{}"});
    });
    shop.post(R"({ do = "finding", date = 2025-03-02, vehicle = "pip", text = "seen", cause = "x" })");
    car.book(shop);
    const auto budget = answers::budget_of(shop.book(), "pip");
    REQUIRE(budget);
    const Invented::ToCome expected = car.to_come();
    for (const answers::BudgetLine& line : budget->lines) {
      INFO(line.estimate.what);
      if (!expected.line.contains(line.estimate.what)) continue;
      CHECK_THAT(static_cast<double>(line.to_come.minor()) / 100,
                 Catch::WithinAbs(expected.line.at(line.estimate.what), 0.0101));
      open += !is_zero(line.to_come);
      shared += line.chance() < 1;
    }
    CHECK_THAT(static_cast<double>(budget->cash_to_come.minor()) / 100,
               Catch::WithinAbs(expected.cash, 0.13));
    CHECK_THAT(budget->hours_to_come, Catch::WithinAbs(expected.hours, 1e-6));
  }
  if (sanitized) return;
  CHECK(open > 200);
  CHECK(shared > 100);
}
