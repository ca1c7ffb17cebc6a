#include "commands/workbook_place.h"

#include <fmt/format.h>

#include <fstream>

#include "exact/ends.h"
#include "reports/whole_package.h"
#include "text/lower_case.h"

namespace nonrunner::commands {

std::filesystem::path workbook_place(const Given& given, const std::string& name) {
  const std::filesystem::path place = name;
  if (lower_case(place.extension().string()) != ".xlsx")
    given.wrong(fmt::format("found \"{}\", expected a name that ends in .xlsx", name));
  std::error_code none;
  const auto there = std::filesystem::symlink_status(place, none);
  if (std::filesystem::exists(there) && !std::filesystem::is_regular_file(there) &&
      !std::filesystem::is_symlink(there) && !std::filesystem::is_directory(there))
    throw Refusal(name +
                  ": found something that is no ordinary file, expected a new name; nothing was overwritten");
  if (!std::filesystem::is_regular_file(place, none) || std::filesystem::file_size(place, none) == 0)
    return place;
  // A workbook is a ZIP package (ECMA-376 part 2), which begins with these two letters.
  char first[2] = {};
  std::ifstream(place, std::ios::binary).read(first, 2);
  if (first[0] != 'P' || first[1] != 'K')
    throw Refusal(name +
                  ": there is something at this place already that is no workbook, expected a new name or an "
                  "earlier workbook; nothing was overwritten");
  if (!given.flag("over") && !reports::is_as_we_wrote_it(place))
    throw Refusal(
        name +
        ": the workbook at this place was changed since, or made by another program, expected a new "
        "name; to write over it all the same: --over");
  return place;
}

}  // namespace nonrunner::commands
