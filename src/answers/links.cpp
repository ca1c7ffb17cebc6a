#include "answers/links.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <set>

#include "answers/kept_job.h"
#include "answers/renamed.h"
#include "appraisal/estimate.h"
#include "book/events/assigned.h"
#include "book/events/plan.h"
#include "book/ledger/names.h"
#include "book/ledger/query.h"
#include "exact/ends.h"
#include "figures/every_budget.h"
#include "text/lower_case.h"
#include "text/typed_numbers.h"

namespace nonrunner::answers {

namespace {

constexpr int fee_days = 14;  // after the purchase; common practice, no source

bool is_number(const std::string& word) {
  return std::all_of(word.begin(), word.end(), [](unsigned char c) { return std::isdigit(c) != 0; });
}

// Without numbers, small words and the plural's s.
std::vector<std::string> telling_words(const std::string& text) {
  static const std::set<std::string> small = {"a",   "an",   "s",    "the", "and", "or", "of",
                                              "for", "with", "from", "to",  "by",  "at"};
  std::vector<std::string> words;
  for (std::string& word : plain_words(text)) {
    if (is_number(word) || small.contains(word)) continue;
    if (word.size() >= 4 && word.back() == 's') word.pop_back();
    words.push_back(word);
  }
  return words;
}

std::vector<std::string> head_of(const std::string& name) {
  std::size_t end = name.find_first_of(",([");
  for (const char* word : {" with ", " for "}) end = std::min(end, name.find(word));
  return telling_words(name.substr(0, end));
}

// Equal, or one letter changed, added or missing where both have five letters or more.
bool alike(const std::string& a, const std::string& b) {
  if (a == b) return true;
  if (a.size() < 5 || b.size() < 5) return false;
  const std::string &longer = a.size() >= b.size() ? a : b, &shorter = a.size() >= b.size() ? b : a;
  if (longer.size() - shorter.size() > 1) return false;
  std::size_t at = 0;
  while (at < shorter.size() && longer[at] == shorter[at]) ++at;
  return longer.substr(at + 1) == shorter.substr(longer.size() == shorter.size() ? at + 1 : at);
}

bool all_in(const std::vector<std::string>& words, const std::vector<std::string>& among) {
  return !words.empty() && std::all_of(words.begin(), words.end(), [&](const std::string& word) {
    return std::any_of(among.begin(), among.end(),
                       [&](const std::string& other) { return alike(word, other); });
  });
}

bool is_close(const std::vector<std::string>& entry, const std::string& name) {
  return all_in(head_of(name), entry) || (entry.size() >= 2 && all_in(entry, telling_words(name)));
}

void add_name(std::vector<LineName>& all, const std::string& name, bool is_hours, Day day,
              const std::vector<std::string>& also = {}) {
  for (LineName& each : all)
    if (each.is_hours == is_hours && each.name == name) {
      for (const std::string& other : also)
        if (std::find(each.also.begin(), each.also.end(), other) == each.also.end())
          each.also.push_back(other);
      return;
    }
  all.push_back({name, is_hours, also, day, static_cast<int>(all.size()) + 1});
}

void add_planned(std::vector<LineName>& all, const book::PlannedLine& line) {
  add_name(all, line.name, false, line.day);
  if (line.hours > Hours{}) add_name(all, line.name, true, line.day);
}

}  // namespace

std::string name_to_plan(const book::Book& book, const std::string& tag, const std::string& text) {
  const std::vector<LineName> names = line_names(book, tag);
  const auto written_so = [&](const LineName& each) { return each.name == text; };
  const auto same = [&](const LineName& each) { return same_name(each.name, text); };
  if (std::ranges::any_of(names, written_so)) return text;
  const auto found = std::ranges::find_if(names, same);
  return found == names.end() ? text : found->name;
}

std::optional<std::string> of_own_name(const std::vector<LineName>& names, const std::string& text,
                                       bool is_hours) {
  for (const LineName& each : names)  // as it is written, before one that differs in its letters alone
    if (each.is_hours == is_hours && each.name == text) return each.name;
  for (const LineName& each : names)
    if (each.is_hours == is_hours && same_name(each.name, text)) return each.name;
  // By how a fault is put right, where only one fault is put right so.
  const LineName* by_alias = nullptr;
  for (const LineName& each : names)
    for (const std::string& other : each.also) {
      if (each.is_hours != is_hours || !same_name(other, text)) continue;
      if (by_alias && by_alias != &each) return std::nullopt;
      by_alias = &each;
    }
  if (by_alias) return by_alias->name;
  return std::nullopt;
}

namespace {

// What was said of entries and receipt lines, the last word first asked.
class Said {
 public:
  Said(const book::Book& book, const std::string& tag, std::optional<Day> on)
      : assigned_(book::assigned(book, tag)) {
    for (const book::DatedMark& mark : book::marks_of(book, tag, on)) {
      if (mark.says != book::says::under) continue;
      if (mark.line)
        lines_[*mark.line] = mark.name;
      else
        entries_[mark.entry] = mark.name;
    }
  }
  // Absent: nothing was said; empty: under none.
  std::optional<std::string> of(const book::MoneyLine& line) const {
    if (const auto found = assigned_.find("line " + line.line); found != assigned_.end())
      return found->second;
    if (const auto found = assigned_.find("entry " + std::to_string(line.entry)); found != assigned_.end())
      return found->second;
    if (!line.operation.empty())
      if (const auto found = assigned_.find("operation " + line.operation); found != assigned_.end())
        return found->second;
    if (const auto found = lines_.find(line.line_number); line.line_number != 0 && found != lines_.end())
      return found->second;
    if (const auto found = entries_.find(line.entry); found != entries_.end()) return found->second;
    return std::nullopt;
  }
  std::optional<std::string> of(const figures::Work& work) const {
    book::MoneyLine line;
    line.entry = work.entry;
    line.operation = work.operation;
    return of(line);
  }

