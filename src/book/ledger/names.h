// Names that the book knows (cars, purses, stock, lines), and what happens when one is new.
//
// A new purse is opened by its first use; so is a car, in a file. Typed as a command only a purchase, a pass and an
// appraisal that is kept open a car. A name that differs from a known one by a single slip (and not only in its digits)
// is refused when it was typed as a command, and remarked on when it came in a file.
#pragma once
#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

// Throws Refusal for a tag that is not 1-24 of a-z, 0-9, '-' or that stands for something else (tools, owner,
// overhead).
void check_tag(const std::string& event, const std::string& tag);
void meet_vehicle(Recording&, const std::string& event, const std::string& tag);  // known from here on
void know_vehicle(const Book&, const std::string& event,
                  const std::string& tag);  // throws Refusal where it is not known
void meet_purse(Recording&, const std::string& event, const std::string& purse);
std::vector<std::string> names_of(const Book&, const std::string& account_kind);
std::vector<std::string> all_tags(const Book&);
bool has_vehicle(const Book&, const std::string& tag);

enum class State { considered, owned, sold, finished, passed };
const char* shown(State);
struct Life {
  State state = State::considered;
  EntryId bought = 0, ended = 0, passed = 0, parted = 0;  // 0: not; parted: see part_out.h
  Day bought_day, ended_day, passed_day, parted_day;
  Day bought_said,
      ended_said;  // when it happened: another day than it counts from where its period was closed
  Day ended_stands;  // under which it ends for its money: of a sale of a closed period that was put right the old day
  std::optional<Day> in_pieces_since;  // the first day that it was said of
};
// A turn of a car's life, and the days on which it counts: from its own until the day before `until`.
struct Turn {
  std::string turn;  // bought, sold, finished, passed
  EntryId entry = 0;
  Day from;
  std::optional<Day> until;  // taken back on that day
  bool counts_at_or_after(Day day) const { return !until || *until > std::max(day, from); }
  bool ends() const { return turn == "sold" || turn == "finished"; }
};
std::vector<Turn> turns_of(const Book&, const std::string& tag);  // by day; those that never were left out
std::string shown(const Life&);  // as the state, but "in pieces" for an owned car that goes to pieces
// By the entries that count at the end of the day `on`, in the order of their days, whenever they were typed;
// without a day, now. A car that was bought is not passed, whatever the days.
Life life_of(const Book&, const std::string& tag, std::optional<Day> on = {});
// Of every car that has had a turn: one look for all.
std::map<std::string, Life> all_lives(const Book&, std::optional<Day> on = {});

}  // namespace nonrunner::book
