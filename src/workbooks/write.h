// A workbook by its kind, the same for every surface: an answer's figures, with the words that its cells hold, given to
// the writer of that workbook.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/book.h"

namespace nonrunner::workbooks {

enum class Kind { appraisal, profit, job, year, shopping };
const std::vector<std::string>& kinds();  // as they are typed, in the order of the list
std::optional<Kind> kind_of(const std::string& typed);

struct Wanted {
  Kind kind = Kind::appraisal;
  std::string about;      // the tag of a car; may be empty for the shopping list: of all cars
  int year = 0;           // of the kind year, which is about no car
  bool is_short = false;  // of a profit: for a bank or a buyer
  bool initials = false;  // of buyers, sellers and helpers, in the place of their names
};
// What is wanted of a kind that has no such thing: "short" or "initials"; empty where all of it can be had.
std::string not_of_its_kind(const Wanted&);
// The kinds that have it: "profit", "profit or year".
std::string kinds_with(const std::string& wanted);
// Throws Refusal where the book knows no such car.
void write(const book::Book&, const Wanted&, Day today, const std::filesystem::path& out);

}  // namespace nonrunner::workbooks
