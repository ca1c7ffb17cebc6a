#include "book/care/heads.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <fstream>
#include <iterator>

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

// "2026-04-05 112 SEAL PATH". Each entry that is kept reads one, so no stream is made for it.
std::optional<Head> head_in(std::string_view line) {
  const std::size_t day = line.find(' '), number = line.find(' ', day + 1);
  if (day == line.npos || number == line.npos) return std::nullopt;
  const std::string_view entry = line.substr(day + 1, number - day - 1);
  Head head{std::string(line.substr(0, day)), 0, std::string(line.substr(number + 1, 64))};
  const auto read = std::from_chars(entry.data(), entry.data() + entry.size(), head.entry);
  const bool whole = read.ec == std::errc() && read.ptr == entry.data() + entry.size();
  return whole && is_sha256(head.seal) ? std::optional(std::move(head)) : std::nullopt;
}

// A line that did not reach the disk whole is passed over.
std::vector<Head> heads_in(const fs::path& file) {
  std::vector<Head> all;
  std::ifstream in(file);
  for (std::string line; std::getline(in, line);) {
    const bool in_its_place = line.starts_with('+');
    auto head = head_in(std::string_view(line).substr(in_its_place ? 1 : 0));
    if (!head) continue;
    if (in_its_place && !all.empty()) all.pop_back();
    all.push_back(std::move(*head));
  }
  return all;
}

// What an entry needs of the file: the last head, and how many there are.
HeadsAsLeft last_seen_in(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  HeadsAsLeft seen{file, {}, 0, 0, 0};
  // From the end: the first line that reached the disk whole.
  for (std::size_t end = text.size(); end > 0;) {
    const std::size_t before = text.rfind('\n', end - 1), begin = before == text.npos ? 0 : before + 1;
    std::string_view line = std::string_view(text).substr(begin, end - begin);
    const bool in_its_place = line.starts_with('+');
    if (in_its_place) line.remove_prefix(1);
    if (!line.empty() && !in_its_place) ++seen.heads;
    if (!seen.last && !line.empty()) seen.last = head_in(line);
    end = before == text.npos ? 0 : before;
  }
  return seen;
}

std::string line_of(const Head& head, const Book& book) {
  return fmt::format("{} {} {} {}\n", head.day, head.entry, head.seal, book.path().string());
}

bool is_as_left(const HeadsAsLeft& left) {
  struct stat held {};
  return left.size > 0 && ::lstat(left.file.c_str(), &held) == 0 && S_ISREG(held.st_mode) &&
         static_cast<std::uintmax_t>(held.st_size) == left.size && held.st_ino == left.inode;
}

// False where there is no file yet, or one that has grown enough to be made anew: as large again as what it says, and a
// page. In one write: two processes do not mix.
bool add_line(HeadsAsLeft& left, const std::string& line) {
  const off_t grown = static_cast<off_t>(4096 + 2 * left.heads * line.size());
  const int out = ::open(left.file.c_str(), O_WRONLY | O_APPEND | O_NOFOLLOW | O_CLOEXEC);
  if (out < 0) return false;
  struct stat held {};
  const bool added = ::fstat(out, &held) == 0 && S_ISREG(held.st_mode) && held.st_size < grown &&
                     ::write(out, line.data(), line.size()) == static_cast<ssize_t>(line.size());
  ::close(out);
  left.size = added ? static_cast<std::uintmax_t>(held.st_size) + line.size() : 0;
  left.inode = held.st_ino;
  return added;
}

void write_anew(const fs::path& file, const std::vector<Head>& heads, const Book& book) {
  fs::create_directories(file.parent_path());
  const fs::path arriving = file.string() + ".arriving";
  std::ofstream out(arriving, std::ios::trunc);
  for (const Head& each : heads) out << line_of(each, book);
  out.close();
  std::error_code ignored;
  if (out) fs::rename(arriving, file, ignored);
}

struct Beside {
  Head now;
  bool is_there = false;  // the one seen before
};
// The present head, and whether the book still holds another one: one question, since each entry asks it.
Beside beside(const Book& book, Day today, const std::optional<Head>& seen) {
  Beside both{{today.iso(), 0, ""}, false};
  std::string seal;
  row(book,
      "SELECT entry, lower(hex(hash)), coalesce((SELECT lower(hex(hash)) FROM entry WHERE entry = :seen), "
      "'') "
      "FROM entry ORDER BY entry DESC LIMIT 1",
      {{":seen", seen ? seen->entry : 0}},
      [&](const Row& last) { last.into(both.now.entry, both.now.seal, seal); });
  both.is_there = seen && seal == seen->seal;
  return both;
}

}  // namespace

Head head_of(const Book& book, Day today) { return beside(book, today, {}).now; }

std::vector<Head> heads_seen(const Book& book, const fs::path& folder) {
  return heads_in(file_of(book, folder));
}

bool holds(const Book& book, const Head& head) { return seal_of(book, head.entry) == head.seal; }

std::optional<Head> lost_head(const Book& book, const fs::path& folder) {
  const auto last = last_seen_in(file_of(book, folder)).last;
  return !last || holds(book, *last) ? std::nullopt : last;
}

void remember_head(const Book& book, const fs::path& folder, Day today, bool anyway,
                   HeadsAsLeft* left) noexcept {
  try {
    HeadsAsLeft here;
    HeadsAsLeft& seen = left ? *left : here;
    if (!is_as_left(seen)) seen = last_seen_in(seen.file.empty() ? file_of(book, folder) : seen.file);
    const auto& [now, is_there] = beside(book, today, seen.last);
    if (now.entry == 0) return;
    if (seen.last && seen.last->seal == now.seal) return;
    if (seen.last && !anyway && !is_there) return;
    const bool in_its_place = is_there && seen.last->day == now.day;
    // Begun on a new line, whatever the one before was cut to.
    if (add_line(seen, (in_its_place ? "\n+" : "\n") + line_of(now, book))) {
      seen.last = now;
      if (!in_its_place) ++seen.heads;
      return;
    }
    auto all = heads_in(seen.file);
    if (in_its_place && !all.empty()) all.pop_back();
    all.push_back(now);
    write_anew(seen.file, all, book);
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
