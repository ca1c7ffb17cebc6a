// The journal as it is shown: every entry, voided ones and reversals marked; and the receipt lines with their
// ids.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/line.h"

namespace nonrunner::book {

struct JournalRow {
  EntryId entry = 0;
  Day day;
  std::string kind, what;  // what: in words, from the event
  Money amount;  // what a person calls its amount: the price of a sale, what went through the purses
  std::optional<EntryId> voids, voided_by;
  std::vector<Posting> postings;
  std::string supplier;
  Hours hours;  // own or paid
  Distance distance;
  std::optional<Money> asked;  // of an advert
  bool went_back = false;      // of a line of it something did, or the core, or went to the shelf
  bool moved = false;          // a part of it was moved to another car, once
};
std::string words_for(const std::string& event);  // a few words for an entry, from the event that it keeps
std::vector<JournalRow> journal(const Book&,
                                const std::string& vehicle);          // "": all, in the order of entering
std::vector<Line> lines_of(const Book&, const std::string& vehicle);  // lines that count

}  // namespace nonrunner::book
