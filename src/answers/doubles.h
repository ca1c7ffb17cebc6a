// What is asked before money or hours are booked that may be there already (book/questions/alike.h).
#pragma once
#include <optional>

#include "answers/question.h"
#include "book/events/hours.h"
#include "book/events/receipt.h"
#include "book/questions/alike.h"

namespace nonrunner::answers {

// Whose place does the paper take? Choices with the option `replaces` ("38", "38,39"), and `again` for none.
std::optional<Question> whose_place(const book::Book&, const book::Receipt&);
// Is it another one? Yes, with the option `again`, or no.
std::optional<Question> another_one(const book::Book&, const book::Receipt&);
std::optional<Question> another_one(const book::Book&, const book::Labour&);
std::optional<Question> another_one(const book::Book&, const book::Once&);
// The same paper is in the book: is it another one that looks the same? Yes, with the option `again`, or no.
std::optional<Question> another_paper(const book::Book&, const book::Receipt&);
// So many own hours on one day? Yes, with the option `long_day`, or no. Throws Refusal above 24.
std::optional<Question> so_many(const book::Book&, Day, Hours own);

}  // namespace nonrunner::answers
