// A photograph or a scan that belongs to a car, or to an entry about none: copied beside the book under its SHA-256,
// never only linked; the entry is a memorandum.
//
// The name from outside never chooses a path: of it the last component is kept. Symbolic links, devices and
// folders are refused; the copy and its folder are readable by the owner only. A copy goes again where its
// entry is not kept; one that a stopped machine left is swept by the next, or named by `check`.
//
// Refused, the first that applies:
//   1 a name that cannot be read, or of more than 120 characters
//   2 the folder beside the book is not ours alone
//   3 no such file, or no ordinary file   4 it is larger than 1 GiB
//   5 it is not what an export says it is
//   6 the entry that it belongs to is none, or does not count
//   7 it belongs to no car and to no entry
// From an events file, before these: a file outside of its folder (text/beside.h).
#pragma once
#include <filesystem>
#include <iosfwd>
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct Attach {
  Day day;
  std::string vehicle;         // empty: the entry is about none
  std::filesystem::path file;  // where it is now
  std::string name;            // how it was called; empty: as the file is
  std::string sha256;          // what it has to be; empty: whatever it is
  EntryId entry = 0;           // that it belongs to, such as the receipt that it shows; 0: to the car alone
};
// What belongs to an entry, oldest first, by SHA-256; of a paper what belonged to its quick lines too.
struct Photo {
  std::string sha256, name, vehicle;
};
std::vector<Photo> photos_of(const Book&, EntryId);
// What belonged to the one belongs to the other from here on.
void photos_follow(Recording&, EntryId from, EntryId to);
void fields(Attach&, Fields&);
EntryId record(Recording&, const Attach&);

// SHA-256 of a file in lower-case hexadecimal; throws Refusal or MachineFailure as above.
std::string sha256_of_file(const std::filesystem::path&);
std::string sha256_of(std::string_view bytes);
bool is_sha256(std::string_view);  // 64 hexadecimal digits
// Of what is left of a stream; counts its lines.
std::string sha256_of(std::istream&, std::size_t& lines);

}  // namespace nonrunner::book
