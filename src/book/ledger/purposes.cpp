#include "book/ledger/purposes.h"

#include <array>
#include <stdexcept>
#include <string>
#include <utility>

namespace nonrunner::book {

using figures::MoneyKind;

namespace {

constexpr std::array<std::pair<std::string_view, MoneyKind>, 13> kinds_of_purpose{{
    {"purchase", MoneyKind::purchase},
    {"fee", MoneyKind::fee},
    {"part", MoneyKind::part},
    {"consumable", MoneyKind::consumable},
    {"sublet", MoneyKind::sublet},
    {"paid hours", MoneyKind::paid_hours},
    {"other cost", MoneyKind::other_cost},
    {"recovered", MoneyKind::recovered},
    {"selling cost", MoneyKind::selling_cost},
    {"commission", MoneyKind::commission},
    {"deposit kept", MoneyKind::deposit_kept},
    {"sale", MoneyKind::sale},
    {"due back", MoneyKind::due_back},
}};

}  // namespace

MoneyKind kind_of_purpose(std::string_view word) {
  for (const auto& [name, kind] : kinds_of_purpose)
    if (word == name) return kind;
  throw std::logic_error("no kind of money " + std::string(word));
}

}  // namespace nonrunner::book
