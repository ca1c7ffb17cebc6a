#include "book/ledger/names.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/ledger/asked_names.h"
#include "book/ledger/query.h"
#include "exact/hint.h"
#include "exact/nearest.h"
#include "text/tag.h"
#include "text/unicode.h"

namespace nonrunner::book {

void check_tag(const std::string& event, const std::string& tag) {
  if (!is_tag(tag))
    throw Refusal(fmt::format("{}: found the tag \"{}\", expected 1 to 24 of a-z, 0-9 and '-'", event, tag));
  if (tag == "tools" || tag == "owner" || tag == "overhead" || tag == "private")
    throw Refusal(fmt::format(
        "{}: \"{}\" is no car's tag, it names the shop's own account; choose another tag", event, tag));
}

std::vector<std::string> all_tags(const Book& book) {
  std::vector<std::string> tags;
  each<std::string>(book, "SELECT tag FROM vehicle ORDER BY tag", {},
                    [&](const std::string& tag) { tags.push_back(tag); });
  return tags;
}

std::vector<std::string> names_of(const Book& book, const std::string& account_kind) {
  std::vector<std::string> names;
  each<std::string>(book, "SELECT name FROM account WHERE kind = :kind ORDER BY account",
                    {{":kind", account_kind}}, [&](const std::string& name) { names.push_back(name); });
  return names;
}

bool has_vehicle(const Book& book, const std::string& tag) {
  return first<int>(book, "SELECT 1 FROM vehicle WHERE tag = :tag", {{":tag", tag}}).has_value();
}

namespace {
std::string near_or_nothing(const std::string& tag, const std::vector<std::string>& known) {
  return nearest(tag, known) ? did_you_mean(tag, known) : ";";
}
}  // namespace

void meet_vehicle(Recording& recording, const std::string& event, const std::string& tag) {
  if (recording.vehicles[tag]) return;
  check_tag(event, tag);
  if (!has_vehicle(recording.book(), tag)) {
    const bool opens = event == "buy" || event == "pass" || event == "appraise";
    if (recording.strict_words && !opens && !recording.new_words.contains(tag))
      throw hinted<Refusal>(fmt::format("{}: no vehicle has the tag \"{}\"{} if it is a new one, say so",
                                        event, tag, near_or_nothing(tag, all_tags(recording.book()))),
                            {Action::allow_new_name, {{"name", tag}}});
    weigh_new_word(recording, event, "vehicle", tag, all_tags(recording.book()), 4);
    change(recording.book(), "INSERT INTO vehicle VALUES (:tag)", {{":tag", tag}});
  }
  recording.vehicles[tag] = true;
}

void know_vehicle(const Book& book, const std::string& event, const std::string& tag) {
  check_tag(event, tag);
  if (has_vehicle(book, tag)) return;
  const std::string found = fmt::format("{}: no vehicle has the tag \"{}\"", event, tag);
  const auto known = all_tags(book);
  if (nearest(tag, known)) throw Refusal(found + did_you_mean(tag, known));
  throw hinted<Refusal>(found, {Action::list_vehicles, {}});
}

void meet_purse(Recording& recording, const std::string& event, const std::string& purse) {
  if (recording.accounts.contains({account::purse, purse})) return;
  if (purse.empty() || purse.size() > 40)
    throw Refusal(fmt::format(
        "{}: found the purse \"{}\", expected a name of 1 to 40 characters, such as cash", event, purse));
  const auto known = names_of(recording.book(), account::purse);
  const bool is_new = std::find(known.begin(), known.end(), purse) == known.end();
  if (is_new && recording.strict_words && (purse == "on account" || purse == "on-account"))
    throw hinted<Refusal>(
        fmt::format("{}: found the purse \"{}\", expected one that holds money, such as cash", event, purse),
        {Action::owe_instead, {}});
  if (is_new) weigh_new_word(recording, event, "purse", purse, known, 3);
  account_id(recording, account::purse, purse);
}

const char* shown(State state) {
  switch (state) {
    case State::considered:
      return "considered";
    case State::owned:
      return "owned";
    case State::sold:
      return "sold";
    case State::finished:
      return "finished";
    case State::passed:
      return "passed";
  }
  return "";
}

namespace {

void take_turn(Life& life, const std::string& turn, EntryId entry, Day day, Day said, Day stands) {
  if (turn == "bought") {
    life.bought = entry;
    life.bought_day = day;
    life.bought_said = said;
  } else if (turn == "passed") {
    life.passed = entry;
    life.passed_day = day;
  } else {
    life.state = turn == "sold" ? State::sold : State::finished;
    life.ended = entry;
    life.ended_day = day;
    life.ended_said = said;
    life.ended_stands = stands;
  }
  if (life.ended == 0)
    life.state = life.bought != 0 ? State::owned : life.passed != 0 ? State::passed : State::considered;
}

void take_parting(Life& life, EntryId entry, Day day) {
  if (!life.in_pieces_since || day < *life.in_pieces_since) life.in_pieces_since = day;
  life.parted = entry;
  life.parted_day = day;
}

}  // namespace

std::string shown(const Life& life) {
  return life.state == State::owned && life.parted != 0 ? "in pieces" : shown(life.state);
}

Life life_of(const Book& book, const std::string& tag, std::optional<Day> on) {
  Life life;
  static const std::string sql =
      "SELECT l.turn, e.entry, e.day, coalesce(d.day, e.day), coalesce(s.day, e.day) FROM life l JOIN entry "
      "e USING (entry) LEFT JOIN printed d ON d.entry = e.entry LEFT JOIN ended s ON s.entry = e.entry WHERE "
      "l.vehicle = :tag AND " +
      counts_on(":on") + " ORDER BY e.day, e.entry";
  each<std::string, EntryId, Day, Day, Day>(
      book, sql, {{":tag", tag}, {":on", on}},
      [&](const std::string& turn, EntryId entry, Day day, Day said, Day stands) {
        take_turn(life, turn, entry, day, said, stands);
      });
  static const std::string parting_sql =
      "SELECT e.entry, e.day FROM part_out o JOIN entry e USING (entry) WHERE o.vehicle = :tag AND " +
      counts_on(":on") + " ORDER BY e.day, e.entry";
  each<EntryId, Day>(book, parting_sql, {{":tag", tag}, {":on", on}},
                     [&](EntryId entry, Day day) { take_parting(life, entry, day); });
  return life;
}

std::vector<Turn> turns_of(const Book& book, const std::string& tag) {
  std::vector<Turn> all;
  rows(book,
       "SELECT l.turn, e.entry, e.day, v.day FROM life l JOIN entry e USING (entry) LEFT JOIN entry v ON "
       "v.voids = "
       "e.entry WHERE l.vehicle = :tag AND (v.day IS NULL OR v.day > e.day) ORDER BY e.day, e.entry",
       {{":tag", tag}}, [&](const Row& row) {
         Turn& turn = all.emplace_back();
         row.into(turn.turn, turn.entry, turn.from, turn.until);
       });
  return all;
}

std::map<std::string, Life> all_lives(const Book& book, std::optional<Day> on) {
  std::map<std::string, Life> all;
  // CROSS: the few turns first, and their entries by number.
  static const std::string sql =
      "SELECT l.vehicle, l.turn, l.entry, e.day, coalesce(d.day, e.day), coalesce(s.day, e.day) FROM life l "
      "CROSS JOIN entry e USING (entry) LEFT JOIN printed d ON d.entry = e.entry LEFT JOIN ended s ON "
      "s.entry "
      "= e.entry WHERE " +
      counts_on(":on") + " ORDER BY e.day, e.entry";
  each<std::string, std::string, EntryId, Day, Day, Day>(
      book, sql, {{":on", on}},
      [&](const std::string& tag, const std::string& turn, EntryId entry, Day day, Day said, Day stands) {
        take_turn(all[tag], turn, entry, day, said, stands);
      });
  static const std::string parting_sql =
      "SELECT o.vehicle, o.entry, e.day FROM part_out o CROSS JOIN entry e USING (entry) WHERE " +
      counts_on(":on") + " ORDER BY e.day, e.entry";
  each<std::string, EntryId, Day>(
      book, parting_sql, {{":on", on}},
      [&](const std::string& tag, EntryId entry, Day day) { take_parting(all[tag], entry, day); });
  return all;
}

}  // namespace nonrunner::book
