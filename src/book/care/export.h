// Everything in the book as files that other programs read: CSV (RFC 4180), JSON Lines, and the events
// (TOML), from which the book can be made again. Text of the user that a spreadsheet program would evaluate
// is neutralised in the CSV files with an apostrophe in front (text/csv.h).
//
//   events.toml (and events-0002.toml ... where it would be longer than a reader takes at once),
//   jobs/ (each with what it came to)  attachments/  comparables.csv
//                                      the events, what they refer to, and the prices of similar cars, which
//                                      are no events: nonrunner restore DIR --book NEW takes all of it in
//   entries.csv  postings.csv  lines.csv  hours.csv  trips.csv  accounts.csv  vehicles.csv  settings.csv
//                                      who sold, bought or was paid, and where a trip went, among them
//   entries.jsonl                       one entry a line, with its postings and its event
//   seal.txt                            the last seal, for: nonrunner check --seal
//
// The events are read back before it is said that they were written; with `again` all of it is entered again into a book
// beside it and compared. What is apart then is said, and the folder stays: its tables can be read. The folder is
// written beside its place and put there whole, or not at all.
//
// Refused: 1 the folder is there and holds something.
#pragma once
#include <filesystem>
#include <functional>
#include <iosfwd>
#include <string>
#include <vector>

#include "book/care/restore.h"
#include "book/ledger/entry.h"

namespace nonrunner::book {

// Every event of the book in its order, with the entry that keeps it: entered again in this order they make the same
// book. What comes by itself with another event is left out.
void each_event(const Book&, const std::function<void(EntryId, const std::string& event)>&);
// The entries that come by themselves, which a file of events does not count; and an event with the numbers by which
// it names others as a file counts.
std::vector<EntryId> averages_of(const Book&);
void renumber(std::string& event, const std::vector<EntryId>& averages);
// Of a sale that was taken back the older layout gave its costs back too: their purses stand as they stood then only where
// it is said that none stays. What the event of the entry that took it back is to say besides, before its end; empty of any
// other.
std::string said_besides(const Book&, EntryId taken_back);
// The same of a damaged file, entry by entry: those that cannot be read are told with their first and last number.
void each_event_left(const Book&, const std::function<void(EntryId, const std::string& event)>& take,
                     const std::function<void(EntryId, EntryId)>& lost);

struct Exported {
  EntryId entries = 0;
  std::vector<std::string> changes;  // what could not be written as it stands in the book, one line each
  // What is another one when the export is entered again, or why it cannot be (read_back.h); empty: they are the same.
  std::vector<std::string> apart;
  // What is so because the book was begun by an older version, which entered things otherwise: no fault, where the book
  // is sound. Its export can be restored.
  std::vector<std::string> older;
};
Exported export_to(const Book&, const std::filesystem::path& folder, bool events_only, Day today,
                   const std::function<void(std::size_t, std::size_t)>& tick = {},
                   const RestoreWith* again = nullptr);

}  // namespace nonrunner::book
