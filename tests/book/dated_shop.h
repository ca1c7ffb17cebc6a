// A book that is told the events of the bookkeeper by days: each in a recording of its own, refused or kept.
#pragma once
#include <map>
#include <string>

#include "book/dated_words.h"
#include "book/fixture.h"

namespace dated {

// The event's word where a story closes the books: `day` and all before it.
inline Event closing(const std::string& on) { return event("close", on, "", 0); }

class ToldShop {
 public:
  ToldShop();
  // The book's refusal, whole, without the place in the file; empty where it took the event. Of what is new each ninth
  // is taken back with `undo` and told once more, which is to change nothing.
  std::string tell(const Event&);
  nonrunner::book::Shop shop;
  nonrunner::book::EntryId entry_of(const std::string& name) const { return entries_.at(name); }
  bool knows(const std::string& name) const { return entries_.contains(name); }

 private:
  void post(const Event&);
  std::map<std::string, nonrunner::book::EntryId> entries_;
  int told_ = 0;
};

// The same, told to the bookkeeper by days.
void tell(Bookkeeper&, const Event&);

}  // namespace dated
