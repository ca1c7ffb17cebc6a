#include "book/care/heads.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <fstream>
#include <sstream>

#include "book/events/attach.h"
#include "book/ledger/query.h"
#include "book/ledger/seal_of.h"
#include "exact/ends.h"
#include "text/lower_case.h"

namespace nonrunner::book {

namespace fs = std::filesystem;

namespace {

fs::path file_of(const Book& book, const fs::path& folder) {
  std::error_code error;
  fs::path place = fs::weakly_canonical(book.path(), error);
  if (error) place = fs::absolute(book.path(), error);
  return folder / (sha256_of(place.string()).substr(0, 32) + ".txt");
}

}  // namespace

Head head_of(const Book& book, Day today) {
  const EntryId last = last_entry(book);
  return {today.iso(), last, last == 0 ? "" : seal_of(book, last)};
}

std::vector<Head> heads_seen(const Book& book, const fs::path& folder) {
  std::vector<Head> all;
  std::ifstream in(file_of(book, folder));
  for (std::string line; std::getline(in, line);) {
    std::istringstream words(line);
    Head head;
    if (words >> head.day >> head.entry >> head.seal && is_sha256(head.seal)) all.push_back(std::move(head));
  }
  return all;
}

bool holds(const Book& book, const Head& head) { return seal_of(book, head.entry) == head.seal; }

std::optional<Head> lost_head(const Book& book, const fs::path& folder) {
  const auto seen = heads_seen(book, folder);
  return seen.empty() || holds(book, seen.back()) ? std::nullopt : std::optional(seen.back());
}

void remember_head(const Book& book, const fs::path& folder, Day today, bool anyway) noexcept {
  try {
    const Head now = head_of(book, today);
    if (now.entry == 0) return;
    auto seen = heads_seen(book, folder);
    if (!seen.empty() && seen.back().seal == now.seal) return;
    if (!seen.empty() && !anyway && !holds(book, seen.back())) return;
    if (!seen.empty() && seen.back().day == now.day && holds(book, seen.back())) seen.pop_back();
    seen.push_back(now);
    fs::create_directories(folder);
    const fs::path file = file_of(book, folder), arriving = file.string() + ".arriving";
    std::ofstream out(arriving, std::ios::trunc);
    for (const Head& each : seen)
      out << each.day << " " << each.entry << " " << each.seal << " " << book.path().string() << "\n";
    out.close();
    std::error_code ignored;
    if (out) fs::rename(arriving, file, ignored);
  } catch (const std::exception&) {  // a help, and no part of the book
  }
}

std::optional<Head> begin_anew(const Book& book, const fs::path& folder, Day today) noexcept {
  try {
    const auto lost = lost_head(book, folder);
    std::error_code ignored;
    fs::remove(file_of(book, folder), ignored);
    remember_head(book, folder, today, true);
    return lost;
  } catch (const std::exception&) {  // a help, and no part of the book
    return std::nullopt;
  }
}

std::optional<EntryId> entry_with_seal(const Book& book, const std::string& hexadecimal) {
  const std::string seal = lower_case(hexadecimal);
  const bool digits = seal.size() >= 12 && seal.size() <= 64 &&
                      seal.find_first_not_of("0123456789abcdef") == std::string::npos;
  if (!digits)
    throw Refusal("check: found the seal \"" + hexadecimal +
                  "\", expected its 64 hexadecimal digits, or the first 12 of them at least");
  return first<EntryId>(
      book,
      "SELECT entry FROM entry WHERE substr(lower(hex(hash)), 1, :digits) = :seal ORDER BY entry LIMIT 1",
      {{":seal", seal}, {":digits", static_cast<std::int64_t>(seal.size())}});
}

}  // namespace nonrunner::book
