// A photograph or a scan that belongs to a car: copied beside the book under its SHA-256, never only linked; the entry is
// a memorandum.
//
// The name from outside never chooses a path. Symbolic links, devices and folders are refused; the copy and its folder are
// readable by the owner only. A copy that no entry came to name (the machine stopped in between) does no harm.
//
// Refused, the first that applies:  1 no such file, or no ordinary file   2 it is larger than 1 GiB
#pragma once
#include <filesystem>
#include <iosfwd>

#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct Attach {
  Day day;
  std::string vehicle;
  std::filesystem::path file;  // where it is now
  std::string name;            // how it was called; empty: as the file is
};
void fields(Attach&, Fields&);
EntryId record(Recording&, const Attach&);

// SHA-256 of a file in lower-case hexadecimal; throws Refusal or MachineFailure as above.
std::string sha256_of_file(const std::filesystem::path&);
std::string sha256_of(std::string_view bytes);
// Of what is left of a stream; counts its lines.
std::string sha256_of(std::istream&, std::size_t& lines);

}  // namespace nonrunner::book