 private:
  std::map<std::string, std::string> assigned_;
  std::map<std::int64_t, std::string> lines_;
  std::map<book::EntryId, std::string> entries_;
};

// Paid with the purchase, or so soon after it that it is the title or the tow.
bool is_of_purchase(const book::Life& life, const book::MoneyLine& line) {
  if (life.bought == 0) return false;
  const int after = days_between(life.bought_said, line.day);
  return line.entry == life.bought || (after >= 0 && after <= fee_days);
}

std::optional<std::string> named(std::string name) {
  return name.empty() ? std::nullopt : std::optional(std::move(name));
}

}  // namespace

void add_names_of(std::vector<LineName>& all, const appraisal::Job& job, Day day) {
  add_name(all, figures::every_budget::fees, false, day);
  add_name(all, figures::every_budget::opening_up, false, day);
  for (const appraisal::Correction& correction : job.corrections) {
    const appraisal::Needs needs = appraisal::needs_of(job, correction);
    for (const auto& line : needs.lines) add_name(all, line.what, false, day);
    for (const auto& work : needs.work) add_name(all, work.operation, true, day);
  }
  add_name(all, figures::every_budget::opening_up, true, day);
  for (const appraisal::Fault& fault : job.faults) {
    std::vector<std::string> fixes;
    for (const appraisal::Fix& fix : fault.fixes) fixes.push_back(fix.name);
    add_name(all, fault.name, false, day, fixes);
    add_name(all, fault.name, true, day, fixes);
  }
  for (const appraisal::Trouble& trouble : job.troubles) {
    add_name(all, trouble.name, false, day);
    add_name(all, trouble.name, true, day);
  }
}

std::vector<LineName> line_names(const book::Book& book, const std::string& tag) {
  std::vector<LineName> all;
  const std::vector<book::PlannedLine> planned = book::planned(book, tag);
  std::vector<book::KeptAppraisal> kept = book::appraisals_of(book, tag);
  std::stable_sort(kept.begin(), kept.end(), [](const auto& a, const auto& b) { return a.id < b.id; });
  std::vector<bool> added(planned.size(), false);
  auto parted = *book::first<std::optional<book::EntryId>>(
      book, "SELECT min(entry) FROM part_out WHERE vehicle = :tag", {{":tag", tag}});
  const auto add_parting_out_by = [&](std::optional<book::EntryId> entry) {
    if (!parted || (entry && *parted > *entry)) return;
    add_name(all, figures::every_budget::parting_out, false, Day{});
    add_name(all, figures::every_budget::parting_out, true, Day{});
    parted.reset();
  };
  const auto add_up_to = [&](std::optional<book::EntryId> entry) {
    for (std::size_t i = 0; i < planned.size(); ++i)
      if (!added[i] && (!entry || planned[i].entry <= *entry)) {
        add_parting_out_by(planned[i].entry);
        add_planned(all, planned[i]);
        added[i] = true;
      }
    add_parting_out_by(entry);
  };
  for (const book::KeptAppraisal& each : kept) {
    add_up_to(each.after_entry);
    add_names_of(all, read_kept_job(book, tag, each), each.day);
  }
  add_up_to({});
  return all;
}

std::optional<std::string> name_meant(const std::vector<LineName>& names, const std::string& text,
                                      bool is_hours) {
  if (const auto own = of_own_name(names, text, is_hours)) return own;
  for (const LineName& each : names)
    if (std::to_string(each.number) == text) return each.name;
  return std::nullopt;
}

std::string words_meant(const book::Book& book, const std::string& where, const std::string& tag,
                        const std::string& words, bool is_hours) {
  if (!all_digits(words)) return words;
  const std::vector<LineName> names = line_names(book, tag);
  // The number of a line of money is no work, and the other way round, but where both have the name.
  if (const auto name = name_meant(names, words, is_hours))
    if (std::ranges::any_of(
            names, [&](const LineName& each) { return each.name == *name && each.is_hours == is_hours; }))
      return *name;
  if (words.size() > 3) return words;
  std::string known;
  for (const LineName& each : names)
    if (each.is_hours == is_hours && known.size() < 60)
      known += fmt::format("{}{} {}", known.empty() ? "" : ", ", each.number, each.name);
  throw Refusal(fmt::format("{}: found \"{}\", expected words, or the number of a line of {}'s budget{}",
                            where, words, tag, known.empty() ? ", which has none" : ", such as " + known));
}

std::optional<std::string> line_meant(const std::vector<LineName>& names, const std::string& text,
                                      bool is_hours) {
  if (const auto whole = name_meant(names, text, is_hours)) return whole;
  const std::string begins = lower_case(text);
  std::optional<std::string> only;
  for (const LineName& each : names) {
    if (each.is_hours != is_hours || begins.empty() || !lower_case(each.name).starts_with(begins)) continue;
    if (only && *only != each.name) return std::nullopt;
    only = each.name;
  }
  return only;
}

std::size_t words_in_head(const std::string& name) { return head_of(name).size(); }

std::vector<const LineName*> close_names(const std::vector<LineName>& names, const std::string& words,
                                         bool is_hours) {
  std::vector<const LineName*> close;
  const std::vector<std::string> entry = head_of(words);
  if (entry.empty()) return close;
  for (const LineName& each : names) {
    if (each.is_hours != is_hours) continue;
    bool near = is_close(entry, each.name);
    for (const std::string& other : each.also) near = near || is_close(entry, other);
    // Of a fault, one word has to be one of its first two: "seat", not "clean".
    if (!each.also.empty() && entry.size() == 1) {
      const std::vector<std::string> first = telling_words(each.name);
      near = std::any_of(first.begin(),
                         first.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(2, first.size())),
                         [&](const std::string& word) { return alike(word, entry[0]); });
    }
    if (near) close.push_back(&each);
  }
  return close;
}

