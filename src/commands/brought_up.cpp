#include "commands/brought_up.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <fstream>
#include <ostream>
#include <system_error>
#include <vector>

#include "answers/loose.h"
#include "book/ledger/migrations.h"
#include "book/ledger/names.h"
#include "commands/desk.h"
#include "text/unicode.h"

namespace nonrunner::commands {

namespace fs = std::filesystem;

namespace {

// SQLite keeps the number in bytes 60 to 63 of the file, the highest first (its page "Database File Format"); absent for
// what is no such file, which opening tells of.
std::optional<std::size_t> layout_of(const fs::path& book) {
  std::ifstream in(book, std::ios::binary);
  std::array<char, 64> head{};
  if (!in.read(head.data(), head.size())) return std::nullopt;
  std::size_t layout = 0;
  for (std::size_t i = 60; i < 64; ++i) layout = layout << 8U | static_cast<unsigned char>(head[i]);
  return layout;
}

std::set<fs::path> set_aside_beside(const fs::path& book) {
  std::set<fs::path> all;
  std::error_code error;
  const auto folder = book.has_parent_path() ? book.parent_path() : fs::path(".");
  for (const auto& each : fs::directory_iterator(folder, error))
    if (each.path().filename().string().starts_with(book.filename().string() + ".before-"))
      all.insert(each.path());
  return all;
}

// Cars at hand on which something was booked that stands under no line of their budgets.
std::vector<std::string> to_be_sorted(const book::Book& book) {
  std::vector<std::string> tags;
  for (const auto& [tag, life] : book::all_lives(book))
    if (life.state == book::State::owned && !answers::loose_of(book, tag).empty()) tags.push_back(tag);
  return tags;
}

}  // namespace

BroughtUp::BroughtUp(const fs::path& book) : book_(book) {
  const auto layout = layout_of(book);
  is_older_ = layout && *layout > 0 && *layout < book::migrations().size();
  if (is_older_) before_ = set_aside_beside(book);
}

void BroughtUp::tell(const book::Book& book, std::ostream& out) const {
  if (!is_older_) return;
  std::string copy, note;
  for (const fs::path& each : set_aside_beside(book_)) {
    if (before_.contains(each)) continue;
    (each.extension() == ".txt" ? note : copy) = each.string();
  }
  if (copy.empty()) return;
  out << in_80(fmt::format("{}: brought up to date; as it was it lies in {}", printable(book_.string()),
                           printable(copy)),
               2);
  if (!note.empty())
    out << in_80(fmt::format("  what it shows otherwise now stands in {}", printable(note)), 4);
  if (const auto tags = to_be_sorted(book); !tags.empty())
    out << in_80(
        fmt::format(
            "  what was entered stands under a line of its car's budget where both have the same name; "
            "the rest is asked about one by one, each at a terminal: nonrunner under TAG --sort, for {}",
            fmt::join(tags, ", ")),
        4);
}

}  // namespace nonrunner::commands
