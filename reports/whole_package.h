// Whether a written workbook is whole: every part of the package can be read back to the end tag of its root.
//
// libxlsxwriter keeps the rows of each sheet in temporary files and does not look whether they took them: on
// a full disk it packs the half of a sheet and reports success. So the finished package is read once more, in
// constant memory. Format: APPNOTE.TXT of the ZIP file format (central directory, method 0 or 8); ISO/IEC
// 29500-2 for the package.
#pragma once
#include <filesystem>
#include <string>

namespace nonrunner::reports {

// Empty where it is whole; else what is not: "xl/worksheets/sheet7.xml ends in the middle".
std::string what_is_not_whole(const std::filesystem::path& package);

// Whether the package is a workbook of ours and as we wrote it: it names this program, and no part of it bears
// another time than the one that stands in ours (1980-01-01; a program that saves it anew writes its own).
bool is_as_we_wrote_it(const std::filesystem::path& package);

}  // namespace nonrunner::reports
