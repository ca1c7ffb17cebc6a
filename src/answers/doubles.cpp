#include "answers/doubles.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/questions/alike.h"
#include "book/questions/figures.h"
#include "exact/ends.h"
#include "text/counted.h"

namespace nonrunner::answers {

namespace {

Question yes_or_no(const std::string& about, std::string words, const std::string& yes, const char* option) {
  return {about, std::move(words), {{"y", yes, option, ""}, {"n", "leave it out", "", ""}}, {}};
}

// "38,39" and what these entries are, and when.
Choice replacing(const book::Book& book, const book::QuickLines& lines,
                 const std::vector<book::Waiting>& waiting) {
  std::string entries, what;
  Day first = lines.day;
  for (const book::EntryId entry : lines.entries) {
    entries += (entries.empty() ? "" : ",") + std::to_string(entry);
    for (const book::Waiting& each : waiting) {
      if (each.entry != entry) continue;
      what += (what.empty() ? "" : " and ") + each.what;
      first = std::min(first, each.day);
    }
  }
  const std::string days =
      first == lines.day ? "on " + first.iso() : fmt::format("of {} to {}", first.iso(), lines.day.iso());
  return {
      entries,
      fmt::format("it takes the place of {} {}: {}, {} {}", lines.entries.size() == 1 ? "entry" : "entries",
                  entries, what, lines.total.shown(book.currency()), days),
      "replaces", entries};
}

}  // namespace

std::optional<Question> whose_place(const book::Book& book, const book::Receipt& receipt) {
  if (book::same_paper(book, receipt)) return std::nullopt;  // is refused for that
  const auto fitting = book::quick_lines_that_fit(book, receipt);
  if (fitting.empty()) return std::nullopt;
  Question question{
      "receipt",
      fmt::format("{}{} may be the paper of a quick line in the tray", receipt.total.shown(book.currency()),
                  receipt.supplier.empty() ? "" : " from " + receipt.supplier),
      {},
      {}};
  const auto waiting = book::tray(book);
  constexpr std::size_t most = 5;
  for (std::size_t i = 0; i < std::min(most, fitting.size()); ++i)
    question.choices.push_back(replacing(book, fitting[i], waiting));
  question.choices.push_back({"a", "it is another one", "again", ""});
  if (fitting.front().total == receipt.total) question.usual = 0;
  return question;
}

std::optional<Question> another_one(const book::Book& book, const book::Receipt& receipt) {
  const auto like = book::receipt_like(book, receipt);
  if (!like) return std::nullopt;
  return yes_or_no("receipt",
                   fmt::format("{} on {} is in the book already, it seems (entry {}); is this another one",
                               receipt.total.shown(book.currency()), receipt.day.iso(), *like),
                   "it is another one", "again");
}

std::optional<Question> another_paper(const book::Book& book, const book::Receipt& receipt) {
  const auto same = book::same_paper(book, receipt);
  if (!same || same == receipt.replaces) return std::nullopt;
  return yes_or_no("receipt",
                   fmt::format("{} is in the book already (entry {}); is this another paper",
                               book::called(receipt, book.currency()), *same),
                   "it is another one", "again");
}

std::optional<Question> another_one(const book::Book& book, const book::Labour& labour) {
  const auto like = book::hours_like(book, labour);
  if (!like) return std::nullopt;
  return yes_or_no(
      "hours",
      fmt::format("{} on {} for \"{}\" on {} are in the book already (entry {}); are these others",
                  counted((labour.own + labour.paid).shown(), "hour"), labour.vehicle, labour.operation,
                  labour.day.iso(), *like),
      "they are others", "again");
}

std::optional<Question> another_one(const book::Book& book, const book::Once& one) {
  const auto like = book::entry_like(book, one);
  if (!like) return std::nullopt;
  return yes_or_no(one.event,
                   fmt::format("{} is in the book already, it seems (entry {}); is this another one",
                               book::called(one, book), *like),
                   "it is another one", "again");
}

std::optional<Question> so_many(const book::Book& book, Day day, Hours own) {
  const Hours already = book::own_hours_on(book, day), all = already + own;
  const std::string beside =
      already == Hours{} ? "" : fmt::format(" beside {} that are there", already.shown());
  if (all > book::most_hours)
    throw Refusal(fmt::format("hours: {} own hours on {}{}, expected at most 24 on one day", own.shown(),
                              day.iso(), beside));
  if (all <= book::many_hours) return std::nullopt;
  return yes_or_no("hours",
                   fmt::format("{} own hours on {}{}, more than {}; were they so many", own.shown(),
                               day.iso(), beside, book::many_hours.shown()),
                   "they were", "long_day");
}

}  // namespace nonrunner::answers
