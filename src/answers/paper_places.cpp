#include "answers/paper_places.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "answers/budget.h"
#include "answers/links.h"
#include "book/ledger/names.h"

namespace nonrunner::answers {

namespace {

bool stands_alone(const book::ReceiptLine& line) {
  return line.shares.size() == 1 && line.return_of.empty() && line.core_of.empty();
}

// The line of the budget that a line of the paper stands under without a question; empty: none.
std::string stands_under(const std::vector<LineName>& names, const book::ReceiptLine& line,
                         const std::string& tag) {
  if (const auto said = line.under.find(tag); said != line.under.end()) return said->second;
  return name_meant(names, line.what, false).value_or("");
}

bool counts_sets(const std::string& what) {
  for (const char* word : {"pair", "set of", "both"})
    if (what.find(word) != std::string::npos) return true;
  return false;
}

}  // namespace

std::vector<PaperPlace> places_to_ask(const book::Book& book, const book::Receipt& receipt,
                                      const std::vector<book::EntryId>& replaced) {
  std::vector<PaperPlace> all;
  if (!receipt.itemised) return all;
  std::map<std::string, Places> places;
  struct Before {
    std::string name, words;
  };
  std::map<std::string, Before> before;  // by car: the last line of the paper that stands under one
  for (std::size_t i = 0; i < receipt.lines.size(); ++i) {
    const book::ReceiptLine& line = receipt.lines[i];
    if (!stands_alone(line)) continue;
    const std::string& tag = line.shares.front().vehicle;
    const Places& of_car = places.try_emplace(tag, book, tag, replaced).first->second;
    const std::string under = stands_under(of_car.names(), line, tag);
    if (!under.empty()) before[tag] = {under, line.what};
    if (!under.empty() || line.under.contains(tag)) continue;
    PaperPlace place{i, tag, {}, ""};
    const bool goes_with = line.kind == "fee" || line.kind == "sublet";
    if (const auto found = before.find(tag); goes_with && found != before.end()) {
      place.placing = of_car.under(found->second.name);
      place.follows = found->second.words;
    } else {
      place.placing = of_car.placing(line.what, false);
    }
    if (!place.placing.close.empty()) all.push_back(std::move(place));
  }
  return all;
}

void carry_place(const book::Book& book, book::Receipt& receipt, const std::vector<book::EntryId>& replaced) {
  if (receipt.lines.size() != 1 || replaced.empty()) return;
  book::ReceiptLine& line = receipt.lines.front();
  if (!stands_alone(line)) return;
  const std::string& tag = line.shares.front().vehicle;
  if (line.under.contains(tag) || !book::has_vehicle(book, tag)) return;  // a new car has no budget
  if (!stands_under(line_names(book, tag), line, tag).empty()) return;
  const auto budget = budget_of(book, tag);
  if (!budget) return;
  const std::vector<std::string> stood = stood_under(*budget, replaced);
  if (stood.size() == 1) line.under[tag] = stood.front();
}

Question question_of(const PaperPlace& place, const book::Receipt& receipt) {
  const std::string& what = receipt.lines[place.line].what;
  Question question = question_of(place.placing, "receipt", what);
  if (place.follows.empty()) return question;
  question.words = fmt::format("\"{}\" goes with \"{}\": does it stand under line {}, {}", what,
                               place.follows, place.placing.number, place.placing.close);
  question.usual = 0;
  return question;
}

void answer(const PaperPlace& place, std::size_t choice, book::Receipt& receipt) {
  if (choice == 0)
    receipt.lines[place.line].under[place.tag] = place.placing.close;
  else if (place.follows.empty())
    receipt.lines[place.line].under[place.tag] = "";
}

std::vector<PiecesApart> pieces_apart(const book::Book& book, const book::Receipt& receipt) {
  std::vector<PiecesApart> all;
  if (!receipt.itemised) return all;
  std::map<std::string, std::optional<Budget>> budgets;
  std::map<std::string, std::vector<LineName>> names;
  std::map<std::pair<std::string, std::string>, Quantity> on_paper;  // by car and line of its budget, so far
  for (std::size_t i = 0; i < receipt.lines.size(); ++i) {
    const book::ReceiptLine& line = receipt.lines[i];
    if (!stands_alone(line)) continue;
    const std::string& tag = line.shares.front().vehicle;
    if (!budgets.contains(tag)) {
      budgets[tag] = budget_of(book, tag);
      names[tag] = line_names(book, tag);
    }
    if (!budgets[tag]) continue;
    const std::string under = stands_under(names[tag], line, tag);
    for (const BudgetLine& planned : budgets[tag]->lines) {
      if (planned.estimate.what != under || !planned.by_piece() || planned.finished() ||
          planned.qty <= Quantity{} || planned.estimate.kind == appraisal::EstimatedLine::Kind::consumable)
        continue;
      const Quantity there = planned.pieces + (on_paper[{tag, under}] += line.quantity);
      if (there > planned.qty)
        all.push_back({i, tag, under, there, planned.qty, there - planned.qty, false});
      else if (there < planned.qty && counts_sets(line.what))
        all.push_back({i, tag, under, there, planned.qty, {}, true});
    }
  }
  return all;
}

}  // namespace nonrunner::answers
