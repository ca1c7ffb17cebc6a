#include "appraisal/budget.h"

#include <algorithm>
#include <cctype>
#include <set>

namespace nonrunner::appraisal {

namespace {

using Words = std::set<std::string>;

Words words_of(const std::string& text, bool all) {
  static const Words common = {"front", "rear",   "left",  "right",  "pair", "part",    "worn",
                               "with",  "from",   "same",  "colour", "yard", "outside", "fitted",
                               "home",  "four",   "two",   "the",    "and",  "set",     "new",
                               "for",   "across", "cloth", "cold",   "back", "went",    "side"};
  Words words;
  std::string word;
  const auto take = [&] {
    if (!word.empty() && (all || (word.size() >= 4 && !common.contains(word)))) {
      // Endings aside: tyre and tyres, lamp and lamps.
      if (!all && word.size() > 4 && word.back() == 's') word.pop_back();
      words.insert(word);
    }
    word.clear();
  };
  for (const char c : text) {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0 || static_cast<unsigned char>(c) >= 0x80)
      word += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    else if (c == '\'')
      take();
    else
      take();
  }
  take();
  return words;
}

std::size_t shared(const Words& a, const Words& b) {
  std::size_t count = 0;
  for (const std::string& word : a) count += b.count(word);
  return count;
}

std::optional<std::size_t> by_name(const Estimate& estimate, const std::string& what) {
  const Words name = words_of(what, true);
  for (std::size_t i = 0; i < estimate.lines.size(); ++i)
    if (words_of(estimate.lines[i].what, true) == name) return i;
  // A draw off the shelf is called by its short name: "coolant" for "coolant concentrate, gal".
  for (std::size_t i = 0; i < estimate.lines.size(); ++i) {
    if (estimate.lines[i].kind != EstimatedLine::Kind::consumable) continue;
    const Words longer = words_of(estimate.lines[i].what, true);
    if (!name.empty() && std::includes(longer.begin(), longer.end(), name.begin(), name.end())) return i;
  }
  return std::nullopt;
}

// Title, tow and the like, which the appraisal has as one sum.
std::optional<std::size_t> by_fees(const Estimate& estimate, const Booked& booked) {
  static const Words paid_on_purchase = {"tow",      "towing",  "title",    "registration",
                                         "recovery", "auction", "transport"};
  if (!booked.is_fee || (!booked.paper.empty() && shared(words_of(booked.what, true), paid_on_purchase) == 0))
    return std::nullopt;
  for (std::size_t i = 0; i < estimate.lines.size(); ++i)
    if (estimate.lines[i].kind == EstimatedLine::Kind::fees) return i;
  return std::nullopt;
}

std::optional<std::size_t> by_fault(const Estimate& estimate, const std::string& what) {
  const Words words = words_of(what, false);
  std::optional<std::size_t> best;
  std::size_t most = 0;
  for (std::size_t i = 0; i < estimate.lines.size(); ++i) {
    if (estimate.lines[i].kind != EstimatedLine::Kind::fix) continue;
    const std::size_t count =
        shared(words, words_of(estimate.lines[i].group + " " + estimate.lines[i].what, false));
    if (count > most) {
      most = count;
      best = i;
    }
  }
  return best;
}

}  // namespace

std::vector<std::optional<std::size_t>> under_lines(const Estimate& estimate,
                                                    const std::vector<Booked>& booked) {
  std::vector<std::optional<std::size_t>> under;
  std::optional<std::size_t> before;
  std::string paper;
  for (const Booked& each : booked) {
    if (each.paper != paper) before.reset();
    paper = each.paper;
    std::optional<std::size_t> place = by_name(estimate, each.what);
    if (!place) place = by_fees(estimate, each);
    if (!place && each.rides_along && before && !paper.empty()) place = before;
    if (!place) place = by_fault(estimate, each.what);
    const bool fees = place && estimate.lines[*place].kind == EstimatedLine::Kind::fees;
    if (place && !fees) before = place;
    under.push_back(place);
  }
  return under;
}

std::optional<std::size_t> under_work(const Estimate& estimate, const std::string& operation) {
  const Words name = words_of(operation, true);
  for (std::size_t i = 0; i < estimate.work.size(); ++i)
    if (words_of(estimate.work[i].operation, true) == name) return i;
  const Words words = words_of(operation, false);
  std::optional<std::size_t> best;
  std::size_t most = 0;
  for (std::size_t i = 0; i < estimate.work.size(); ++i) {
    const std::size_t count =
        shared(words, words_of(estimate.work[i].group + " " + estimate.work[i].operation, false));
    if (count > most) {
      most = count;
      best = i;
    }
  }
  // Pulling parts in general is not the pulling of one part.
  return 2 * most >= std::max<std::size_t>(words.size(), 1) && operation.rfind("pulling", 0) != 0
             ? best
             : std::nullopt;
}

}  // namespace nonrunner::appraisal
