#include "appraisal/appraise.h"

#include <algorithm>
#include <charconv>
#include <fstream>

#include "answers/appraise.h"
#include "answers/book_state.h"
#include "answers/budget.h"
#include "answers/by_hand.h"
#include "appraisal/sound_value.h"
#include "commands/appraise_text.h"
#include "commands/ask.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/job_given.h"
#include "commands/workbook_place.h"
#include "exact/ends.h"
#include "page/take_along.h"
#include "reports/appraisal.h"
#include "text/lower_case.h"
#include "text/tag.h"
#include "text/toml.h"
#include "words/appraisal_figures.h"
#include "words/appraise_json.h"
#include "words/settled.h"
#include "words/take_along.h"

namespace nonrunner::commands {

namespace {

std::size_t points_of(const Given& given) {
  const auto text = given.text("points");
  if (!text) return appraisal::points_default;
  std::size_t points = 0;
  const auto [end, error] = std::from_chars(text->data(), text->data() + text->size(), points);
  if (error != std::errc() || end != text->data() + text->size() || points < appraisal::points_min ||
      points > appraisal::points_max)
    given.wrong("--points: found \"" + *text + "\", expected a whole number from " +
                std::to_string(appraisal::points_min) + " to " + std::to_string(appraisal::points_max));
  return points;
}

answers::ToAppraise to_appraise(const Given& given, const book::Book* book, const Currency& currency,
                                Day day) {
  const std::string word = given.word(0);
  std::error_code error;
  // Kept, what is offered now is the price asked from here on.
  std::vector<answers::ByHand> changed;
  if (const auto offer = given.money("offer", currency); offer && given.flag("keep") && !is_negative(*offer))
    changed.push_back({"deal.asking", offer->plain(currency)});
  if (names_a_file(word) || std::filesystem::exists(word, error) || !book)
    return answers::file_to_appraise(read_file(word), word == "-" ? "standard input" : word, book, currency,
                                     day, changed);
  return answers::car_to_appraise(*book, as_tag(word), changed);
}

// What was said beside the file of a car that the book knows, and is gone with this answer.
std::string said_of_keeping(const Given& given, const answers::ToAppraise& job, const book::Book* book) {
  if (given.flag("keep") || !book || (!given.flag("seen") && !given.flag("offer"))) return "";
  const auto tags = book::all_tags(*book);
  if (std::find(tags.begin(), tags.end(), job.job.vehicle.tag) == tags.end()) return "";
  return in_80("not kept: with --keep " + std::string(given.flag("seen") ? "what was seen" : "the price") +
                   " stays in the book",
               2);
}

// What is said on the line beside the file.
void take_options(const Given& given, answers::ToAppraise& job, const Currency& currency) {
  if (const auto offer = given.money("offer", currency)) {
    if (is_negative(*offer))
      given.wrong("--offer: found " + offer->plain(currency) + ", expected an amount of 0 or more");
    answers::ask(job, *offer);
  }
  try {
    answers::see(job, given.texts("seen"));
  } catch (const WrongUsage& error) {
    throw WrongUsage(std::string("appraise: --seen: ") + error.what());
  } catch (const Refusal& error) {
    throw Refusal(std::string("appraise: --seen: ") + error.what());
  }
}

void write_workbook(const appraisal::Appraisal& result, const appraisal::SoundValue& sound,
                    const book::Book* book, Day today, const std::string& out) {
  auto figures = words::appraisal_figures(result, sound, book ? book->distance_unit() : "mi", today);
  if (book) figures.book = answers::state_of(*book);
  reports::write_appraisal(figures, out);
}

// Where the page that is taken along goes: a new name, or one that may be written over.
std::filesystem::path page_place(const Given& given, const std::string& name) {
  const std::filesystem::path place = name;
  if (lower_case(place.extension().string()) != ".html")
    given.wrong(fmt::format("--take-along: found \"{}\", expected a name that ends in .html", name));
  std::error_code none;
  const auto there = std::filesystem::status(place, none);
  if (std::filesystem::exists(there) && !std::filesystem::is_regular_file(there))
    throw Refusal(name +
                  ": found something that is no ordinary file, expected a new name; nothing was overwritten");
  if (std::filesystem::exists(there) && !given.flag("over"))
    throw Refusal(name +
                  ": there is something at this place already, expected a new name; to write over it all the "
                  "same: --over");
  return place;
}

// Ctrl-C ends it: what is worked out by then, the likeliest states, is taken along.
std::string write_take_along(const appraisal::Job& job, const std::filesystem::path& place,
                             Terminal& terminal) {
  answers::TakeAlong taken;
  {
    Progress progress(terminal, "states");
    taken = words::taken_along(job, [&](std::size_t done, std::size_t all) {
      try {
        progress(done, all);
        return true;
      } catch (const Interrupted&) {
        return false;
      }
    });
  }
  if (taken.states.empty())
    throw Refusal("appraise: ended before anything was worked out; nothing was written");
  std::ofstream out(place, std::ios::binary);
  out << page::take_along_page(taken, terminal.today.iso());
  if (!out.flush())
    throw MachineFailure(place.string() + ": it could not be written; look whether there is room for it");
  return fmt::format("\nto take along: {}, {}\n", place.string(), words::how_whole(taken));
}

// Lines with something booked that this appraisal does not have: said to be another one, asked about where somebody is
// there, else listed with what to type.
struct Renaming {
  answers::SameLines same;
  std::string left;
};

Renaming renaming(const Given& given, Terminal& terminal, const book::Book& book, const appraisal::Job& job) {
  Renaming all;
  const std::string& tag = job.vehicle.tag;
  for (const std::string& pair : given.texts("same")) {
    const auto at = pair.find('=');
    if (at == std::string::npos || at == 0 || at + 1 == pair.size())
      given.wrong("--same: found \"" + pair + "\", expected OLD=NEW");
    all.same.emplace_back(pair.substr(0, at), pair.substr(at + 1));
  }
  for (const answers::LeftBehind& line : answers::left_behind(book, tag, job)) {
    const auto is_it = [&](const auto& pair) { return pair.first == line.name; };
    if (std::any_of(all.same.begin(), all.same.end(), is_it)) continue;
    const auto question = answers::question_of(line, tag);
    if (question && terminal.in) {
      const std::size_t choice = ask(*question, terminal);
      if (choice < line.may_be.size()) {
        all.same.emplace_back(line.name, line.may_be[choice]);
        continue;
      }
    }
    all.left +=
        in_80(printable(fmt::format("no longer in the estimate: {}, {}; if it is another line now: "
                                    "nonrunner note {} \"renamed\" --same \"{}={}\"",
                                    line.name,
                                    line.is_hours ? line.worked.shown() + " h worked"
                                                  : line.booked.shown(book.currency()) + " booked",
                                    tag, line.name, line.may_be.size() == 1 ? line.may_be.front() : "NEW")),
              2);
  }
  return all;
}

int run_appraise(const Given& given, Terminal& terminal) {
  const auto workbook = given.text("workbook");
  if (workbook) workbook_place(given, *workbook);
  const auto take_along = given.text("take-along");
  if (take_along) page_place(given, *take_along);
  const bool keep = given.flag("keep");
  std::optional<book::Book> book = keep ? open_book(given, terminal) : book_at_hand(given, terminal);
  const book::Book* at_hand = book ? &*book : nullptr;
  const Currency currency = book ? book->currency() : Currency{};
  if (given.flag("date") && !keep)
    given.wrong("found --date without --keep, expected both: it is the day of the appraisal that is kept");
  const Day day = date_of(given, terminal);
  answers::ToAppraise job = to_appraise(given, at_hand, currency, day);
  if (keep && job.job.vehicle.tag.empty())
    throw Refusal("appraise: --keep: the file has no [vehicle] tag, expected one by which the car is called");
  if (keep) answers::expect_may_be_kept(*book, job);
  take_options(given, job, currency);
  const appraisal::SoundValue sound = appraisal::sound_value_of(job.job);
  const bool whole = given.json() || given.flag("detail") || keep || workbook;
  const appraisal::Appraisal result = appraisal::appraise(
      job.job, sound, points_of(given), whole ? appraisal::Extent::whole : appraisal::Extent::screen);
  if (workbook) write_workbook(result, sound, at_hand, terminal.today, *workbook);
  if (given.flag("same") && !keep) given.wrong("found --same without --keep, expected both");
  Renaming renamed;
  if (keep) {
    renamed = renaming(given, terminal, *book, job.job);
    book::Recording recording(*book, terminal.now, terminal.today);
    answers::keep(recording, job, day, words::kept_json(result), renamed.same);
    recording.keep();
  }
  const std::string taken =
      take_along ? write_take_along(job.job, page_place(given, *take_along), terminal) : "";
  if (given.json()) {
    terminal.out << words::to_json(result);
    return 0;
  }
  terminal.out << as_text(result, given.flag("detail"));
  if (!job.settled.notes.empty()) {
    terminal.out << "\nown figures and comparables in this answer\n";
    for (const answers::SettledNote& note : job.settled.notes)
      terminal.out << in_80("  " + words::in_words(note), 4);
  }
  terminal.out << taken << said_of_keeping(given, job, at_hand);
  if (workbook) terminal.out << "\nworkbook: " << *workbook << "\n";
  if (keep)
    terminal.out << "\nkept in " << book->path().string() << " as the appraisal of " << job.job.vehicle.tag
                 << " of " << day.iso() << "\n"
                 << renamed.left;
  return 0;
}

}  // namespace

extern const Command appraise;
const Command appraise{
    {"appraise",
     "JOB.toml|TAG",
     "is it worth buying, for how much at most, and what to test first",
     "nonrunner appraise sample-jobs/sprat/job.toml",
     {{"offer", "AMOUNT", "appraise it as if this were asked"},
      {"seen", "TEST=OUTCOME", "what a test has shown, in place of what the file says", true},
      {"detail", "", "every course, the whole plan, fixes, what moves the answer, cautions"},
      {"points", "N", "points drawn for the risk (else 65536)"},
      {"workbook", "OUT.xlsx", "writes it as a spreadsheet that answers when a figure is changed"},
      {"take-along", "OUT.html", "the answer after every outcome of the tests, as a page for any phone"},
      {"over", "", "write over a workbook that was changed since, or a page to take along"},
      {"keep", "", "keeps it in the book, dated: the budget if the car is bought later"},
      {"date", "DAY", "the day of the appraisal that is kept (else today)"},
      {"same", "OLD=NEW", "with --keep: the line OLD of an earlier appraisal is NEW in this one", true}},
     true,
     "TAG appraises again what is kept of a car, with what was found since. TEST and OUTCOME may be "
     "numbers.\n"
     "Without a book money is in USD. The job file's keys: nonrunner help job-file; nonrunner new-job\n"
     "writes one to begin with."},
    run_appraise};

}  // namespace nonrunner::commands
