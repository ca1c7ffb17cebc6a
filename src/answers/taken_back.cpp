#include "answers/taken_back.h"

#include <fmt/format.h>

#include "book/events/void_entry.h"
#include "book/ledger/entry.h"
#include "book/ledger/marks.h"
#include "book/ledger/query.h"
#include "exact/ends.h"

namespace nonrunner::answers {

namespace {

std::optional<book::Entry> entry_if_there(const book::Book& book, book::EntryId id) {
  try {
    return book::load_entry(book, id);
  } catch (const Refusal&) {
    return std::nullopt;  // for the event to refuse
  }
}

// An advert says nothing of lines: the first one of a car closes them.
bool makes_ready(const book::Book& book, book::EntryId entry) {
  return book::first<book::EntryId>(
             book,
             "SELECT a.entry FROM advert a JOIN live_entry USING (entry) WHERE a.vehicle = (SELECT vehicle "
             "FROM advert WHERE entry = :entry) ORDER BY day, a.entry LIMIT 1",
             {{":entry", entry}}) == entry;
}

}  // namespace

std::vector<std::string> taken_back_with(const book::Book& book, book::EntryId id, bool later) {
  std::vector<std::string> all;
  const auto entry = entry_if_there(book, id);
  if (!entry) return all;
  if (!later)
    for (const book::NamedAmount& cost : book::paid_to_others(book, id))
      all.push_back(
          fmt::format("{} for {} from {}", cost.amount.shown(book.currency()), cost.name, cost.purse));
  if (entry->kind == "advertised" && makes_ready(book, id))
    all.emplace_back("that the car is ready, so that the lines that it closed are open again");
  book::each<std::string, std::string, std::string>(
      book, "SELECT vehicle, says, name FROM mark WHERE entry = :entry AND says <> 'for' ORDER BY rowid",
      {{":entry", id}}, [&](const std::string& tag, const std::string& says, const std::string& name) {
        if (says == book::says::ready)
          all.push_back("that " + tag + " is ready, so that the lines that it closed are open again");
        else
          all.push_back(fmt::format("the line \"{}\" of {}, {}", name, tag,
                                    says == book::says::more ? "of which more was to come" : says));
      });
  book::each<std::string, std::string, std::string>(
      book, "SELECT what, name, value FROM found WHERE entry = :entry ORDER BY rowid", {{":entry", id}},
      [&](const std::string& what, const std::string& name, const std::string& value) {
        all.push_back(
            fmt::format("what was found, {}: {}{}", what, name, value.empty() ? "" : " = " + value));
      });
  return all;
}

std::optional<Question> question_of_void(const book::Book& book, book::EntryId id, bool later) {
  const std::vector<std::string> with = taken_back_with(book, id, later);
  // A note of what was found, or a word on lines, is that and nothing else.
  const auto entry = entry_if_there(book, id);
  if (with.empty() || entry->kind == "finding" || entry->kind == "done") return std::nullopt;
  return Question{
      "void",
      fmt::format("entry {} takes back with it {}; shall all of it go", id, fmt::join(with, "; ")),
      {{"y", "all of it", "", ""}, {"n", "leave it as it is", "", ""}},
      std::nullopt};
}

std::optional<Question> question_of_standing(const book::Book& book, book::EntryId id, Day today) {
  const auto entry = entry_if_there(book, id);
  if (!entry) return std::nullopt;
  // What lies in a closed period counts until the first open day, whichever it was.
  if (const auto closed = book::closed_until(book); closed && entry->day <= *closed) return std::nullopt;
  const std::string turn = book::turn_of(book, id);
  const char* what = turn == "sold"       ? "is a sale"
                     : turn == "finished" ? "is a write-off"
                     : turn == "passed"   ? "is a pass"
                                          : nullptr;
  if (!what && entry->day.year() >= today.year()) return std::nullopt;
  return Question{"void",
                  fmt::format("entry {} {}: did it stand until it was taken back, or was it typed wrong", id,
                              what ? what : "is of " + std::to_string(entry->day.year())),
                  {{"s", "it stood until today", "later", today.iso()},
                   {"w", "typed wrong: it counts on no day", "never_was", ""}},
                  std::nullopt};
}

}  // namespace nonrunner::answers
