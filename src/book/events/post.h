// A file of events: recorded in order, all or nothing. A refused event names its place in the file.
#pragma once
#include <filesystem>
#include <functional>

#include "book/events/appraisals.h"
#include "book/events/fields.h"
#include "book/ledger/entry.h"
#include "text/table.h"

namespace nonrunner::book {

// What an appraisal of a job file comes to on that day; the book does not know how. `settled`: what it left to
// the book, where that was settled before. Throws Refusal for a bad job file.
using Appraise = std::function<AppraisedJob(const std::string& job_text, const std::string& name, Day day,
                                            const std::optional<std::string>& settled)>;

struct Posted {
  int events = 0;
  EntryId first = 0, last = 0;
};
// A file of events, read and not yet recorded: reading takes its time, and no book is held meanwhile.
struct EventsFile {
  Value value;
  std::string name;  // how messages call it
  std::filesystem::path
      beside;           // where job files, attachments and further parts of it lie: below this folder
  std::size_t all = 0;  // events in it
};
EventsFile read_events(const std::string& text, const std::string& name, const std::filesystem::path& beside);
Posted post(Recording&, const EventsFile&, const Appraise&,
            const std::function<void(std::size_t, std::size_t)>& tick = {});
// `text` is the file, `name` how messages call it, `beside` the folder that job files and attachments are
// beside. `tick` is called now and then with the events done and in all. Records into `recording`; keeping it
// is the caller's.
Posted post(Recording&, const std::string& text, const std::string& name, const std::filesystem::path& beside,
            const Appraise&, const std::function<void(std::size_t, std::size_t)>& tick = {});

// The numbers by which the events of one file name earlier ones of it: they count the entries that the file
// makes, on from those that were there, as if none followed by itself (`average`).
class Numbers {
 public:
  explicit Numbers(EntryId before) : before_(before) {}
  EntryId made_for(EntryId number) const;
  // The event just recorded, whose entry is `entry` (0: none), made those after `before`.
  void take(const Book&, EntryId before, EntryId entry);
  bool is_of_file(EntryId entry) const { return entry > before_; }

 private:
  EntryId before_;
  std::vector<EntryId> made_;
};

// Records one event from its table; returns 0 for what is no entry (an appraisal that is only kept).
EntryId record_event(Recording&, const Table&, const std::filesystem::path& beside, const Appraise&,
                     const Numbers* = nullptr);
const std::vector<std::string>& event_words();

// Every event, in the order of the reference: its word, what it is, its keys (but for `date`), what may stand
// under them.
struct EventWord {
  std::string name, says;
  std::string example;  // its keys and values, without `do` and `date`
  std::vector<Described> fields;
};
const std::vector<EventWord>& events_described();

}  // namespace nonrunner::book
