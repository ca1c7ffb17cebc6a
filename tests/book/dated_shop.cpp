#include "book/dated_shop.h"

#include "book/dated_figures.h"
#include "book/events/post.h"
#include "book/ledger/settings.h"

namespace dated {

using namespace nonrunner;
using namespace nonrunner::book;

ToldShop::ToldShop() {
  shop.today = Day(2199, 1, 1);  // no day of a story has yet to come
  // Hundreds of books are filled event by event; what a pulled plug leaves is not asked here.
  shop.book().database().exec("PRAGMA synchronous = OFF");
}

std::string ToldShop::tell(const Event& event) {
  if (event.word == "close") {
    shop.record([&](Recording& recording) { close(recording, calendar(event.day)); });
    return "";
  }
  const EntryId last = last_entry(shop.book());
  const std::string text = text_of(event, [&](const std::string& name) { return entry_of(name); });
  std::string said;
  try {
    shop.post(text);
  } catch (const Refusal& refusal) {
    said = refusal.what();
    while (said.rfind("events.toml:", 0) == 0) said.erase(0, said.find(": ") + 2);
    return said;
  }
  if (!event.name.empty()) entries_[event.name] = last + 1;
  return said;
}

void tell(Bookkeeper& keeper, const Event& event) {
  if (event.word == "close")
    keeper.close(event.day);
  else
    keeper.type(event);
}

}  // namespace dated
