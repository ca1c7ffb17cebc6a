// Text from outside, made fit for a cell: whatever it holds, the file stays whole and every spreadsheet opens
// it.
//
// - bytes that are no UTF-8, control characters and characters that XML 1.0 does not allow become U+FFFD:
//   nothing goes in silence. Line ends become a line feed; a tab stays.
// - it is cut to `most` UTF-16 units (a cell holds 32,767), never inside a character; the last character is
//   then U+2026.
// - `_xHHHH_`, which readers of the file format take for an escaped character (ECMA-376 part 1, 22.9.2.19,
//   ST_Xstring), is escaped itself, so that it is shown as typed; the escape counts in the length.
#pragma once
#include <cstddef>
#include <string>
#include <string_view>

namespace nonrunner::reports {

constexpr std::size_t longest_cell_text = 32'767;

std::string clean_text(std::string_view text, std::size_t most = longest_cell_text);

}  // namespace nonrunner::reports
