// How each aim of a purchase is called, on every surface.
#pragma once
#include <array>

#include "figures/aim.h"

namespace nonrunner::words {

struct AimWords {
  figures::Aim aim;
  const char* by;       // "Limit by chance of loss"
  const char* asks;     // "Aim: chance of losing cash, at most"
  const char* sets;     // which aim sets the walk-away price
  const char* at_more;  // what would be so at a higher price
  const char* bars;     // an outcome "would bar the purchase by the chance of a loss"
};
inline constexpr std::array<AimWords, figures::aims.size()> all_aim_words = {
    AimWords{.aim = figures::Aim::profit,
             .by = "profit",
             .asks = "profit after own hours",
             .sets = "The aim for profit",
             .at_more = "the profit aimed at is not to be expected",
             .bars = "profit"},
    AimWords{.aim = figures::Aim::loss_chance,
             .by = "chance of loss",
             .asks = "chance of losing cash",
             .sets = "The aim for the chance of a loss",
             .at_more = "losing money is likelier than you accept",
             .bars = "the chance of a loss"},
    AimWords{.aim = figures::Aim::per_hour,
             .by = "cash per own hour",
             .asks = "cash profit per own hour",
             .sets = "The aim per own hour",
             .at_more = "an hour is not expected to earn as much",
             .bars = "what an own hour earns"},
};
// None is forgotten, and each stands in its place.
static_assert([] {
  for (std::size_t i = 0; i < all_aim_words.size(); ++i)
    if (figures::index(all_aim_words[i].aim) != i) return false;
  return true;
}());

constexpr const AimWords& words_of(figures::Aim aim) { return all_aim_words[figures::index(aim)]; }

}  // namespace nonrunner::words
