#include "book/events/pass.h"

#include <fmt/format.h>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "exact/hint.h"

namespace nonrunner::book {

void fields(Pass& pass, Fields& f) {
  f.day({"date", "the day of it"}, pass.day);
  f.text({"vehicle", "the car that was looked at and left"}, Text::tag, pass.vehicle);
  f.text({"why", "the reason", Need::may}, Text::words, pass.why);
}

EntryId record(Recording& recording, const Pass& pass) {
  meet_vehicle(recording, "pass", pass.vehicle);
  const Life life = life_of(recording.book(), pass.vehicle);
  if (life.state == State::owned)
    throw hinted<Refusal>(
        fmt::format(
            "pass: {} was bought on {} (entry {}), expected a car that was looked at and left; a finished "
            "one is written off",
            pass.vehicle, life.bought_said.iso(), life.bought),
        {Action::write_off, {{"tag", pass.vehicle}}});
  if (life.ended != 0) refuse_ended("pass", pass.vehicle, life);
  if (life.state == State::passed)
    throw Refusal(fmt::format("pass: {} was passed on {} (entry {}) already", pass.vehicle,
                              life.passed_day.iso(), life.passed));
  Draft draft(recording, "pass", pass.day);
  draft.mention(pass.vehicle);
  draft.detail("life", {pass.vehicle, std::string("passed")});
  write(draft, recording.currency(), pass);
  return draft.record();
}

}  // namespace nonrunner::book
