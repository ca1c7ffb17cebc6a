// Days beat the order of typing: random stories of two years, typed in the order of days and shuffled as far
// as what is named comes before what names it, give the same figures on every day asked and in every year,
// and they are those of the bookkeeper by days.
#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "book/dated_figures.h"
#include "book/dated_random.h"
#include "book/dated_shop.h"

using namespace dated;

namespace {

// The events of a part in an order in which each may be typed: by day, or where there is a `die`, by chance.
std::vector<Event> in_order(const std::vector<Told>& part, std::mt19937_64* die) {
  std::vector<Event> order;
  std::vector<bool> typed(part.size(), false);
  while (order.size() < part.size()) {
    std::vector<std::size_t> ready;
    for (std::size_t i = 0; i < part.size(); ++i)
      if (!typed[i] &&
          std::all_of(part[i].after.begin(), part[i].after.end(), [&](std::size_t j) { return typed[j]; }))
        ready.push_back(i);
    std::size_t next = ready.front();
    for (const std::size_t i : ready)
      if (part[i].event.day < part[next].event.day) next = i;
    if (die) next = ready[(*die)() % ready.size()];
    typed[next] = true;
    order.push_back(part[next].event);
  }
  return order;
}

std::vector<std::vector<Event>> orders_of(const Story& story, std::uint64_t seed, bool shuffled) {
  std::mt19937_64 die(seed);
  std::vector<std::vector<Event>> parts;
  for (const auto& part : story.parts) parts.push_back(in_order(part, shuffled ? &die : nullptr));
  return parts;
}

Event closed_on(int day) { return event("close", day, "", 0); }

// Days to ask: each year's end and some days between, the last of all.
std::vector<int> days_asked(const Story& story, std::uint64_t seed, int count) {
  std::mt19937_64 die(seed);
  std::vector<int> days = {story.last, day("2024-12-31")};
  for (int i = 0; i < count; ++i)
    days.push_back(static_cast<int>(die() % static_cast<unsigned>(story.last + 1)));
  return days;
}

std::string identities_of(const Story& story) {
  for (const int year : {2024, 2025}) {
    const int first = day(std::to_string(year) + "-01-01"), last = day(std::to_string(year) + "-12-31");
    if (const std::string broken = identities(story.keeper, first, last); !broken.empty()) return broken;
  }
  return "";
}

}  // namespace

TEST_CASE("by days: the order of typing changes no figure of the bookkeeper by days", "[dated]") {
  int voided = 0, late = 0, endings = 0, closings = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    INFO("seed " << seed);
    const Story story = RandomStory(seed).tell(70);
    CHECK(identities_of(story) == "");
    closings += static_cast<int>(story.closings.size());
    for (const auto& part : story.parts)
      for (const Told& told : part) {
        voided += told.event.word == "void";
        late += told.event.later;
        endings += told.event.word == "sell" || told.event.word == "write off";
      }
    Bookkeeper again;
    again.hour = story.keeper.hour;
    const auto parts = orders_of(story, seed, true);
    for (std::size_t i = 0; i < parts.size(); ++i) {
      for (const Event& event : parts[i]) tell(again, event);
      if (i < story.closings.size()) tell(again, closed_on(story.closings[i]));
    }
    for (const int on : days_asked(story, seed, 8)) {
      INFO(iso(on));
      CHECK(apart(figures_of(again, on), figures_of(story.keeper, on)) == "");
    }
  }
  CHECK(voided > 100);
  CHECK(late > 60);
  CHECK(endings > 150);
  CHECK(closings > 10);
}
