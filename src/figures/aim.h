// The aims of a job file: what is asked of a purchase, each of them a limit on the price. One row an aim, in the
// order in which they are shown; whatever names aims (answers, JSON, pages, sheets) goes through the list.
#pragma once
#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace nonrunner::figures {

enum class Aim : std::size_t { profit, loss_chance, per_hour };

struct AimRow {
  Aim aim;
  const char* key;      // in [aims] and in JSON
  const char* means;    // in the reference of job files
  const char* by;       // "Limit by chance of loss"
  const char* asks;     // "Aim: chance of losing cash, at most"
  const char* bound;    // at least, at most
  bool is_share;        // a chance; else money
  const char* sets;     // which aim sets the walk-away price
  const char* at_more;  // what would be so at a higher price
  const char* bars;     // an outcome "would bar the purchase by the chance of a loss"
};
inline constexpr std::array aims = {
    AimRow{.aim = Aim::profit,
           .key = "profit",
           .means = "least expected profit after paying own hours; else 0",
           .by = "profit",
           .asks = "profit after own hours",
           .bound = "at least",
           .is_share = false,
           .sets = "The aim for profit",
           .at_more = "the profit aimed at is not to be expected",
           .bars = "profit"},
    AimRow{.aim = Aim::loss_chance,
           .key = "loss_chance",
           .means = "greatest chance of losing cash; else no such aim",
           .by = "chance of loss",
           .asks = "chance of losing cash",
           .bound = "at most",
           .is_share = true,
           .sets = "The aim for the chance of a loss",
           .at_more = "losing money is likelier than you accept",
           .bars = "the chance of a loss"},
    AimRow{.aim = Aim::per_hour,
           .key = "per_hour",
           .means = "least expected cash profit per own hour; else no such aim",
           .by = "cash per own hour",
           .asks = "cash profit per own hour",
           .bound = "at least",
           .is_share = false,
           .sets = "The aim per own hour",
           .at_more = "an hour is not expected to earn as much",
           .bars = "what an own hour earns"},
};

constexpr std::size_t index(Aim aim) { return static_cast<std::size_t>(aim); }
constexpr const AimRow& row_of(Aim aim) { return aims[index(aim)]; }
static_assert([] {
  for (std::size_t i = 0; i < aims.size(); ++i)
    if (index(aims[i].aim) != i) return false;
  return true;
}());

// One of something for each aim.
template <class T>
class ByAim {
 public:
  T& operator[](Aim aim) { return all_[index(aim)]; }
  const T& operator[](Aim aim) const { return all_[index(aim)]; }

 private:
  std::array<T, aims.size()> all_{};
};

}  // namespace nonrunner::figures
