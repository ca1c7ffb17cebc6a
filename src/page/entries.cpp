// The entries of the last days, the newest first; each can be put right or taken back.
#include <fmt/format.h>

#include "book/events/typed.h"
#include "book/questions/journal.h"
#include "page/entry.h"
#include "page/lists.h"
#include "page/rooms.h"
#include "words/days.h"

namespace nonrunner::page {

namespace {

constexpr std::size_t shown_at_once = 40;

std::string about(const book::JournalRow& row) {
  if (row.voids) return fmt::format("{} (takes back entry {})", row.what, *row.voids);
  if (row.voided_by) return fmt::format("{} (taken back by entry {})", row.what, *row.voided_by);
  return row.what;
}

// What would go, and what would count again, is named before it does; what was entered meanwhile is not taken instead.
Html undo_form(const Visit& visit) {
  const book::Undone all = book::to_undo(visit.book, visit.request.device, visit.now);
  Html named;
  for (const book::EntryId id : all.taken_back) named += html("<li>{}</li>\n", said_of(visit.book, id));
  for (const book::EntryId id : all.made_again)
    named += html("<li>taken back, and would count again: {}</li>\n", said_of(visit.book, id));
  if (named.empty()) return named;
  return html(
      "<form method=\"post\" action=\"/undo\">\n<p>Entered last on this device:</p>\n<ul>\n{}</ul>\n"
      "<input type=\"hidden\" name=\"last\" value=\"{}\">\n<button>Take that back</button>\n</form>\n",
      named, std::to_string(book::last_entry(visit.book)));
}

}  // namespace

Answer rooms::entries(Visit& visit) {
  const Currency& c = visit.book.currency();
  const auto all = book::journal(visit.book, visit.request.query.get("car"));
  std::vector<std::vector<Html>> rows;
  for (auto row = all.rbegin(); row != all.rend() && rows.size() < shown_at_once; ++row) {
    const std::string number = std::to_string(row->entry);
    const bool counts = !row->voids && !row->voided_by && row->kind != "average";
    rows.push_back(
        {counts ? html("<a href=\"{}\">{}</a>", path_of("/correct/", number), number) : safe(number),
         safe(words::shown_day(row->day)), safe(row->kind), safe(about(*row)),
         safe(is_zero(row->amount) ? "" : row->amount.shown(c))});
  }
  Html content = what_was_entered(visit);
  if (rows.empty())
    content += html("<p>No entries yet.</p>\n");
  else
    content += undo_form(visit) +
               table("The last entries, the newest first", {"entry", "day", "event", "what", "amount"}, rows);
  return page(visit, "Entries", content);
}

}  // namespace nonrunner::page
