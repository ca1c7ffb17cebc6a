#include "book/events/clock.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/ledger/checks.h"
#include "book/ledger/limits.h"
#include "book/ledger/query.h"
#include "exact/hint.h"

namespace nonrunner::book {

namespace {
std::string whose(const std::string& worker) { return worker == "me" ? "your" : worker + "'s"; }
}  // namespace

std::vector<Clock> clocks(const Book& book) {
  std::vector<Clock> all;
  each<std::string, std::string, std::string, std::string>(
      book, "SELECT worker, vehicle, operation, since FROM clock ORDER BY worker", {},
      [&](const std::string& worker, const std::string& vehicle, const std::string& operation,
          const std::string& since) {
        all.push_back({worker, vehicle, operation, since});
      });
  return all;
}

namespace {
std::optional<Clock> clock_of(const Book& book, const std::string& worker) {
  for (const Clock& clock : clocks(book))
    if (clock.worker == worker) return clock;
  return std::nullopt;
}
}  // namespace

void start_clock(Recording& recording, const std::string& worker, const std::string& vehicle,
                 const std::string& operation) {
  if (const auto running = clock_of(recording.book(), worker))
    throw hinted<Refusal>(fmt::format("clock on: {} clock runs on {} (\"{}\"); stop it first", whose(worker),
                                      running->vehicle, running->operation),
                          {Action::stop_clock, {{"since", running->since}}});
  meet_vehicle(recording, "clock on", vehicle);
  const Life life = life_of(recording.book(), vehicle);
  if (life.state == State::passed) refuse_left("clock on", vehicle, life);
  expect_words("clock on", "the operation", operation);
  for (const std::string& name : {worker, operation}) {
    expect_name("clock on", name);
    expect_shows("clock on", name);
  }
  change(
      recording.book(), "INSERT INTO clock VALUES (:worker, :vehicle, :operation, :since)",
      {{":worker", worker}, {":vehicle", vehicle}, {":operation", operation}, {":since", recording.now()}});
}

namespace {

// Seconds since 1970 of YYYY-MM-DDTHH:MM:SSZ; nothing where it is not written so.
std::optional<std::int64_t> seconds_of(const std::string& stamp) {
  static const std::string form = "dddd-dd-ddTdd:dd:ddZ";
  if (stamp.size() != form.size()) return std::nullopt;
  for (std::size_t i = 0; i < form.size(); ++i)
    if (form[i] == 'd' ? stamp[i] < '0' || stamp[i] > '9' : stamp[i] != form[i]) return std::nullopt;
  const auto two = [&](std::size_t at) {
    return std::int64_t{(stamp[at] - '0') * 10 + (stamp[at + 1] - '0')};
  };
  try {
    const Day day = Day::parse(stamp.substr(0, 10));
    return std::int64_t{days_between(Day(1970, 1, 1), day)} * 86400 + two(11) * 3600 + two(14) * 60 + two(17);
  } catch (const Refusal&) {
    return std::nullopt;
  }
}

// Nothing where it cannot be told: the machine's clock was set back since, or its beginning was changed.
std::optional<Hours> time_of(const Clock& clock, const std::string& now) {
  const auto began = seconds_of(clock.since), ended = seconds_of(now);
  if (!began || !ended || *ended < *began) return std::nullopt;
  const std::int64_t hundredths = (*ended - *began + 18) / 36;
  return Hours::of(std::max<std::int64_t>(hundredths, 1) * 10);
}

}  // namespace

Hours hours_of(const Clock& clock, const std::string& now) { return time_of(clock, now).value_or(Hours{}); }

EntryId stop_clock(Recording& recording, const std::string& worker, Day day, std::optional<Hours> hours,
                   const std::string& operation) {
  const auto running = clock_of(recording.book(), worker);
  if (!running)
    throw hinted<Refusal>(fmt::format("clock off: {} clock does not run; start one", whose(worker)),
                          {Action::start_clock, {}});
  expect_come(recording, "clock off", day);
  const auto told = time_of(*running, recording.now());
  if (!hours && !told)
    throw hinted<Refusal>(fmt::format("clock off: the clock on {} (\"{}\") has no beginning that lies before "
                                      "now: was the machine's clock set "
                                      "back? say how long it really was",
                                      running->vehicle, running->operation),
                          {Action::give_clock_hours, {{"since", running->since}, {"now", recording.now()}}});
  const Hours ran = told.value_or(Hours{});
  if (!hours && ran > Hours::of(12'000))
    throw hinted<Refusal>(
        fmt::format("clock off: the clock on {} (\"{}\") ran {} hours; say how long it really was",
                    running->vehicle, running->operation, ran.shown()),
        {Action::give_clock_hours, {{"since", running->since}}});
  change(recording.book(), "DELETE FROM clock WHERE worker = :worker", {{":worker", worker}});
  return record(recording, Labour{day, running->vehicle, operation.empty() ? running->operation : operation,
                                  hours.value_or(ran), Hours{}, Price{}, "", ""});
}

std::vector<EntryId> hours_beside(const Book& book, const Clock& clock) {
  std::vector<EntryId> all;
  each<EntryId>(
      book,
      "SELECT DISTINCT l.entry FROM labour l JOIN live_entry e USING (entry) JOIN kept k ON k.entry = "
      "l.entry JOIN device d ON d.name = k.device WHERE d.person = :worker AND e.recorded >= :since "
      "ORDER BY l.entry",
      {{":worker", clock.worker}, {":since", clock.since}}, [&](EntryId entry) { all.push_back(entry); });
  return all;
}

}  // namespace nonrunner::book
