// What holds for every event, so that a new one cannot be forgotten half way: it is described, it reads back
// as it was kept, somebody shows what it did.
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "answers/year.h"
#include "book/events/post.h"
#include "book/faults_program.h"
#include "book/faults_shop.h"
#include "commands/event_help.h"
#include "reports/year.h"
#include "text/toml.h"

using namespace nonrunner;
using namespace nonrunner::book;
namespace fs = std::filesystem;

namespace {

struct Folder {
  fs::path path = fs::temp_directory_path() / ("nonrunner-every-" + std::to_string(::getpid()));
  Folder() {
    fs::remove_all(path);
    fs::create_directories(path);
  }
  ~Folder() { fs::remove_all(path); }
};

std::string text_of_last(const Book& book) { return load_entry(book, last_entry(book)).event; }

// The year's workbook without its list of entries, and without what it says of the book that it came from.
std::string year_sheets(const fs::path& book) {
  figures::YearFigures year = answers::year_figures(Book::open(book), 2026, faults::today);
  year.entries.clear();
  const fs::path out = book.parent_path() / "figures.xlsx";
  fs::remove(out);
  reports::write_year(year, out);
  return faults::bytes_of(out);
}

// Every screen that shows figures, as JSON; the journal, which shows every entry, apart.
std::string figures_of(const fs::path& book) {
  std::string all = year_sheets(book);
  const auto say = [&](std::vector<std::string> words) {
    words.insert(words.end(), {"--json", "--book", book.string()});
    const faults::Said said = faults::program(words);
    all += words.front() + " " + std::to_string(said.status) + said.out + said.err + "\n";
  };
  for (const char* board : {"vehicles", "purses", "stock", "due", "tray", "learn"}) say({board});
  say({"year", "2026"});
  for (const char* tag : {"pip", "heron", "teal", "wren", "finch"}) {
    say({"show", tag});
    all += faults::program({"show", tag, "--detail", "--book", book.string()}).out;
  }
  return all;
}

// What counts in nothing: a photograph, which is shown beside its entry, and the end of a period.
const std::set<std::string> in_no_figure = {"attach", "close"};

std::string journal(const fs::path& book) {
  return faults::program({"entries", "--book", book.string()}).out;
}

}  // namespace

TEST_CASE("every event has its row in the reference and an example that can be read", "[book]") {
  const Currency usd = Currency::of("USD");
  const std::string help = commands::events_help();
  for (const EventWord& word : events_described()) {
    INFO(word.name);
    const std::string text =
        "event = [{ do = \"" + word.name + "\", date = 2026-04-05, " + word.example + " }]";
    const Value value = parse_toml(text, "example");
    const Table event = Table(value, "example", "the head").tables("event", "the event").front();
    only_these(event, word.fields);
    for (const Described& field : word.fields)
      if (field.need == Need::must) CHECK(event.has(field.key));
    CHECK(word.fields.front().key == "date");
    CHECK(!word.says.empty());
    CHECK(help.find("\n" + word.name + " ") != std::string::npos);
    const std::string one = commands::event_help(word.name);
    for (const Described& field : word.fields) CHECK(one.find("\n  " + field.key + " ") != std::string::npos);
  }
}

TEST_CASE("what an entry keeps of its event reads back as the same event, for every event", "[book]") {
  const Folder folder;
  const fs::path shop = faults::make_shop(folder.path);
  std::set<std::string> seen;
  for (const faults::Act& act : faults::acts(folder.path)) {
    INFO(act.name);
    const fs::path first = folder.path / "first.book", again = folder.path / "again.book";
    faults::copy_book(shop, first);
    faults::copy_book(shop, again);
    REQUIRE(faults::attempt(first, act).said == "");
    const Book one = Book::open(first);
    const auto words = event_words();
    if (std::find(words.begin(), words.end(), act.name) == words.end()) continue;
    if (last_entry(one) == last_entry(Book::open(shop))) continue;  // no entry
    seen.insert(act.name);
    const std::string kept = text_of_last(one);
    if (act.name == "attach") fs::copy(one.attachments(), folder.path / "attachments");
    Book two = Book::open(again);
    Recording recording(two, faults::now, faults::today);
    post(recording, "event = [" + kept + "]", "kept", folder.path, {});
    CHECK(text_of_last(two) == kept);
    recording.keep();
  }
  for (const std::string& word : event_words()) {
    INFO(word << " is done by none of tests/book/faults_shop.cpp");
    if (word != "appraisal" && word != "under") CHECK(seen.contains(word));
  }
}

TEST_CASE("whatever an event did is shown by somebody, and the year's workbook still adds up", "[book]") {
  const Folder folder;
  const fs::path shop = faults::make_shop(folder.path);
  // The workbook reads the job files that are kept.
  fs::copy_file(fs::path(NONRUNNER_SOURCE) / "sample-jobs/sprat/job.toml", folder.path / "finch.toml",
                fs::copy_options::overwrite_existing);
  const std::string before = figures_of(shop), told = journal(shop);
  for (const faults::Act& act : faults::acts(folder.path)) {
    const auto words = event_words();
    if (std::find(words.begin(), words.end(), act.name) == words.end()) continue;
    INFO(act.name);
    const fs::path after = folder.path / "after.book";
    faults::copy_book(shop, after);
    REQUIRE(faults::attempt(after, act).said == "");
    const Book book = Book::open(after);
    const bool entry = last_entry(book) != last_entry(Book::open(shop));
    if (entry) CHECK(journal(after) != told);
    if (entry && !in_no_figure.contains(act.name))
      CHECK((figures_of(after) != before));  // a workbook is no text to print
    const std::string out = (folder.path / "year.xlsx").string();
    fs::remove(out);
    const faults::Said year = faults::program({"workbook", "year", "2026", out, "--book", after.string()});
    CHECK(year.err == "");
    CHECK(year.status == 0);
  }
}
