#include "page/tapped.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "exact/ends.h"
#include "page/frame.h"

namespace nonrunner::page {

namespace {

constexpr std::string_view by = "by.";

std::map<std::size_t, std::size_t> read_seen(std::string_view text) {
  std::map<std::size_t, std::size_t> seen;
  const std::string whole(text);
  while (!text.empty()) {
    const std::string_view pair = text.substr(0, text.find(','));
    text.remove_prefix(std::min(pair.size() + 1, text.size()));
    std::size_t test = 0, outcome = 0;
    const char* const end = pair.data() + pair.size();
    const auto first = std::from_chars(pair.data(), end, test);
    const bool parted = first.ec == std::errc() && first.ptr != end && *first.ptr == ':';
    const auto second = parted ? std::from_chars(first.ptr + 1, end, outcome) : first;
    if (!parted || second.ec != std::errc() || second.ptr != end || test == 0)
      throw Refusal(fmt::format(
          "seen: found \"{}\", expected the numbers of tests and outcomes, such as 1:2,3:0", whole));
    seen[test] = outcome;
  }
  return seen;
}

}  // namespace

Tapped Tapped::read(const Form& form, const std::vector<answers::Changeable>& known) {
  Tapped tapped;
  tapped.seen = read_seen(form.get("seen"));
  tapped.asked = form.get("asked");
  tapped.is_hidden = form.get("hide") == "1";
  const auto stands = [&](const std::string& place, const std::string& value) {
    return std::any_of(known.begin(), known.end(), [&](const answers::Changeable& each) {
      return each.place == place && each.value == value;
    });
  };
  for (const auto& [name, value] : form.fields) {
    if (!name.starts_with(by) || value.empty()) continue;
    const std::string place = name.substr(by.size());
    if (!stands(place, value)) tapped.changed.push_back({place, value});
  }
  return tapped;
}

Form Tapped::form() const {
  Form form;
  std::string all;
  for (const auto& [test, outcome] : seen)
    all += fmt::format("{}{}:{}", all.empty() ? "" : ",", test, outcome);
  if (!all.empty()) form.set("seen", all);
  if (!asked.empty()) form.set("asked", asked);
  if (is_hidden) form.set("hide", "1");
  for (const answers::ByHand& each : changed) form.set(std::string(by) + each.place, each.value);
  return form;
}

std::string Tapped::path(const std::string& tag) const {
  const std::string query = form().encoded();
  return path_of("/seller/", tag) + (query.empty() ? "" : "?" + query);
}

std::string Tapped::with(const std::string& tag, std::size_t test, std::size_t outcome) const {
  Tapped next = *this;
  const auto there = next.seen.find(test);
  if (there != next.seen.end() && there->second == outcome)
    next.seen.erase(there);
  else
    next.seen[test] = outcome;
  return next.path(tag) + "#tests";
}

std::vector<std::string> Tapped::outcomes(const appraisal::Job& job) const {
  std::vector<std::string> all;
  for (const auto& [test, outcome] : seen) {
    if (test > job.tests.size() || outcome > job.tests[test - 1].outcomes.size())
      throw Refusal(fmt::format("seen: found {}:{}, and the appraisal of {} has no such test and outcome",
                                test, outcome, job.vehicle.tag));
    if (outcome > 0)
      all.push_back(job.tests[test - 1].name + "=" + job.tests[test - 1].outcomes[outcome - 1]);
  }
  return all;
}

std::vector<std::size_t> Tapped::left_out() const {
  std::vector<std::size_t> all;
  for (const auto& [test, outcome] : seen)
    if (outcome == 0) all.push_back(test - 1);
  return all;
}

std::vector<answers::ByHand> Tapped::figures() const {
  std::vector<answers::ByHand> all = changed;
  if (!asked.empty()) all.push_back({"deal.asking", asked});
  return all;
}

}  // namespace nonrunner::page
