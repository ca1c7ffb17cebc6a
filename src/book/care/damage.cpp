#include "book/care/damage.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <array>
#include <cstdint>
#include <fstream>

namespace nonrunner::book {

namespace {

// What its first bytes and its length show; empty where they show nothing.
std::string shown_by_head(const std::filesystem::path& path) {
  // The head of a file of SQLite (https://www.sqlite.org/fileformat2.html, 1.3): a mark of 16 bytes; at 16
  // the size of a page, 1 standing for 65536; at 28 the number of pages; big-endian.
  std::array<char, 100> head{};
  std::ifstream in(path, std::ios::binary);
  in.read(head.data(), head.size());
  const auto got = static_cast<std::size_t>(in.gcount());
  if (got < head.size())
    return fmt::format("the file is no book, or what is left of one: {} bytes are there", got);
  if (std::string_view(head.data(), 16) != std::string_view("SQLite format 3\0", 16))
    return "the file is no book, or its first bytes were changed";
  const auto byte = [&](std::size_t at) { return std::uint64_t{static_cast<std::uint8_t>(head[at])}; };
  const std::uint64_t page = byte(16) << 8 | byte(17);
  const std::uint64_t expected =
      (byte(28) << 24 | byte(29) << 16 | byte(30) << 8 | byte(31)) * (page == 1 ? 65536 : page);
  std::error_code error;
  const std::uint64_t there = std::filesystem::file_size(path, error);
  if (!error && there < expected)
    return fmt::format("the file is cut: {} of {} bytes are there", there, expected);
  return "";
}

}  // namespace

bool is_damage(const SQLite::Exception& error) {
  const int code = error.getErrorCode() & 0xff;
  return code == SQLITE_CORRUPT || code == SQLITE_NOTADB;
}

std::string damage_of(const std::filesystem::path& path, const std::string& sqlite_said) {
  const std::string shown = shown_by_head(path);
  return shown.empty() ? "the file is damaged: " + sqlite_said : shown;
}

std::string cut_end_of(const std::filesystem::path& path) {
  std::error_code error;
  const auto has_log = [&] { return std::filesystem::exists(path.string() + "-wal", error); };
  if (has_log() || std::filesystem::file_size(path, error) == 0) return "";
  const std::string shown = shown_by_head(path);
  // Looked for again: whoever opened it meanwhile may have been writing.
  return has_log() ? "" : shown;
}

}  // namespace nonrunner::book
