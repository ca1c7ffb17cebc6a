// Who and where, beside an event: whom a car was bought from or sold to, its odometer, who was paid for hours, where a
// trip went. Names as the papers ask for them; no figure depends on them.
//
// Refused:  1 a name of more than 200 letters, or with a line end in it   2 an odometer below 0
#pragma once
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

// Adds what was said to the entry; nothing for an empty name or an odometer of 0.
void name_facts(Draft&, const std::string& event, const std::string& vehicle,
                const std::vector<std::pair<std::string, std::string>>& facts, Distance odometer = {});

// What was said of a car by entries that count, up to the day `on`.
struct NamedFact {
  EntryId entry = 0;
  Day day;
  std::string vehicle, event, fact, value;  // event: buy, sell, hours, trip
};
// "": of all cars. In the order of entering.
std::vector<NamedFact> named_facts(const Book&, const std::string& vehicle, Day on);

// Who was named as a seller, a buyer or a helper by each entry that names somebody, voided ones among them.
std::map<EntryId, std::vector<std::string>> people_named(const Book&);

// "Ann Ember" -> "A. E.": for a workbook that is handed on.
std::string initials_of(const std::string& name);
// The same of a name that is one of the parts of what an entry is about, parted by commas: the last that reads so,
// since it stands behind what the entry is of, which may be called alike.
void put_initials(std::string& words, const std::string& name);

}  // namespace nonrunner::book
