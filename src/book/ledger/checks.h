// Small checks that several events share, with the wording of their refusals.
#pragma once
#include <string>

#include "book/ledger/names.h"
#include "text/table.h"

namespace nonrunner::book {

// Somebody enters it now, at a desk, on a page or as a file that is posted: what cannot be meant is refused. A book
// that is restored, and what is made again as it was, is taken as it stands.
bool is_entered_now(const Recording&);
void expect_positive(const Recording&, const std::string& event, const std::string& what, Money);
void expect_not_negative(const Recording&, const std::string& event, const std::string& what, Money);
void expect_some(const std::string& event, const std::string& what, Quantity);
void expect_words(const std::string& event, const std::string& what, const std::string& text);
// A day that has not come yet is a slip of the keyboard; `where` is the event, or the place in a file.
void expect_come(const Recording&, const std::string& where, Day);
// The car as it stands, for an event that needs it known; throws Refusal where no car has the tag.
Life expect_known(Recording&, const std::string& event, const std::string& tag);
// Throws Refusal where the car, ended on `day`, would be ended twice on some day from then on.
void expect_not_ended(const Book&, const std::string& event, const std::string& tag, Day day);
// Throws Refusal where a last day that is to be kept lies before the day of the entry; `what`: "the core of \"pump\"".
void expect_still_ahead(const Recording&, const std::string& event, const std::string& what, Day last,
                        Day of_entry);
[[noreturn]] void refuse_left(const std::string& event, const std::string& tag,
                              const Life&);  // looked at and left
// Money about a car that nobody owns or owned: what is only looked at has neither buyer nor parts. An older book may
// hold such entries, and is made again with them.
void expect_was_bought(const Recording&, const std::string& event, const std::string& tag, const Life&);
// "sell: sprat was sold on 2025-04-15 (entry 81); to take that back", and the hint how.
[[noreturn]] void refuse_ended(const std::string& event, const std::string& tag, const Life&);

}  // namespace nonrunner::book
