#include "book/events/finding.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstring>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "book/ledger/query.h"
#include "exact/ends.h"

namespace nonrunner::book {

namespace {

// The keys of an events file; those of two halves are written NAME=VALUE.
enum class Half { none, may, must };  // whether a second one follows, NAME=VALUE
struct Key {
  const char* key;
  const char* what;
  Half second;
  const char* means;
};
constexpr Key keys[] = {
    {"seen", fact::seen, Half::must, "tests and their outcomes, each \"TEST=OUTCOME\""},
    {"ruled_out", fact::ruled_out, Half::none, "causes that it is not"},
    {"trouble", fact::trouble, Half::must,
     "troubles found or not, each \"NAME=there\" or \"NAME=not there\""},
    {"failed", fact::failed, Half::none, "corrections that were made and did not cure"},
    {"cured", fact::cured, Half::none, "corrections that did"},
    {"not_there", fact::not_there, Half::may, "what was looked for in vain, each \"WHAT\" or \"WHAT=PLACE\""},
    {"same", fact::same, Half::must, "names that a later appraisal calls otherwise, each \"OLD=NEW\""}};

// The cause stands first, apart from these.
std::size_t order_of(const Fact& fact) {
  for (std::size_t i = 0; i < std::size(keys); ++i)
    if (fact.what == keys[i].what) return i + 1;
  return 0;
}

Fact fact_of(const Key& key, const std::string& text) {
  const auto at = text.rfind('=');
  if (key.second == Half::none || (key.second == Half::may && at == std::string::npos))
    return {key.what, text, ""};
  if (at == std::string::npos || at == 0 || (at + 1 == text.size() && key.second == Half::must))
    throw Refusal(fmt::format("finding: {}: found \"{}\", expected NAME=VALUE", key.key, text));
  return {key.what, text.substr(0, at), text.substr(at + 1)};
}

void read_facts(const Table& table, const Key& key, Finding& finding) {
  if (!table.has(key.key)) return;
  for (const std::string& text : table.texts(key.key)) finding.facts.push_back(fact_of(key, text));
}

void write_facts(EventText& event, const Key& key, const Finding& finding) {
  std::vector<std::string> texts;
  for (const Fact& each : finding.facts)
    if (each.what == key.what)  // one that holds the mark itself says that nothing stands behind it
      texts.push_back(each.value.empty() && each.name.find('=') == std::string::npos
                          ? each.name
                          : each.name + "=" + each.value);
  event.texts(key.key, texts);
}

// "not there: radiator, at Cleave Yard" -> what it was, and where; absent for words that do not begin so.
std::optional<Fact> looked_for_in_vain(const std::string& text) {
  static const std::string begins = "ot there";
  if ((text.rfind('n', 0) != 0 && text.rfind('N', 0) != 0) || text.compare(1, begins.size(), begins) != 0)
    return std::nullopt;
  const std::size_t end = 1 + begins.size();
  if (end < text.size() && !std::strchr(":,; ", text[end])) return std::nullopt;  // "not therefore"
  const auto what = text.find_first_not_of(":,; ", end);
  if (what == std::string::npos) return Fact{fact::not_there, text, ""};
  const auto at = text.rfind(", at ");
  if (at == std::string::npos || at <= what) return Fact{fact::not_there, text.substr(what), ""};
  return Fact{fact::not_there, text.substr(what, at - what), text.substr(at + 5)};
}

bool holds_fact(const std::vector<Fact>& facts, const char* what) {
  return std::any_of(facts.begin(), facts.end(), [&](const Fact& each) { return each.what == what; });
}

}  // namespace

void fields(Finding& finding, Fields& f) {
  f.day({"date", "the day of it"}, finding.day);
  f.text({"vehicle", "the car"}, Text::tag, finding.vehicle);
  f.text({"text", "what was found"}, Text::words, finding.text);
  f.other(
      {"cause", "the cause that was found, as the job file calls it", Need::may}, Holds::text, "a name",
      [&](const Table& table, const Currency&) {
        if (const std::string cause = table.text_or("cause", ""); !cause.empty())
          finding.facts.push_back({fact::cause, cause, ""});
      },
      [&](EventText& event) {
        for (const Fact& each : finding.facts)
          if (each.what == fact::cause) event.text("cause", each.name);
      });
  for (const Key& key : keys)
    f.other(
        {key.key, key.means, Need::may}, Holds::texts, "a list",
        [&](const Table& table, const Currency&) { read_facts(table, key, finding); },
        [&](EventText& event) { write_facts(event, key, finding); });
}

EntryId record(Recording& recording, const Finding& given) {
  if (given.text.empty()) throw Refusal("finding: the text is empty, expected a few words");
  Finding finding = given;
  if (!holds_fact(finding.facts, fact::not_there))
    if (const auto fact = looked_for_in_vain(finding.text)) finding.facts.push_back(*fact);
  for (const Fact& each : finding.facts)
    if (each.name.empty())
      throw Refusal(fmt::format("finding: {}: found no name, expected what it is about", each.what));
  // In the order in which its event says them, whoever typed them: entered again from there it is the same entry.
  std::stable_sort(finding.facts.begin(), finding.facts.end(),
                   [](const Fact& a, const Fact& b) { return order_of(a) < order_of(b); });
  meet_vehicle(recording, "finding", finding.vehicle);
  Draft draft(recording, "finding", finding.day);
  draft.mention(finding.vehicle);
  write(draft, recording.currency(), finding);
  std::string cause;
  for (const Fact& each : finding.facts) {
    if (each.what == fact::cause) cause = each.name;
    draft.detail("found", {finding.vehicle, each.what, each.name, each.value});
  }
  draft.detail("noted", {finding.vehicle, finding.text, cause});
  return draft.record();
}

std::vector<DatedFinding> findings(const Book& book, const std::string& vehicle, std::optional<Day> on) {
  std::vector<DatedFinding> all;
  each<Day, EntryId, std::string, std::string>(
      book,
      "SELECT e.day, e.entry, n.text, n.cause FROM noted n JOIN entry e USING (entry) WHERE n.vehicle = :tag "
      "AND " +
          counts_on(":on") + " ORDER BY e.day, e.entry",
      {{":tag", vehicle}, {":on", on}},
      [&](Day day, EntryId entry, const std::string& text, const std::string& cause) {
        DatedFinding& finding = all.emplace_back();
        finding.day = day;
        finding.entry = entry;
        finding.text = text;
        each<std::string, std::string, std::string>(
            book, "SELECT what, name, value FROM found WHERE entry = :entry ORDER BY rowid",
            {{":entry", entry}},
            [&](const std::string& what, const std::string& name, const std::string& value) {
              finding.facts.push_back({what, name, value});
            });
        // Written before facts had rows of their own.
        if (!cause.empty() && finding.facts.empty()) finding.facts.push_back({fact::cause, cause, ""});
        if (!holds_fact(finding.facts, fact::not_there))
          if (const auto fact = looked_for_in_vain(text)) finding.facts.push_back(*fact);
      });
  return all;
}

std::string found_cause(const Book& book, const std::string& vehicle, std::optional<Day> on) {
  std::string cause;
  for (const DatedFinding& finding : findings(book, vehicle, on))
    for (const Fact& each : finding.facts)
      if (each.what == fact::cause) cause = each.name;
  return cause;
}

}  // namespace nonrunner::book
