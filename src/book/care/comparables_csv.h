// Comparables as CSV, or as copied out of a spreadsheet (cells parted by tabs): a heading with the columns
// in any order, or no heading and the first seven as they are listed.
#pragma once
#include <string>
#include <vector>

#include "book/events/comparables.h"
#include "text/file_keys.h"

namespace nonrunner::book {

const std::vector<FileKey>& comparable_columns();

// Throws Refusal `file:row: what`.
std::vector<book::KeptComparable> read_comparables_csv(const std::string& text, const std::string& name,
                                                       const Currency&, const std::string& model, Day today);

}  // namespace nonrunner::book
