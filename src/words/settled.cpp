#include "words/settled.h"

#include <fmt/format.h>

#include "text/counted.h"

namespace nonrunner::words {

namespace {

std::string points(const ThreePoint& p) {
  if (p.is_constant()) return fmt::format("{:.4g}", p.low);
  return fmt::format("{:.4g}, {:.4g}, {:.4g}", p.low, p.likely, p.high);
}
std::string cars(std::size_t number) { return counted(number, "car"); }

std::string said(const answers::SettledAmount& each) {
  return fmt::format(
      "{}: stated {}, counting as {}; own {}; taken {}", each.key, points(each.stated),
      cars(each.stated_counts_as),
      each.own_cars == 0 ? "none yet" : fmt::format("{:.4g} over {}", each.own, cars(each.own_cars)),
      points(each.taken));
}
std::string said(const answers::SettledOdds& each) {
  return fmt::format("odds of {}: stated {:.4g}; own {} of {}; taken {:.4g}",
                     each.cause.empty() ? "a cause" : each.cause, each.stated, each.found, cars(each.cars),
                     each.taken);
}
std::string said(const answers::SettledRows& each) {
  return fmt::format("comparables: {} of the book's {} fit: by model, within 5 years, seen in the last 2",
                     each.fitting, each.kept);
}

}  // namespace

std::string in_words(const answers::SettledNote& note) {
  return std::visit([](const auto& each) { return said(each); }, note);
}

}  // namespace nonrunner::words
