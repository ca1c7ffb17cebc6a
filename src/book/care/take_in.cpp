#include "book/care/take_in.h"

#include <fmt/format.h>

#include <filesystem>
#include <istream>

#include "book/care/receipts_csv.h"
#include "book/events/attach.h"
#include "book/ledger/desk_notes.h"
#include "exact/hint.h"

namespace nonrunner::book {

namespace {

// The paper in the book that this one looks like, if it is passed over for it.
bool is_there(const Book& book, const Receipt& receipt, const std::string& place) {
  const auto same = receipt.again || receipt.number.empty() ? std::nullopt : same_paper(book, receipt);
  if (!same) return false;
  for (const Detail& detail : load_entry(book, *same).details)
    if (detail.table == detail_table("paper") &&
        std::get<std::int64_t>(detail.cells[2]) != receipt.total.minor())
      throw Refusal(
          fmt::format("{}: {} {} is in the book already (entry {}) with another total; nothing recorded",
                      place, receipt.supplier, receipt.number, *same));
  return true;
}

bool was_taken_in(const Book& book, const std::string& hash) {
  auto& known = book.query("SELECT day FROM taken_in WHERE sha256 = ?");
  known.bind(1, hash);
  const bool found = known.executeStep();
  known.tryReset();
  return found;
}

void remember(Recording& recording, const std::string& hash, const std::string& file) {
  auto& written = recording.book().query("INSERT OR IGNORE INTO taken_in VALUES (?, ?, ?)");
  written.bind(1, hash);
  written.bind(2, std::filesystem::path(file).filename().string());
  written.bind(3, recording.today().iso());
  written.exec();
  note_desk(recording, "file " + hash);
}

}  // namespace

TakenIn take_in_receipts(Recording& recording, std::istream& in, const std::string& file, bool again,
                         const std::function<void(std::size_t, std::size_t)>& tick) {
  const Book& book = recording.book();
  std::size_t lines = 0;
  const std::string hash = sha256_of(in, lines);
  in.clear();
  in.seekg(0);
  TakenIn result;
  result.before = was_taken_in(book, hash);
  if (result.before && !again) {
    read_receipts_csv(in, file, book.currency(), [&](const CsvReceipt&) { ++result.there_already; });
    return result;
  }
  read_receipts_csv(in, file, book.currency(), [&](const CsvReceipt& paper) {
    if (tick) tick(static_cast<std::size_t>(paper.row), lines);
    Receipt receipt = paper.receipt;
    receipt.again = again;
    const std::string place = fmt::format("{}:{}", file, paper.row);
    if (is_there(book, receipt, place)) {
      ++result.there_already;
      return;
    }
    try {
      record(recording, receipt);
    } catch (const Refusal& refusal) {
      const std::string what = refusal.what();
      if (what.starts_with(file + ":")) throw;
      refuse_as(place + ": " + what, refusal);
    }
    ++result.added;
  });
  remember(recording, hash, file);
  return result;
}

}  // namespace nonrunner::book
