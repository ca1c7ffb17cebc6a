// Receipts as CSV (RFC 4180, UTF-8, a heading): one row a line; rows in a run that share date, supplier and number are
// one paper. Columns, in any order; those marked * must be there:
//
//   date*      YYYY-MM-DD                      supplier*  who gave it
//   number     the paper's number              purse*     which purse paid
//   total      as printed (else the sum)       tax, shipping, discount   of the whole paper, on any of its rows
//   what*      the line                        qty        pieces (else 1)
//   unit, amount   one of the two              kind*      part, consumable, sublet, fee, stock, tool, overhead, private
//   source     new, salvage, reman             to         the car's tag
//   stock, gives   the shelf                   core       deposit for each piece
//   taxed      yes or no (else no)             id         the user's name for the line
//
// A cell that a spreadsheet program would evaluate is written with an apostrophe in front by `export`; the apostrophe is
// taken off here, where = + - @ follows it.
#pragma once
#include <functional>
#include <iosfwd>
#include <string>

#include "book/events/receipt.h"

namespace nonrunner::book {

struct CsvReceipt {
  int row = 0;  // of its first line, for messages
  book::Receipt receipt;
};
// Hands out paper after paper, and holds no more than one of them. Throws Refusal `file:row: what`.
void read_receipts_csv(std::istream&, const std::string& name, const Currency&,
                       const std::function<void(const CsvReceipt&)>& take);

}  // namespace nonrunner::book
