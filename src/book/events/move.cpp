#include "book/events/move.h"

#include "book/ledger/checks.h"
#include "exact/ends.h"

namespace nonrunner::book {

Move read_move(const Table& table, const Currency& currency) {
  table.only({"do", "date", "from", "to", "amount"});
  return {table.day("date"), table.text("from"), table.text("to"), table.money("amount", currency)};
}

EntryId record(Recording& recording, const Move& move) {
  expect_positive(recording, "move", "the amount", move.amount);
  if (move.from == move.to)
    throw Refusal("move: from and to are both \"" + move.from + "\", expected two purses");
  meet_purse(recording, "move", move.from);
  meet_purse(recording, "move", move.to);
  Draft draft(recording, "move", move.day);
  draft.event.text("from", move.from).text("to", move.to).money("amount", move.amount);
  draft.post(account::purse, move.to, move.amount);
  draft.post(account::purse, move.from, -move.amount);
  return draft.record();
}

}  // namespace nonrunner::book
