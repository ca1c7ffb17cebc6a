// What waits for a paper or for a word: quick lines, oldest first, and what a phone sent that may be there twice.
#include <fmt/format.h>

#include "book/events/attach.h"
#include "book/events/clock.h"
#include "book/events/void_entry.h"
#include "book/ledger/kept.h"
#include "book/questions/entry_now.h"
#include "book/questions/figures.h"
#include "book/questions/journal.h"
#include "page/entry.h"
#include "page/lists.h"
#include "page/rooms.h"
#include "words/days.h"

namespace nonrunner::page {

namespace {

Html alike(const Visit& visit) {
  Html all;
  for (const book::Kept& kept : book::may_be_the_same(visit.book))
    all += html(
        "<form method=\"post\" action=\"/tray\" class=\"ask\">\n{}<p>{} may be the same as {}.</p>\n"
        "<p class=\"choices\">\n<button name=\"is\" value=\"the same\">The same</button>\n"
        "<button name=\"is\" value=\"another\">Another one</button>\n</p>\n</form>\n",
        hidden("id", kept.id), said_of(visit.book, kept.entry), said_of(visit.book, *kept.may_be));
  return all;
}

// One person's clock, and hours from a phone meanwhile: taken, and asked about here until the clock is off.
Html two_places(const Visit& visit) {
  Html all;
  for (const book::Clock& clock : book::clocks(visit.book))
    for (const book::EntryId entry : book::hours_beside(visit.book, clock))
      all += html(
          "<p class=\"reason\">{} runs on {}, and meanwhile came {}. Where both cannot be: "
          "<a href=\"/hours\">the clock</a>, <a href=\"{}\">the entry</a>.</p>\n",
          whose_clock(visit, clock.worker), clock.vehicle, said_of(visit.book, entry),
          path_of("/correct/", std::to_string(entry)));
  return all;
}

Html photos(const Visit& visit, book::EntryId entry) {
  Html links;
  for (const book::Photo& photo : book::photos_of(visit.book, entry))
    links += html("<a href=\"{}\">photo</a> ", path_of("/photo/", photo.sha256));
  return links.empty() ? safe("no photo") : links;
}

}  // namespace

Answer rooms::tray(Visit& visit) {
  const Currency& c = visit.book.currency();
  const Html asked = alike(visit) + two_places(visit);
  std::vector<std::vector<Html>> rows;
  for (const book::Waiting& each : book::tray(visit.book)) {
    std::string cars;
    for (const std::string& tag : each.vehicles) cars += (cars.empty() ? "" : ", ") + tag;
    const std::string number = std::to_string(each.entry);
    rows.push_back({html("{} <a class=\"choice\" href=\"{}\">Write the paper</a>", words::shown_day(each.day),
                         path_of("/paper/", number)),
                    safe(cars), safe(each.what), safe(each.total.shown(c)), safe(each.supplier),
                    photos(visit, each.entry),
                    html("<a href=\"{}\">put it right</a>", path_of("/correct/", number))});
  }
  Html content = what_was_entered(visit) + asked;
  if (!rows.empty())
    content += table("Waiting for their paper, oldest first",
                     {"day, and its paper", "car", "what", "total", "supplier", "photo", "wrong?"}, rows);
  else if (asked.empty())
    content += html("<p>The tray is empty: every paper is in the book.</p>\n");
  content += html(
      "<p><a href=\"/paper/new\">A paper that no quick line waits for</a></p>\n"
      "<p><a href=\"/device\">What a phone saved as a file</a></p>\n");
  return page(visit, "Tray", content);
}

// Is it the same, or another one? Of a paper and its quick line the quick line goes, of two alike the later.
Answer rooms::tray_answer(Visit& visit) {
  const Form& form = visit.request.form;
  const auto kept = book::kept_as(visit.book, form.get("id"));
  if (!kept || !kept->may_be)
    throw Refusal("tray: nobody asks about this entry any more; look at the tray again");
  const bool same = form.get("is") == "the same";
  std::vector<std::string> remarks;
  record_here(
      visit,
      [&](book::Recording& recording) {
        book::EntryId taken_back = 0;
        if (same) {
          const bool paper =
              !book::is_quick(visit.book, kept->entry) && book::is_quick(visit.book, *kept->may_be);
          book::Void request;
          request.entry = paper ? *kept->may_be : kept->entry;
          request.day = book::load_entry(visit.book, request.entry).day;
          request.why = paper ? "replaced by the full paper" : "there twice";
          taken_back = record(recording, request);
          book::photos_follow(recording, request.entry, paper ? kept->entry : *kept->may_be);
        }
        book::say_may_be(recording, kept->id, {});
        return taken_back;
      },
      remarks);
  return entered(visit, 0, "/tray", remarks);
}

}  // namespace nonrunner::page
