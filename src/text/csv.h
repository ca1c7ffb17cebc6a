// CSV as RFC 4180 has it, read and written by libcsv; UTF-8, a byte-order mark is skipped.
#pragma once
#include <functional>
#include <iosfwd>
#include <string>
#include <string_view>
#include <vector>

namespace nonrunner {

// Calls `row` with the cells of each row and the line of the file that the row begins on. Throws Refusal
// `name:line: ...` for a quote that is never closed, for what is not UTF-8 (and names the column), and for a
// row of more than 1 MiB. `parted`: what stands between two cells (a tab, where
// they were copied out of a sheet).
void read_csv(std::string_view text, const std::string& name,
              const std::function<void(const std::vector<std::string>&, int line)>& row, char parted = ',');

// The same from a stream, of which no more than a row is held at a time.
void read_csv(std::istream&, const std::string& name,
              const std::function<void(const std::vector<std::string>&, int line)>& row, char parted = ',');

// What parts the cells of a list with this heading: semicolons, where there are more of them than commas.
char csv_parted(std::string_view heading);
// A number of such a list: where semicolons part its cells, a comma is a decimal one and dots before it part thousands
// ("1.010,40" is "1010.40", "0,500" is "0.500"). Anything else is as it was. Throws Refusal for "1,234" and "1.234",
// which may be either.
std::string csv_number(const std::string& typed, char parted);

std::string csv_cell(std::string_view text);  // quoted where it needs to be
// For text of the user: a cell that a spreadsheet program would evaluate (it begins with = + - @, also after
// blanks or as a wide form, or with tab, return or line feed) gets an apostrophe in front; so does one that
// has apostrophes before such a character.
std::string csv_text(std::string_view text);
std::string without_csv_apostrophe(std::string text);  // undoes it

}  // namespace nonrunner
