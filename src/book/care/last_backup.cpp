#include "book/care/last_backup.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>

#include "book/care/backup.h"
#include "book/events/attach.h"
#include "book/ledger/query.h"
#include "exact/ends.h"
#include "text/typed_numbers.h"

namespace nonrunner::book {

namespace fs = std::filesystem;

namespace {

constexpr const char* first_seal = "SELECT lower(hex(hash)) FROM entry WHERE entry = 1";

// The seal of the first entry of a copy; nothing where it cannot be read.
std::optional<std::string> first_seal_of(const fs::path& copy) {
  try {
    const auto database = open_to_read(copy, Book::usual_patience);
    SQLite::Statement find(*database, first_seal);
    if (find.executeStep()) return Row(find).as<std::string>(0);
  } catch (const std::exception&) {  // not one of ours, then
  }
  return std::nullopt;
}

struct Dated {
  std::string day;
  int number;
  fs::path file;
};

// "-2026-05-02.book", or with a number before the point: what stands behind the stem of a dated copy.
std::optional<Dated> dated(std::string_view rest) {
  constexpr std::string_view ending = ".book";
  if (!rest.starts_with('-') || !rest.ends_with(ending)) return std::nullopt;
  rest.remove_prefix(1), rest.remove_suffix(ending.size());
  const std::vector<std::string> parts = parted(rest, '-');
  const std::vector<std::size_t> digits = {4, 2, 2};
  if (parts.size() != 3 && parts.size() != 4) return std::nullopt;
  for (std::size_t i = 0; i < digits.size(); ++i)
    if (!all_digits(parts[i]) || parts[i].size() != digits[i]) return std::nullopt;
  if (parts.size() == 4 && (!all_digits(parts[3]) || parts[3].size() > 4)) return std::nullopt;
  return Dated{std::string(rest.substr(0, 10)), parts.size() == 4 ? std::stoi(parts[3]) : 1, {}};
}

std::vector<Dated> dated_copies(const fs::path& folder, const std::string& stem) {
  std::vector<Dated> all;
  for (const auto& each : fs::directory_iterator(folder)) {
    const std::string name = each.path().filename().string();
    if (!name.starts_with(stem)) continue;
    auto copy = dated(std::string_view(name).substr(stem.size()));
    if (!copy || !each.is_regular_file()) continue;
    copy->file = each.path();
    all.push_back(*std::move(copy));
  }
  std::sort(all.begin(), all.end(), [](const Dated& a, const Dated& b) {
    return std::pair(a.day, a.number) < std::pair(b.day, b.number);
  });
  return all;
}

fs::path notes_of(const Book& book, const fs::path& folder) {
  std::error_code error;
  fs::path place = fs::weakly_canonical(book.path(), error);
  if (error) place = fs::absolute(book.path(), error);
  return folder / (sha256_of(place.string()).substr(0, 32) + ".backup.txt");
}

struct Notes {
  std::optional<Day> copied, said;
};

std::optional<Day> day_in(std::istream& in) {
  std::string text;
  if (!std::getline(in, text) || text == "never") return std::nullopt;
  return Day::parse(text);
}

Notes notes(const fs::path& file) {
  std::ifstream in(file);
  if (!in) return {};
  const auto copied = day_in(in);
  return {copied, day_in(in)};
}

void keep(const fs::path& file, const Notes& notes) {
  fs::create_directories(file.parent_path());
  const fs::path arriving = file.string() + ".arriving";
  std::ofstream out(arriving, std::ios::trunc);
  for (const auto& day : {notes.copied, notes.said}) out << (day ? day->iso() : "never") << "\n";
  out.close();
  std::error_code ignored;
  if (out) fs::rename(arriving, file, ignored);
}

}  // namespace

DatedCopy backup_dated(const Book& book, const fs::path& folder, Day today,
                       const std::function<void(std::size_t, std::size_t)>& tick) {
  if (!fs::is_directory(folder))
    throw MachineFailure(folder.string() +
                         ": the folder for backups is not there; put the disk in, or set another folder");
  const std::string stem = book.path().stem().string();
  DatedCopy copy;
  for (int number = 1; copy.file.empty() || fs::exists(copy.file); ++number)
    copy.file = folder / fmt::format("{}-{}{}.book", stem, today.iso(),
                                     number == 1 ? "" : "-" + std::to_string(number));
  backup(book, copy.file, tick);
  const auto ours = first<std::string>(book, first_seal, {});
  std::vector<Dated> all = dated_copies(folder, stem);
  std::erase_if(all, [&](const Dated& each) { return !ours || first_seal_of(each.file) != ours; });
  for (std::size_t i = 0; i + copies_kept < all.size(); ++i) {
    if (!fs::remove(all[i].file)) continue;
    fs::remove_all(all[i].file.string() + ".files");
    copy.removed.push_back(all[i].file);
  }
  return copy;
}

void remember_backup(const Book& book, const fs::path& folder, Day today) noexcept {
  try {
    const fs::path file = notes_of(book, folder);
    Notes now = notes(file);
    now.copied = today;
    keep(file, now);
  } catch (const std::exception&) {  // a help, and no part of the book
  }
}

std::optional<NoBackup> no_backup_for_a_week(const Book& book, const fs::path& folder, Day today) noexcept {
  try {
    const fs::path file = notes_of(book, folder);
    Notes now = notes(file);
    if (now.said == today) return std::nullopt;
    const auto began =
        first<std::string>(book, "SELECT substr(recorded, 1, 10) FROM entry WHERE entry = 1", {});
    if (!now.copied && !began) return std::nullopt;
    const int days = days_between(now.copied ? *now.copied : Day::parse(*began), today);
    if (days <= 7) return std::nullopt;
    now.said = today;
    keep(file, now);
    return NoBackup{days, now.copied.has_value()};
  } catch (const std::exception&) {  // a help, and no part of the book
    return std::nullopt;
  }
}

}  // namespace nonrunner::book
