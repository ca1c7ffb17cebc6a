// Receipts as CSV (RFC 4180, UTF-8, a heading): one row a line; rows in a run that share date, supplier and number are
// one paper.
//
// A cell that a spreadsheet program would evaluate is written with an apostrophe in front by `export`; the apostrophe is
// taken off here, where = + - @ follows it.
#pragma once
#include <functional>
#include <iosfwd>
#include <map>
#include <string>

#include "book/events/receipt.h"
#include "text/file_keys.h"

namespace nonrunner::book {

// What may stand in the heading, in any order.
const std::vector<FileKey>& receipt_columns();

struct CsvReceipt {
  int row = 0;  // of its first line, for messages
  book::Receipt receipt;
};
// A list of somebody else's making: what its columns are called, and what holds where it has no column. Headings are
// compared without case; with `columns` those that are not named there are passed over.
struct CsvShape {
  std::map<std::string, std::string> columns;  // theirs, in small letters: ours
  std::map<std::string, std::string> fixed;    // ours: what stands in it on every row
};
// Cells may be parted by semicolons: then a comma in an amount is a decimal one, unless three digits follow it.
//
// Hands out paper after paper, and holds no more than one of them. Throws Refusal `file:row: what`.
void read_receipts_csv(std::istream&, const std::string& name, const Currency&,
                       const std::function<void(const CsvReceipt&)>& take, const CsvShape& = {});

}  // namespace nonrunner::book
