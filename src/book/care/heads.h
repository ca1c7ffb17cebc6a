// The last seal of each book that was seen on this machine, kept apart from the book: an older copy put in
// its place, by a program that synchronises folders or by somebody who wants the last entries gone, is
// noticed.
//
// One small file a book in the folder for such things ($XDG_STATE_HOME/nonrunner/heads), called by the
// SHA-256 of the book's place; a line for each head: the day, the number of the last entry, its seal, the place. A line that
// begins with + stands in the place of the one before, the same day's: so an entry costs a line at the end of a file, and
// the file is made anew where it has grown. It holds nothing that the book needs: where it is lost or cannot be written,
// nothing is compared.
#pragma once
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

struct Head {
  std::string day;  // on which it was seen
  EntryId entry = 0;
  std::string seal;  // 64 hexadecimal digits
};

Head head_of(const Book&, Day today);  // entry 0 and no seal where the book is empty
std::vector<Head> heads_seen(const Book&, const std::filesystem::path& folder);
bool holds(const Book&, const Head&);  // whether that entry stands in it with that seal
// The last head that was seen, where the book does not hold it any more.
std::optional<Head> lost_head(const Book&, const std::filesystem::path& folder);
// What a process that keeps entry after entry in one book knows of the file, so that it is read again only where another one
// wrote to it meanwhile.
struct HeadsAsLeft {
  std::filesystem::path file;
  std::optional<Head> last;
  std::size_t heads = 0;  // whose place no other took
  std::uintmax_t size = 0, inode = 0;
};
// Writes the present head down, unless the last one seen is missing from the book and `anyway` is not said.
void remember_head(const Book&, const std::filesystem::path& folder, Day today, bool anyway,
                   HeadsAsLeft* left = nullptr) noexcept;

// Where a new book was made at a place that held another: what was seen there is forgotten. Returns the head of it that
// the new one does not hold.
std::optional<Head> begin_anew(const Book&, const std::filesystem::path& folder, Day today) noexcept;

// The entry whose seal begins so; nothing where there is none. At least 12 digits are expected.
std::optional<EntryId> entry_with_seal(const Book&, const std::string& hexadecimal);

}  // namespace nonrunner::book
