// Random events for the second bookkeeper: every kind, several cars, papers of up to five lines; most as they
// happen in a shop, some that have to be refused. The same seed gives the same events on every machine.
#pragma once
#include <functional>
#include <random>

#include "book/second_bookkeeper.h"
#include "exact/day.h"

namespace second {

struct Proposal {
  enum class Fate { accepted, refused, either };
  std::string toml;             // "{ do = ... }"
  std::function<void()> apply;  // what the second bookkeeper does when the book accepted it
  Fate fate = Fate::accepted;
  std::string refusal;  // how a refusal has to begin
};

class RandomEvents {
 public:
  RandomEvents(std::uint64_t seed, Keeper& keeper) : random_(seed), keeper_(keeper) {}
  Proposal next(int next_entry);
  int day() const { return day_; }
  static nonrunner::Day calendar(int day) { return nonrunner::Day(2024, 1, 1).plus(day); }

 private:
  Number below(Number limit) { return static_cast<Number>(random_() % static_cast<std::uint64_t>(limit)); }
  Number from_to(Number least, Number most) { return least + below(most - least + 1); }
  bool chance(int percent) { return below(100) < percent; }
  template <class All>
  auto one_of(const All& all) {
    return *std::next(std::begin(all), below(static_cast<Number>(std::size(all))));
  }
  std::string purse();
  std::string any_car(
      std::initializer_list<const char*> states);  // empty where there is none in these states
  std::string event(const std::string& word, const std::string& rest);

  Proposal money();
  Proposal buy();
  Proposal paper();
  Proposal back();
  std::vector<std::string> returnable() const;
  std::string money_back(const std::string& line, Number amount, Keeper::Where& where);
  Proposal work();
  Proposal shelf();
  Proposal part();
  Proposal deposit();
  Proposal sale();
  Proposal correction();
  Proposal mistake();

  std::mt19937_64 random_;
  Keeper& keeper_;
  int day_ = 0, entry_ = 0, cars_ = 0;
};

}  // namespace second
