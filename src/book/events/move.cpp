#include "book/events/move.h"

#include "book/events/fields.h"
#include "book/ledger/asked_names.h"
#include "book/ledger/checks.h"
#include "exact/ends.h"

namespace nonrunner::book {

void fields(Move& move, Fields& f) {
  f.day({"date", "the day of it"}, move.day);
  f.text({"from", "the purse that it comes out of"}, Text::purse, move.from);
  f.text({"to", "the purse that it goes into"}, Text::purse, move.to);
  f.money({"amount", "how much"}, move.amount);
}

EntryId record(Recording& recording, const Move& move) {
  expect_positive(recording, "move", "the amount", move.amount);
  if (move.from == move.to)
    throw Refusal("move: from and to are both \"" + move.from + "\", expected two purses");
  know_purse(recording, "move", move.from);
  meet_purse(recording, "move", move.from);
  meet_purse(recording, "move", move.to);
  Draft draft(recording, "move", move.day);
  write(draft, recording.currency(), move);
  draft.post(account::purse, move.to, move.amount);
  draft.post(account::purse, move.from, -move.amount);
  return draft.record();
}

}  // namespace nonrunner::book
