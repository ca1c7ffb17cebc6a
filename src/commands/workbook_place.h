// Where a workbook may be written: a name that a spreadsheet program opens, and a place that holds nothing,
// or an earlier workbook. Throws WrongUsage for a name that does not end in .xlsx, Refusal where something
// else stands at the place: a book, a job file, a workbook that somebody changed (unless --over is given).
#pragma once
#include <filesystem>
#include <string>

#include "commands/options.h"

namespace nonrunner::commands {

std::filesystem::path workbook_place(const Given&, const std::string& name);

}  // namespace nonrunner::commands
