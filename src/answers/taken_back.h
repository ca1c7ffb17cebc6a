// What taking an entry back takes back beside the entry itself: the lines of a budget that it closed or opened, what
// it said was found, and of a sale that never was what others got. Asked about where somebody is there to answer.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "answers/question.h"
#include "book/ledger/entry.h"

namespace nonrunner::answers {

// One line each, "the line \"starter\" of pip, done"; nothing where it is the entry alone, or no entry.
std::vector<std::string> taken_back_with(const book::Book&, book::EntryId, bool later);
// Whether all of that shall go; absent where the entry stands alone.
std::optional<Question> question_of_void(const book::Book&, book::EntryId, bool later);
// Did it stand until it was taken back, or was it typed wrong? Asked of a sale, a write-off and a pass, and of what
// is of an earlier year than `today`'s; absent of any other, and in a closed period, where both are one. The first choice: it
// stood.
std::optional<Question> question_of_standing(const book::Book&, book::EntryId, Day today);

}  // namespace nonrunner::answers
