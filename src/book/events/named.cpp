#include "book/events/named.h"

#include <fmt/format.h>

#include "book/ledger/query.h"
#include "exact/ends.h"

namespace nonrunner::book {

void name_facts(Draft& draft, const std::string& event, const std::string& vehicle,
                const std::vector<std::pair<std::string, std::string>>& facts, Distance odometer) {
  for (const auto& [fact, name] : facts) {
    if (name.empty()) continue;
    if (name.size() > 200 || name.find_first_of("\r\n") != std::string::npos)
      throw Refusal(fmt::format(
          "{}: the {} is named with {} letters or several lines, expected one line of at most 200", event,
          fact, name.size()));
    draft.detail("named", {vehicle, fact, name});
  }
  if (odometer < Distance{})
    throw Refusal(fmt::format("{}: found the odometer at {}, expected 0 or more", event, odometer.shown()));
  if (odometer > Distance{}) draft.detail("named", {vehicle, std::string("odometer"), odometer.shown()});
}

std::vector<NamedFact> named_facts(const Book& book, const std::string& vehicle, Day on) {
  std::vector<NamedFact> all;
  rows(book,
       "SELECT e.entry, e.day, n.vehicle, e.kind, n.fact, n.value FROM named n JOIN entry e USING (entry) "
       "WHERE (:tag = '' OR n.vehicle = :tag) AND " +
           counts_on(":on") + " ORDER BY e.entry, n.rowid",
       {{":on", on}, {":tag", vehicle}}, [&](const Row& row) {
         NamedFact& fact = all.emplace_back();
         row.into(fact.entry, fact.day, fact.vehicle, fact.event, fact.fact, fact.value);
       });
  return all;
}

std::map<EntryId, std::vector<std::string>> people_named(const Book& book) {
  std::map<EntryId, std::vector<std::string>> people;
  rows(book,
       "SELECT entry, value FROM named WHERE fact IN ('seller', 'buyer', 'helper') ORDER BY entry, rowid", {},
       [&](const Row& row) {
         EntryId entry = 0;
         std::string name;
         row.into(entry, name);
         people[entry].push_back(name);
       });
  return people;
}

std::string initials_of(const std::string& name) {
  std::string out;
  bool begins = true;
  for (std::size_t i = 0; i < name.size();) {
    const auto byte = static_cast<unsigned char>(name[i]);
    const std::size_t size = byte < 0x80 ? 1 : byte >= 0xF0 ? 4 : byte >= 0xE0 ? 3 : 2;
    if (name[i] == ' ' || name[i] == '-') {
      begins = true;
    } else if (begins) {
      out += (out.empty() ? "" : " ") + name.substr(i, size) + ".";
      begins = false;
    }
    i += size;
  }
  return out;
}

void put_initials(std::string& words, const std::string& name) {
  for (std::size_t at = words.rfind(name); at != std::string::npos;
       at = at == 0 ? std::string::npos : words.rfind(name, at - 1)) {
    const std::size_t end = at + name.size();
    const bool begins = at == 0 || (at >= 2 && words.compare(at - 2, 2, ", ") == 0),
               ends = end == words.size() || words.compare(end, 2, ", ") == 0;
    if (!begins || !ends) continue;
    words.replace(at, name.size(), initials_of(name));
    return;
  }
}

}  // namespace nonrunner::book
