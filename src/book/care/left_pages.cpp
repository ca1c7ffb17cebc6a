#include "book/care/left_pages.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <iterator>
#include <string_view>
#include <variant>
#include <vector>

namespace nonrunner::book {

namespace fs = std::filesystem;

namespace {

constexpr std::uint64_t longest_row = 64U << 20U;

std::uint64_t big_endian(std::string_view bytes) {
  std::uint64_t value = 0;
  for (const char byte : bytes) value = value << 8U | static_cast<unsigned char>(byte);
  return value;
}

// Reads on from a place; past the end everything is nothing.
struct StoredBytes {
  std::string_view all;
  std::size_t at = 0;
  bool ended = false;

  std::string_view take(std::uint64_t count) {
    if (at > all.size() || count > all.size() - at) {
      ended = true;
      return {};
    }
    const std::string_view taken = all.substr(at, static_cast<std::size_t>(count));
    at += static_cast<std::size_t>(count);
    return taken;
  }
  // Seven bits a byte, the highest bit says that more follow; the ninth byte holds eight.
  std::uint64_t varint() {
    std::uint64_t value = 0;
    for (int i = 0; i < 9; ++i) {
      const std::string_view one = take(1);
      if (ended) return 0;
      const auto byte = static_cast<unsigned char>(one[0]);
      if (i == 8) return value << 8U | byte;
      value = value << 7U | (byte & 0x7fU);
      if (byte < 0x80) return value;
    }
    return value;
  }
};

struct StoredBlob {
  std::string bytes;
};
using StoredCell = std::variant<std::monostate, std::int64_t, std::string, StoredBlob>;

// A row as it is stored: a head with the kind of each cell, then the cells.
std::optional<std::vector<StoredCell>> stored_cells(std::string_view record) {
  StoredBytes head{record};
  const std::uint64_t size = head.varint();
  if (head.ended || size > record.size() || size > 200) return std::nullopt;
  StoredBytes body{record, static_cast<std::size_t>(size)};
  std::vector<StoredCell> cells;
  while (head.at < size) {
    const std::uint64_t kind = head.varint();
    constexpr std::array<std::uint64_t, 7> widths = {0, 1, 2, 3, 4, 6, 8};
    if (kind >= 13 && kind % 2 == 1) {
      cells.emplace_back(std::string(body.take((kind - 13) / 2)));
    } else if (kind >= 12) {
      cells.emplace_back(StoredBlob{std::string(body.take((kind - 12) / 2))});
    } else if (kind == 0) {
      cells.emplace_back();
    } else if (kind == 8 || kind == 9) {
      cells.emplace_back(std::int64_t{kind == 9});
    } else if (kind <= 6) {
      const std::string_view bytes = body.take(widths.at(kind));
      std::uint64_t value = big_endian(bytes);
      const std::uint64_t bits = bytes.size() * 8;
      if (bits > 0 && bits < 64 && (value >> (bits - 1) & 1U) != 0) value |= ~std::uint64_t{0} << bits;
      cells.emplace_back(static_cast<std::int64_t>(value));
    } else {
      return std::nullopt;  // no number with a point stands in a row that is looked for
    }
    if (head.ended || body.ended) return std::nullopt;
  }
  return cells;
}

class StoredPages {
 public:
  explicit StoredPages(const fs::path& file) {
    bytes_ = read(file);
    if (bytes_.size() < 100) return;
    const std::uint64_t written = big_endian(std::string_view(bytes_).substr(16, 2));
    size_ = static_cast<std::size_t>(written == 1 ? 65'536 : written);
    const auto kept_back = static_cast<unsigned char>(bytes_[20]);
    if (size_ < 512 || (size_ & (size_ - 1)) != 0 || kept_back > size_ - 480) {
      size_ = 0;
      return;
    }
    usable_ = size_ - kept_back;
    for (std::size_t i = 0; i * size_ < bytes_.size(); ++i)
      pages_.push_back(std::string_view(bytes_).substr(i * size_, size_));
    log_ = read(file.string() + "-wal");
    read_log();
  }

  template <class Take>
  void each_row(Take take) const {
    for (std::size_t i = 0; i < pages_.size(); ++i) {
      const std::size_t head = i == 0 ? 100 : 0;
      if (pages_[i].size() < head + 8) continue;
      const bool is_table = pages_[i][head] == 0x0d, is_index = pages_[i][head] == 0x0a;
      if (!is_table && !is_index) continue;
      const std::uint64_t rows = big_endian(pages_[i].substr(head + 3, 2));
      for (std::uint64_t row = 0; row < rows && head + 8 + row * 2 + 2 <= pages_[i].size(); ++row) {
        StoredBytes cell{pages_[i], static_cast<std::size_t>(big_endian(
                                        pages_[i].substr(head + 8 + static_cast<std::size_t>(row) * 2, 2)))};
        const std::uint64_t length = cell.varint();
        const std::uint64_t number = is_table ? cell.varint() : 0;
        if (cell.ended || length == 0 || length > longest_row) continue;
        if (const auto record = whole(cell, length, is_table))
          if (auto cells = stored_cells(*record)) take(number, std::move(*cells));
      }
    }
  }

 private:
  // The database file format of SQLite, section 4 (sqlite.org/fileformat2.html), from memory: 32 bytes, then for each
  // page its number, the size of the file where a write ends with it, two salts, which are those of the log's head as
  // long as the frame is of this log and not of one before it, and sums. What was not written to its end does not
  // count.
  void read_log() {
    constexpr std::size_t log_head = 32, frame_head = 24;
    const std::string_view log = log_;
    std::map<std::uint64_t, std::string_view> begun;
    for (std::size_t at = log_head; at + frame_head + size_ <= log.size(); at += frame_head + size_) {
      if (log.substr(at + 8, 8) != log.substr(16, 8)) break;
      const std::uint64_t number = big_endian(log.substr(at, 4));
      if (number == 0 || number > pages_.size() + log.size() / size_ + 1) continue;
      begun[number] = log.substr(at + frame_head, size_);
      if (big_endian(log.substr(at + 4, 4)) == 0) continue;
      for (const auto& [page, bytes] : begun) {
        if (page > pages_.size()) pages_.resize(static_cast<std::size_t>(page));
        pages_[static_cast<std::size_t>(page) - 1] = bytes;
      }
      begun.clear();
    }
  }

  static std::string read(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }

  // The part on the page, then page after page of the rest; nothing where one of them is gone.
  std::optional<std::string> whole(StoredBytes& cell, std::uint64_t length, bool is_table) const {
    const std::uint64_t u = usable_, most = is_table ? u - 35 : (u - 12) * 64 / 255 - 23,
                        least = (u - 12) * 32 / 255 - 23;
    if (length <= most) {
      const std::string_view all = cell.take(length);
      return cell.ended ? std::nullopt : std::optional(std::string(all));
    }
    const std::uint64_t kept = least + (length - least) % (u - 4);
    std::string record(cell.take(kept <= most ? kept : least));
    std::uint64_t next = big_endian(cell.take(4));
    while (!cell.ended && record.size() < length) {
      if (next == 0 || next > pages_.size()) return std::nullopt;
      const std::string_view page = pages_[static_cast<std::size_t>(next) - 1];
      if (page.size() < usable_) return std::nullopt;
      record += page.substr(4, std::min<std::uint64_t>(u - 4, length - record.size()));
      next = big_endian(page.substr(0, 4));
    }
    return cell.ended ? std::nullopt : std::optional(std::move(record));
  }

  std::string bytes_, log_;
  std::size_t size_ = 0, usable_ = 0;
  std::vector<std::string_view> pages_;
};

// The nine columns of `entry` (schema/0002-entries.sql); the first stands as the number of the row.
std::optional<LeftEntry> stored_entry(const std::vector<StoredCell>& cells) {
  if (cells.size() != 9 || !std::holds_alternative<std::monostate>(cells[0])) return std::nullopt;
  const auto text = [&](std::size_t at) { return std::get_if<std::string>(&cells[at]); };
  const auto *previous = std::get_if<StoredBlob>(&cells[7]), *hash = std::get_if<StoredBlob>(&cells[8]);
  const auto* money = std::get_if<std::int64_t>(&cells[3]);
  const auto* voids = std::get_if<std::int64_t>(&cells[5]);
  if (!text(1) || text(1)->size() != 10 || !text(2) || !money || !text(4) || !text(4)->starts_with('{') ||
      !text(6) || !previous || previous->bytes.size() != 32 || !hash || hash->bytes.size() != 32)
    return std::nullopt;
  LeftEntry entry{*text(1), *text(2), *text(4), *text(6), previous->bytes, hash->bytes, *money != 0, {}};
  if (voids) entry.voids = *voids;
  return entry;
}

bool is_name_of_setting(const std::string& name) {
  for (const char* known :
       {"currency", "distance", "hour", "closed", "tools", "dealer-limit", "paper-size", "backup-folder"})
    if (name == known) return true;
  return name.starts_with("hour.") || name.starts_with("purse.");
}

}  // namespace

LeftRows rows_left(const fs::path& file) {
  LeftRows left;
  StoredPages(file).each_row([&](std::uint64_t number, std::vector<StoredCell> cells) {
    if (number > 0 && number < 1'000'000'000) {
      if (auto entry = stored_entry(cells))
        left.entries.try_emplace(static_cast<EntryId>(number), *std::move(entry));
      return;
    }
    if (cells.size() != 2) return;
    const auto *name = std::get_if<std::string>(&cells[0]), *value = std::get_if<std::string>(&cells[1]);
    if (name && value && is_name_of_setting(*name)) left.settings.try_emplace(*name, *value);
  });
  return left;
}

}  // namespace nonrunner::book
