#include "book/dated_shop.h"

#include <sqlite3.h>

#include "book/dated_figures.h"
#include "book/events/correct.h"
#include "book/events/post.h"
#include "book/events/typed.h"
#include "book/ledger/settings.h"

namespace dated {

using namespace nonrunner;
using namespace nonrunner::book;

ToldShop::ToldShop() {
  shop.today = Day(2199, 1, 1);  // no day of a story has yet to come
  // Hundreds of books are filled event by event, and what a pulled plug leaves is not asked here. The book keeps its
  // pragmas from everybody, so its guard is asked to look away.
  sqlite3_set_authorizer(shop.book().database().getHandle(), nullptr, nullptr);
  shop.book().database().exec("PRAGMA synchronous = OFF");
}

void ToldShop::post(const Event& event) {
  shop.post(text_of(event, [&](const std::string& name) { return entry_of(name); }));
}

std::string ToldShop::tell(const Event& event) {
  if (event.word == "close") {
    shop.record([&](Recording& recording) { close(recording, calendar(event.day)); });
    return "";
  }
  const EntryId last = last_entry(shop.book());
  try {
    if (event.word == "correct") {
      Correction correction;
      correction.entry = entry_of(event.names);
      correction.amount = new_amount(event);
      shop.record(
          [&](Recording& recording) { entries_[event.names] = correct(recording, correction).entry; });
      return "";
    }
    post(event);
  } catch (const Refusal& refusal) {
    std::string said = refusal.what();
    while (said.rfind("events.toml:", 0) == 0) said.erase(0, said.find(": ") + 2);
    return said;
  }
  EntryId before = last;
  if (event.names.empty() && ++told_ % 9 == 0) {
    shop.record([&](Recording& recording) { remember_typed(recording, last); });
    shop.record([](Recording& recording) { undo_typed(recording); });
    before = last_entry(shop.book());
    post(event);
  }
  // A paper that replaces comes after the reversal of its quick line; what the book adds by itself comes
  // last.
  auto& find = shop.book().query("SELECT min(entry) FROM entry WHERE entry > ? AND voids IS NULL");
  find.bind(1, before);
  if (find.executeStep() && !event.name.empty()) entries_[event.name] = find.getColumn(0).getInt64();
  find.tryReset();
  return "";
}

void tell(Bookkeeper& keeper, const Event& event) {
  if (event.word == "close")
    keeper.close(event.day);
  else
    keeper.type(event);
}

}  // namespace dated
