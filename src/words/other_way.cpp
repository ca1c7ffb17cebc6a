#include "words/other_way.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "figures/opinion.h"
#include "words/offer_in_words.h"

namespace nonrunner::words {

using namespace appraisal;

namespace {

constexpr std::size_t ways_named = 4;  // so many are still taken in at one look

struct OtherWay {
  std::size_t cause = 0;
  Path path;
  std::vector<unsigned> sets;  // of troubles
  double chance = 0;
};

double chance_of_set(const Appraisal& a, unsigned present) {
  double chance = 1;
  for (std::size_t j = 0; j < a.troubles.size(); ++j)
    chance *= present >> j & 1u ? a.troubles[j] : 1 - a.troubles[j];
  return chance;
}

std::vector<OtherWay> other_ways(const Appraisal& a) {
  const Policy& policy = a.at_walk_away;
  const std::size_t masks = std::size_t{1} << a.troubles.size();
  std::vector<OtherWay> all;
  for (std::size_t s = 0; s < policy.paths.size(); ++s) {
    const auto present = static_cast<unsigned>(s % masks);
    const double chance = a.causes[s / masks].probability * chance_of_set(a, present);
    if (!(chance > 0) || policy.paths[s] == policy.most_profitable[s]) continue;
    auto at = std::ranges::find_if(
        all, [&](const OtherWay& each) { return each.cause == s / masks && each.path == policy.paths[s]; });
    if (at == all.end()) at = all.insert(at, {s / masks, policy.paths[s], {}, 0});
    at->sets.push_back(present);
    at->chance += chance;
  }
  std::ranges::stable_sort(all, std::ranges::greater{}, &OtherWay::chance);
  return all;
}

std::string troubles_of_set(const Appraisal& a, unsigned present) {
  std::string text;
  for (std::size_t j = 0; j < a.troubles.size(); ++j)
    if (present >> j & 1u) text += (text.empty() ? "with " : " and ") + a.job.troubles[j].name;
  return text.empty() ? "without troubles" : text;
}

// Of the sets of troubles that can be, these: nothing where it is all of them, one trouble where that tells them apart.
std::string which_sets(const Appraisal& a, const std::vector<unsigned>& sets) {
  std::vector<unsigned> possible;
  for (unsigned present = 0; present < 1u << a.troubles.size(); ++present)
    if (chance_of_set(a, present) > 0) possible.push_back(present);
  if (sets == possible) return "";
  for (std::size_t j = 0; j < a.troubles.size(); ++j)
    for (const bool there : {true, false}) {
      std::vector<unsigned> of_trouble;
      for (const unsigned present : possible)
        if ((present >> j & 1u) == (there ? 1u : 0u)) of_trouble.push_back(present);
      if (sets == of_trouble) return (there ? " with " : " without ") + a.job.troubles[j].name;
    }
  if (sets.size() > 2) return fmt::format(" in {} of {} cases", sets.size(), possible.size());
  std::string text;
  for (const unsigned present : sets) text += (text.empty() ? " " : " or ") + troubles_of_set(a, present);
  return text;
}

const char* why_not_the_better(const WalkAway& limit) {
  if (limit.binding == Aim::loss_chance) return "what brings more risks more than you accept";
  if (limit.binding == Aim::per_hour) return "what brings more earns too little an hour";
  return "what brings more does not hold all aims";
}

}  // namespace

std::string other_way_in_words(const Appraisal& a) {
  if (!a.at_walk_away.holds || a.walk_away.price < 0) return "";
  const std::vector<OtherWay> ways = other_ways(a);
  if (ways.empty()) return "";
  std::string named;
  for (std::size_t i = 0; i < ways.size() && i < ways_named; ++i)
    named += fmt::format("{}\"{}\"{} means {}", i == 0 ? "" : ", ", a.job.causes[ways[i].cause].name,
                         which_sets(a, ways[i].sets), path_in_words(a.job, ways[i].cause, ways[i].path));
  if (ways.size() > ways_named) named += fmt::format(", and {} more likewise", ways.size() - ways_named);
  return fmt::format("Up to {} if {}; {}.", shown_units(a.walk_away.price, a.job.currency), named,
                     why_not_the_better(a.walk_away));
}

}  // namespace nonrunner::words
