// The aims of a job file: what is asked of a purchase, each of them a limit on the price. One row an aim, in the
// order in which they are shown; whatever names aims (answers, JSON, pages, sheets) goes through the list. How each
// is called stands in words/aims.h.
#pragma once
#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace nonrunner::figures {

enum class Aim : std::size_t { profit, loss_chance, per_hour };

struct AimRow {
  Aim aim;
  const char* key;        // in [aims] and in JSON
  const char* means;      // what the reference of job files says of the key
  bool is_share = false;  // a chance; else money
  bool at_most = false;   // what is asked is a most; else a least
};
inline constexpr std::array aims = {
    AimRow{
        .aim = Aim::profit, .key = "profit", .means = "least expected profit after paying own hours; else 0"},
    AimRow{.aim = Aim::loss_chance,
           .key = "loss_chance",
           .means = "greatest chance of losing cash; else no such aim",
           .is_share = true,
           .at_most = true},
    AimRow{.aim = Aim::per_hour,
           .key = "per_hour",
           .means = "least expected cash profit per own hour; else no such aim"},
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
