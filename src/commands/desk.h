// What commands on a book share: opening it, recording into it, saying what was done.
#pragma once
#include <fmt/format.h>

#include <functional>
#include <string>

#include "book/ledger/book.h"
#include "book/ledger/entry.h"
#include "commands/options.h"

namespace nonrunner::commands {

book::Book open_book(const Given&, const Terminal&);

// Without control characters: what somebody typed moves no cursor.
std::string printable(std::string text);

// Runs `event` in one recording and keeps it; prints "entry N: ..." and remarks (or JSON with the entry).
// `event` returns the number of the entry.
int record_one(book::Book&, const Given&, Terminal&,
               const std::function<book::EntryId(book::Recording&)>& event, const std::string& done);

// Options that most events take.
Option date_option();
Option purse_option();
Option new_option();
Day date_of(const Given&, const Terminal&);
// --purse, else the book's only purse, else "cash" where there is one; throws WrongUsage where it cannot be
// told.
std::string purse_of(const Given&, const book::Book&);

// Lines of columns: the first left-aligned, those marked as numbers right-aligned, two blanks between.
class Columns {
 public:
  explicit Columns(std::string aligned) : aligned_(std::move(aligned)) {}  // "lrr": left, right, right
  void row(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }
  bool empty() const { return rows_.empty(); }
  // At most `width` columns: the widest left-aligned column is cut with "..." where it does not fit.
  std::string text(std::size_t width = 80) const;

 private:
  std::string aligned_;
  std::vector<std::vector<std::string>> rows_;
};
std::size_t shown_width(std::string_view utf8);  // characters, not bytes
std::string cut_to(const std::string& utf8, std::size_t width);

}  // namespace nonrunner::commands
