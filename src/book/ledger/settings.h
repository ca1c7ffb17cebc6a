// The shop's own figures and wishes: what an own hour must earn, the limit of sales in twelve months, kinds of purse,
// paper and copies, the closed period. They may change; no entry rests on them.
//
//   hour           money an own hour must earn (0 where it is not set); set again it bears a day and counts from it
//   hour.DAY       the same from that day on, so that what a car of before earned does not move
//   dealer-limit   sales in any moving twelve months that the local dealer rule allows
//   tools          expense (else) or asset: what tools are that are bought from then on
//   paper-size     a4 or letter: what workbooks are printed on (else what goes with the currency)
//   backup-folder  where dated copies of the book go, by its whole path
//   closed         the last day of the closed period (`close DATE`); it only ever moves forward; an entry
//   purse.NAME     asset, liability (a card) or credit (what a shop owes us); without it: a name with "card"
//                  is a liability, one ending in "credit" is credit, every other an asset
#pragma once
#include <map>
#include <optional>
#include <string>

#include "book/ledger/entry.h"

namespace nonrunner::book {

// Throws Refusal for a name that is not among these (names the nearest) or a value that does not fit.
// `from`: of the hour, the day from which it counts (else the recording's); the first one counts on every day before.
void set(Recording&, const std::string& name, const std::string& value, std::optional<Day> from = {});
// The value as it is kept; throws Refusal as set() does.
std::string expect_setting(const Book&, const std::string& name, const std::string& value);
std::map<std::string, std::string> settings(const Book&);
Money hour(const Book&, std::optional<Day> on = {});  // as it is on that day; without one, the last set
std::string purse_kind(const Book&, const std::string& purse);

// Closes the books up to and including `day`: an entry (a memorandum) that is never taken back. What is
// entered after it with a day on or before it bears the first open day. Refused where it lies before the day
// that is closed already, or has not come yet.
EntryId close(Recording&, Day day, const std::string& why = "");

}  // namespace nonrunner::book
