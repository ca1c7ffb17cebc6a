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
  const char* by;       // "Limit by chance of loss"
  const char* asks;     // "Aim: chance of losing cash, at most"
  const char* bound;    // at least, at most
  bool is_share;        // a chance; else money
  const char* sets;     // which aim sets the walk-away price
  const char* at_more;  // what would be so at a higher price
};
inline constexpr std::array aims = {
    AimRow{Aim::profit, "profit", "profit", "profit after own hours", "at least", false, "The aim for profit",
           "the profit aimed at is not to be expected"},
    AimRow{Aim::loss_chance, "loss_chance", "chance of loss", "chance of losing cash", "at most", true,
           "The aim for the chance of a loss", "losing money is likelier than you accept"},
    AimRow{Aim::per_hour, "per_hour", "cash per own hour", "cash profit per own hour", "at least", false,
           "The aim per own hour", "an hour is not expected to earn as much"},
};

constexpr std::size_t index(Aim aim) { return static_cast<std::size_t>(aim); }
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
