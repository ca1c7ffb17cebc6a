#include "answers/placing.h"

#include <fmt/format.h>

#include <algorithm>

#include "answers/links.h"
#include "exact/hint.h"
#include "exact/nearest.h"

namespace nonrunner::answers {

namespace {

[[noreturn]] void refuse(const std::string& event, const std::string& tag, const std::string& text,
                         const std::vector<LineName>& names) {
  std::vector<std::string> known;
  for (const LineName& each : names) known.push_back(each.name);
  throw hinted<Refusal>(
      fmt::format("{}: found \"{}\", expected a line of the budget of {}, by its number or its name{}", event,
                  text, tag, did_you_mean(text, known)),
      {Action::show_budget, {{"tag", tag}}});
}

// The lines that are still open, and those that open again; where there is no budget to say so, all.
std::vector<LineName> open_ones(const book::Book& book, const std::string& tag, std::vector<LineName> names,
                                const std::vector<book::EntryId>& replaced) {
  const auto budget = budget_of(book, tag);
  if (!budget || budget->not_put_right) return names;
  const std::vector<std::string> open_again = stood_under(*budget, replaced);
  std::erase_if(names, [&](const LineName& each) {
    if (each.is_hours)
      return std::none_of(budget->work.begin(), budget->work.end(), [&](const BudgetWork& work) {
        return work.estimate.operation == each.name && !work.finished();
      });
    if (std::find(open_again.begin(), open_again.end(), each.name) != open_again.end()) return false;
    return std::none_of(budget->lines.begin(), budget->lines.end(), [&](const BudgetLine& line) {
      return line.estimate.what == each.name && !line.finished();
    });
  });
  return names;
}

// Of money, else of hours.
std::optional<std::string> line_of_whole_name(const std::vector<LineName>& names, const std::string& text) {
  if (const auto money = name_meant(names, text, false)) return money;
  return name_meant(names, text, true);
}

int number_of(const std::vector<LineName>& names, const std::string& name, bool is_hours) {
  for (const LineName& each : names)
    if (each.name == name && each.is_hours == is_hours) return each.number;
  return 0;
}

}  // namespace

Question question_of(const Placing& placing, const std::string& event, const std::string& words) {
  Question question;
  question.about = event;
  question.words = fmt::format("\"{}\": is that line {}, {}", words, placing.number, placing.close);
  question.choices = {{"y", "it stands under that line", "for", std::to_string(placing.number)},
                      {"n", "it stands under none", "for", book::under_none}};
  if (placing.close_enough) question.usual = 0;
  return question;
}

void answer(Placing& placing, std::size_t choice) {
  placing.says = choice == 0 ? placing.close : std::string();
  placing.line = *placing.says;
  placing.close.clear();
}

std::vector<std::string> stood_under(const Budget& budget, const std::vector<book::EntryId>& entries) {
  std::vector<std::string> names;
  for (const PlacedMoney& money : budget.money) {
    if (!money.place || std::find(entries.begin(), entries.end(), money.entry) == entries.end()) continue;
    const std::string& name = budget.lines[*money.place].estimate.what;
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  return names;
}

Places::Places(const book::Book& book, const std::string& tag, std::vector<book::EntryId> replaced)
    : book_(book), tag_(tag), replaced_(std::move(replaced)), names_(line_names(book, tag)) {}

Placing Places::placing(const std::string& words, bool is_hours) const {
  Placing placing;
  if (const auto own = name_meant(names_, words, is_hours); own && !words.empty()) {
    placing.line = *own;
  } else {
    if (!open_) open_ = open_ones(book_, tag_, names_, replaced_);
    const auto close = close_names(*open_, words, is_hours);
    if (close.size() == 1) {
      placing.close = close.front()->name;
      placing.close_enough = words_in_head(placing.close) > 1 && words_in_head(words) > 1;
    }
  }
  placing.number = number_of(names_, placing.line.empty() ? placing.close : placing.line, is_hours);
  return placing;
}

Placing Places::under(const std::string& line) const {
  Placing placing;
  placing.close = line;
  placing.close_enough = true;
  placing.number = number_of(names_, line, false);
  return placing;
}

namespace {

// A number is one line: said of hours, that of a line of money is a slip, and no heading of one's own.
void refuse_other_sort(const std::string& event, const std::string& tag, const std::string& said,
                       const std::string& name, const std::vector<LineName>& names, bool is_hours) {
  const bool is_number = std::all_of(said.begin(), said.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (!is_number || number_of(names, name, is_hours) == std::atoi(said.c_str())) return;
  throw hinted<Refusal>(
      fmt::format("{}: found line {}, {}, which is one of {}, expected a line of {} of the budget of {}",
                  event, said, name, is_hours ? "money" : "hours", is_hours ? "hours" : "money", tag),
      {Action::show_budget, {{"tag", tag}}});
}

}  // namespace

Placing placing_of(const book::Book& book, const std::string& event, const std::string& tag,
                   const std::string& words, const std::optional<std::string>& said, bool is_hours) {
  const Places places(book, tag);
  if (!said) return places.placing(words, is_hours);
  Placing placing;
  if (*said == book::under_none) {
    placing.says = "";
    return placing;
  }
  // A beginning of a line comes last: "readying" is the heading, whatever line begins so.
  auto name = name_meant(places.names(), *said, is_hours);
  if (!name && figures::is_in_every_budget(*said)) name = *said;
  if (!name) name = line_meant(places.names(), *said, is_hours);
  if (!name) refuse(event, tag, *said, places.names());
  refuse_other_sort(event, tag, *said, *name, places.names(), is_hours);
  placing.says = placing.line = *name;
  placing.number = number_of(places.names(), placing.line, is_hours);
  return placing;
}

std::optional<std::string> line_if_named(const book::Book& book, const std::string& tag,
                                         const std::string& text) {
  const std::vector<LineName> names = line_names(book, tag);
  if (const auto whole = line_of_whole_name(names, text)) return whole;
  const auto money = line_meant(names, text, false), hours = line_meant(names, text, true);
  if (money && hours && *money != *hours) return std::nullopt;
  return money ? money : hours;
}

std::optional<std::string> line_if_wholly_named(const book::Book& book, const std::string& tag,
                                                const std::string& text) {
  return line_of_whole_name(line_names(book, tag), text);
}

std::string line_named(const book::Book& book, const std::string& event, const std::string& tag,
                       const std::string& text) {
  if (const auto line = line_if_named(book, tag, text)) return *line;
  refuse(event, tag, text, line_names(book, tag));
}

}  // namespace nonrunner::answers
