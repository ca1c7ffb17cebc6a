#include "book/care/take_in.h"

#include <fmt/format.h>

#include <filesystem>
#include <istream>

#include "book/care/receipts_csv.h"
#include "book/events/attach.h"
#include "book/events/void_entry.h"
#include "book/ledger/checks.h"
#include "book/ledger/desk_notes.h"
#include "book/ledger/query.h"
#include "book/questions/alike.h"
#include "book/questions/figures.h"
#include "exact/hint.h"

namespace nonrunner::book {

namespace {

// The paper in the book for which this one is passed over, if there is one.
std::optional<EntryId> there_as(const Book& book, const Receipt& receipt, const std::string& place) {
  const auto same = receipt.again || receipt.number.empty() ? std::nullopt : same_paper(book, receipt);
  if (!same) return std::nullopt;
  if (const auto total =
          first<Money>(book, "SELECT total FROM paper WHERE entry = :entry", {{":entry", *same}});
      total && *total != receipt.total)
    throw Refusal(
        fmt::format("{}: {} {} is in the book already (entry {}) with another total; nothing recorded", place,
                    receipt.supplier, receipt.number, *same));
  return same;
}

bool was_taken_in(const Book& book, const std::string& hash) {
  return first<Day>(book, "SELECT day FROM taken_in WHERE sha256 = :hash", {{":hash", hash}}).has_value();
}

void remember(Recording& recording, const std::string& hash, const std::string& file) {
  change(recording.book(), "INSERT OR IGNORE INTO taken_in VALUES (:hash, :name, :day)",
         {{":hash", hash},
          {":name", std::filesystem::path(file).filename().string()},
          {":day", recording.today()}});
  note_desk(recording, "file " + hash);
}

// The one quick line that agrees to the cent and stands alone in that.
std::optional<EntryId> certain(const std::vector<QuickLines>& fitting, Money total) {
  std::optional<EntryId> entry;
  for (const QuickLines& lines : fitting) {
    if (lines.total != total) continue;
    if (entry || lines.entries.size() > 1) return std::nullopt;
    entry = lines.entries.front();
  }
  return entry;
}

std::string joined(const std::vector<EntryId>& entries) {
  std::string text;
  for (const EntryId entry : entries) text += (text.empty() ? "" : ",") + std::to_string(entry);
  return text;
}

// Whose place the paper takes by itself; false where it has to be said.
bool takes_place(const Recording& recording, Receipt& receipt, TakenPaper& told) {
  if (receipt.again || receipt.replaces) return true;
  const auto fitting = quick_lines_that_fit(recording.book(), receipt);
  if (fitting.empty()) return true;
  receipt.replaces = certain(fitting, receipt.total);
  if (!receipt.replaces) told.replaces = joined(fitting.front().entries);
  return receipt.replaces.has_value();
}

// Whether a paper of this day, supplier and total is in the book: one without a number is known by nothing else.
bool is_there(const Book& book, const Receipt& receipt) {
  return first<EntryId>(
             book,
             "SELECT e.entry FROM paper p JOIN live_entry USING (entry) JOIN entry e USING (entry) WHERE "
             "p.itemised AND p.supplier = :supplier AND p.total = :total AND (e.day = :day OR EXISTS "
             "(SELECT 1 FROM printed d WHERE d.entry = e.entry AND d.day = :day)) LIMIT 1",
             {{":supplier", receipt.supplier}, {":total", receipt.total}, {":day", receipt.day}})
      .has_value();
}

// A paper of a list that was taken in before: absent where it is in the book, else it was left out then.
std::optional<TakenPaper> left_out_before(const Recording& recording, const CsvReceipt& paper,
                                          const std::string& file) {
  const Book& book = recording.book();
  Receipt receipt = paper.receipt;
  TakenPaper told{TakenPaper::What::left_out,
                  paper.row,
                  receipt.day,
                  receipt.supplier,
                  receipt.number,
                  receipt.total,
                  0,
                  ""};
  if (there_as(book, receipt, fmt::format("{}:{}", file, paper.row)) || is_there(book, receipt))
    return std::nullopt;
  const auto fitting = quick_lines_that_fit(book, receipt);
  if (fitting.empty()) return std::nullopt;
  told.replaces = joined(fitting.front().entries);
  return told;
}

TakenPaper take_in(Recording& recording, const CsvReceipt& paper, const std::string& file,
                   const HowTaken& how, bool any_waiting) {
  Receipt receipt = paper.receipt;
  receipt.again = how.again;
  if (!how.replaces.empty()) receipt.replaces = how.replaces.front();
  const std::string place = fmt::format("{}:{}", file, paper.row);
  using What = TakenPaper::What;
  TakenPaper told{What::there,    paper.row,     receipt.day, receipt.supplier,
                  receipt.number, receipt.total, 0,           ""};
  if (const auto there = there_as(recording.book(), receipt, place)) {
    told.entry = *there;
    return told;
  }
  expect_come(recording, place, receipt.day);
  told.what = What::left_out;
  if (any_waiting && !takes_place(recording, receipt, told)) return told;
  try {
    for (std::size_t i = 1; i < how.replaces.size(); ++i) give_place(recording, how.replaces[i], receipt.day);
    told.entry = record(recording, receipt);
  } catch (const Refusal& refusal) {
    const std::string what = refusal.what();
    if (what.starts_with(file + ":")) throw;
    refuse_as(place + ": " + what, refusal);
  }
  told.what = receipt.replaces ? What::replaced : What::added;
  if (receipt.replaces)
    told.replaces = how.replaces.empty() ? std::to_string(*receipt.replaces) : joined(how.replaces);
  return told;
}

}  // namespace

TakenIn take_in_receipts(Recording& recording, std::istream& in, const std::string& file, const HowTaken& how,
                         const std::function<void(std::size_t, std::size_t)>& tick) {
  const Book& book = recording.book();
  std::size_t lines = 0;
  const std::string hash = sha256_of(in, lines);
  in.clear();
  in.seekg(0);
  TakenIn result;
  result.before = was_taken_in(book, hash) && how.row == 0;
  if (result.before && !how.again) {
    read_receipts_csv(
        in, file, book.currency(),
        [&](const CsvReceipt& paper) {
          if (const auto left_out = left_out_before(recording, paper, file))
            result.papers.push_back(*left_out);
          else
            ++result.there_already;
        },
        how.shape);
    return result;
  }
  const bool any_waiting = !tray(book).empty();
  bool found = how.row == 0;
  read_receipts_csv(
      in, file, book.currency(),
      [&](const CsvReceipt& paper) {
        if (tick) tick(static_cast<std::size_t>(paper.row), lines);
        if (how.row != 0 && paper.row != how.row) return;
        found = true;
        const TakenPaper told = take_in(recording, paper, file, how, any_waiting);
        if (told.what == TakenPaper::What::there) ++result.there_already;
        if (told.what == TakenPaper::What::added || told.what == TakenPaper::What::replaced) ++result.added;
        result.papers.push_back(told);
      },
      how.shape);
  if (!found)
    throw Refusal(
        fmt::format("{}: no paper begins in row {}, expected the row of its first line", file, how.row));
  if (how.row == 0) remember(recording, hash, file);
  return result;
}

}  // namespace nonrunner::book
