#include "answers/closed.h"

#include "answers/renamed.h"
#include "book/ledger/query.h"

namespace nonrunner::answers {

namespace {
std::string line_said(const std::vector<LineName>& names, const book::DatedMark& mark) {
  for (const bool hours : {mark.with_hours, !mark.with_hours})
    if (const auto own = of_own_name(names, mark.name, hours)) return *own;
  return mark.name;
}
}  // namespace

Closed::Closed(const book::Book& book, const std::string& tag, const std::vector<LineName>& names,
               std::optional<Day> on) {
  if (const auto ready = book::first<Day, book::EntryId>(
          book,
          "SELECT e.day, e.entry FROM advert a JOIN entry e USING (entry) WHERE a.vehicle = :tag AND " +
              book::counts_on(":on") + " ORDER BY e.day, e.entry LIMIT 1",
          {{":tag", tag}, {":on", on}}))
    ready_ = When{std::get<0>(*ready), std::get<1>(*ready)};
  const Renamed renamed(book, tag, on);
  for (book::DatedMark& mark : book::marks_of(book, tag, on)) {
    mark.name = renamed.now(line_said(names, mark));
    const When when{mark.day, mark.entry};
    if (mark.says == book::says::ready && (!ready_ || ready_->before(when))) ready_ = when;
    if (mark.says == book::says::more) more_[mark.name] = true;
    const Word word = mark.says == book::says::done         ? Word::done
                      : mark.says == book::says::not_needed ? Word::not_needed
                      : mark.says == book::says::open       ? Word::open
                                                            : Word::none;
    if (word == Word::none) continue;
    of_hours_[mark.name] = {when, word};
    if (!mark.with_hours) said_[mark.name] = {when, word};
  }
}

Word Closed::of(const std::string& line, Day known_on, bool is_hours, std::optional<When> planned) const {
  const std::map<std::string, Said>& said = is_hours ? of_hours_ : said_;
  const auto found = said.find(line);
  const bool closed_by_ready = ready_ && known_on <= ready_->day;
  // Both: who catches up in the evening says a thing done for a day before the one on which he planned it.
  const auto is_over = [&](const When& when) {
    return planned && when.day < planned->day && when.entry < planned->entry;
  };
  if (found == said.end() || is_over(found->second.when)) return closed_by_ready ? Word::done : Word::none;
  // Said before the car was ready, or with it: only "still to do" of that very entry outlives it.
  if (closed_by_ready && found->second.when.before(*ready_) && found->second.word == Word::open)
    return Word::done;
  return found->second.word;
}

}  // namespace nonrunner::answers
