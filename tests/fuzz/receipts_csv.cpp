// Receipts as CSV: read, and recorded into a book; and what the export writes of a text reads back as that
// text.
#include "book/care/receipts_csv.h"

#include <sstream>

#include "fuzz/fuzzed.h"
#include "text/csv.h"
#include "text/unicode.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace nonrunner;
  const std::string text(reinterpret_cast<const char*>(data), size);
  fuzzed::recorded([&](book::Recording& recording) {
    std::istringstream in(text);
    book::read_receipts_csv(in, "receipts.csv", recording.currency(),
                            [&](const book::CsvReceipt& paper) { record(recording, paper.receipt); });
  });
  if (broken_utf8(text)) return 0;  // no cell of the book: it was refused above
  // A lone return ends a line for the reader as RFC 4180 does not have it; the export writes it quoted.
  read_csv("before," + csv_text(text) + ",after\r\n", "cell",
           [&](const std::vector<std::string>& cells, int) {
             fuzzed::must(cells.size() == 3 && without_csv_apostrophe(cells[1]) == text,
                          "a cell that was written reads back");
           });
  return 0;
}
