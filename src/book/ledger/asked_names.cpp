#include "book/ledger/asked_names.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "book/ledger/checks.h"
#include "book/ledger/names.h"
#include "book/ledger/query.h"
#include "exact/hint.h"
#include "exact/nearest.h"
#include "text/unicode.h"

namespace nonrunner::book {

namespace {

// A known word that `word` is a slip of: one letter off, and more than a number apart ("car-1" and "car-2"
// are two cars). Words of fewer letters than `least` are all near one another.
std::optional<std::string> slip_of(const std::string& word, const std::vector<std::string>& known,
                                   std::size_t least) {
  const auto without_digits = [](std::string text) {
    std::erase_if(text, [](char c) { return c >= '0' && c <= '9'; });
    return text;
  };
  // Letters of another script, wide ones, or what nobody sees: the same name to whoever reads it.
  const std::string looks = likeness(word);
  for (const std::string& each : known)
    if (each != word && likeness(each) == looks) return each;
  if (word.size() < least) return std::nullopt;
  for (const std::string& each : known)
    if (each.size() >= least && each.size() + 1 >= word.size() && each.size() <= word.size() + 1 &&
        word_distance(word, each) == 1 && without_digits(word) != without_digits(each))
      return each;
  return std::nullopt;
}

}  // namespace

std::optional<std::string> slip_of_name(const std::string& name, const std::vector<std::string>& known) {
  if (std::find(known.begin(), known.end(), name) != known.end()) return std::nullopt;
  return slip_of(name, known, 3);
}

void weigh_new_word(Recording& recording, const std::string& event, const char* what, const std::string& word,
                    const std::vector<std::string>& known, std::size_t least) {
  const auto near = slip_of(word, known, least);
  if (near && recording.strict_words && !recording.new_words.contains(word))
    throw hinted<Refusal>(
        fmt::format("{}: there is no {} \"{}\", did you mean \"{}\"? if it is a new one, say so", event, what,
                    word, *near),
        {Action::allow_new_name, {{"name", word}}});
  recording.remarks().push_back(near ? fmt::format("new {}: {} (one letter off \"{}\")", what, word, *near)
                                     : fmt::format("new {}: {}", what, word));
}

void know_purse(const Recording& recording, const std::string& event, const std::string& purse) {
  const auto known = names_of(recording.book(), account::purse);
  const bool is_known = std::find(known.begin(), known.end(), purse) != known.end();
  if (!recording.strict_words || is_known || recording.new_words.contains(purse)) return;
  throw hinted<Refusal>(
      fmt::format("{}: there is no purse \"{}\" that it could come out of{} if it is a new one, say so",
                  event, purse, nearest(purse, known) ? did_you_mean(purse, known) : ";"),
      {Action::allow_new_name, {{"name", purse}}});
}

void weigh_supplier(Recording& recording, const std::string& event, const std::string& supplier) {
  if (supplier.empty() || !is_entered_now(recording)) return;
  // Each paper asks this, and nearly each is from a supplier of before, which an index answers.
  if (first<int>(recording.book(), "SELECT 1 FROM paper WHERE supplier = :supplier",
                 {{":supplier", supplier}}))
    return;
  const auto suppliers = [&](const char* sql) {
    std::vector<std::string> names;
    each<std::string>(recording.book(), sql, {}, [&](const std::string& name) { names.push_back(name); });
    return names;
  };
  // Which of them count is looked at only where a name is close.
  if (!slip_of_name(supplier,
                    suppliers("SELECT DISTINCT supplier FROM paper WHERE supplier <> '' ORDER BY supplier")))
    return;
  const auto known = suppliers(
      "SELECT DISTINCT supplier FROM paper JOIN live_entry USING (entry) WHERE supplier <> '' ORDER BY "
      "supplier");
  if (slip_of_name(supplier, known)) weigh_new_word(recording, event, "supplier", supplier, known, 3);
}

}  // namespace nonrunner::book