Links links_of(const book::Book& book, const std::string& tag, const std::vector<LineName>& names,
               const std::vector<book::MoneyLine>& money, const std::vector<figures::Work>& worked,
               std::optional<Day> on) {
  const Said said(book, tag, on);
  const Renamed renamed(book, tag, on);
  const book::Life life = book::life_of(book, tag, on);
  Links links;
  std::map<std::int64_t, std::optional<std::string>> of_line;  // what goes back stands where it was bought
  for (const book::MoneyLine& line : money) {
    std::optional<std::string> under;
    const auto bought = of_line.find(line.line_number);
    if (!book::is_cost(line.kind)) {
      under = std::nullopt;
    } else if (line.line_number != 0 && bought != of_line.end()) {
      under = bought->second;
    } else if (const auto name = said.of(line)) {
      under = named(*name);
    } else {
      under = of_own_name(names, line.what, false);
      if (!under && line.kind == book::MoneyKind::fee && is_of_purchase(life, line))
        under = figures::every_budget::fees;
    }
    if (under) under = renamed.now(*under);
    if (line.line_number != 0) of_line.emplace(line.line_number, under);
    links.money.push_back(under);
  }
  for (const figures::Work& work : worked) {
    const auto name = said.of(work);
    auto under = name ? named(*name) : of_own_name(names, work.operation, true);
    if (under) under = renamed.now(*under);
    links.worked.push_back(under);
  }
  return links;
}

}  // namespace nonrunner::answers
