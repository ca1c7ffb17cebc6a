// What has a last day, as iCalendar (RFC 5545): cores, tool deposits, goods that may still go back. A phone's own
// calendar takes it in and reminds.
//
// Each is an event of a whole day with an alarm at nine in the morning two days before. Its UID is made of what it is
// and of the book's first seal, so that taking the file in again changes what is there and adds nothing twice. Lines
// end in CR LF and are folded before 75 octets (section 3.1), never inside a character.
#pragma once
#include <string>
#include <vector>

#include "book/ledger/book.h"

namespace nonrunner::words {

struct Reminder {
  std::string uid;  // the same for the same thing, for ever
  Day by;
  std::string summary, description;
};

std::vector<Reminder> reminders(const book::Book&, Day today);
// `now` is ISO 8601 in UTC.
std::string calendar(const std::vector<Reminder>&, const std::string& now);

}  // namespace nonrunner::words
