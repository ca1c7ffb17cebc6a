#include "book/care/older_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "book/ledger/query.h"

namespace nonrunner::book {

void while_open(Book& book, TableNames tables, const std::function<void()>& fill) {
  std::vector<std::string> closing;
  for (const char* table : tables) {
    const std::string name = fmt::format("{}_is_closed", table);
    const auto trigger = first<std::string>(
        book, "SELECT sql FROM sqlite_schema WHERE type = 'trigger' AND name = :name", {{":name", name}});
    if (!trigger) throw std::logic_error("no trigger " + name);
    closing.push_back(*trigger);
    book.database().exec("DROP TRIGGER " + name);
  }
  fill();
  for (const std::string& sql : closing) book.database().exec(sql);
}

void add_older_row(const Book& book, EntryId entry, const Detail& detail) {
  const DetailTable& table = detail_tables()[detail.table];
  std::string marks = "?";
  for (std::size_t i = 0; i < table.width; ++i) marks += ", ?";
  auto& row =
      book.query(fmt::format("INSERT INTO {} (entry, {}) VALUES ({})", table.name, table.columns, marks));
  row.bind(1, entry);
  for (std::size_t i = 0; i < detail.cells.size(); ++i) {
    const int at = static_cast<int>(i) + 2;
    if (const auto* number = std::get_if<std::int64_t>(&detail.cells[i]))
      row.bind(at, *number);
    else if (const auto* text = std::get_if<std::string>(&detail.cells[i]))
      row.bind(at, *text);
  }
  row.exec();
}

void sort_by_table(std::vector<Detail>& rows) {
  std::stable_sort(rows.begin(), rows.end(),
                   [](const Detail& a, const Detail& b) { return a.table < b.table; });
}

std::vector<Detail> rows_beside(const Book& book, EntryId entry, TableNames tables) {
  std::vector<Detail> kept;
  for (const char* name : tables) {
    const std::size_t at = detail_table(name);
    const DetailTable& table = detail_tables()[at];
    rows(book,
         fmt::format("SELECT {} FROM {} WHERE entry = :entry ORDER BY rowid", table.columns, table.name),
         {{":entry", entry}}, [&](const Row& row) {
           Detail& detail = kept.emplace_back(Detail{at, {}});
           for (std::size_t i = 0; i < table.width; ++i)
             detail.cells.push_back(row.cell(static_cast<int>(i)));
         });
  }
  return kept;
}

}  // namespace nonrunner::book
