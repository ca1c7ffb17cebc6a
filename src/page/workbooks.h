// A workbook by its kind, alike for the page and the command line.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "book/ledger/book.h"

namespace nonrunner::page {

const std::vector<std::string>& workbook_kinds();

struct WorkbookWanted {
  std::string kind;       // one of them
  std::string about;      // the tag of a car, of "year" its number; may be empty for "shopping": of all cars
  bool is_short = false;  // of a profit: for a bank or a buyer
  bool initials = false;  // of buyers, sellers and helpers, in the place of their names
};
// What is wanted of a kind that has no such thing: "short" or "initials"; empty where all of it can be had.
std::string not_of_its_kind(const WorkbookWanted&);
// The kinds that have it: "profit", "profit or year".
std::string kinds_with(const std::string& wanted);
// Writes it; throws Refusal where the book knows no such car, or the year is none.
void write_workbook(const book::Book&, const WorkbookWanted&, Day today, const std::filesystem::path& out);

}  // namespace nonrunner::page
