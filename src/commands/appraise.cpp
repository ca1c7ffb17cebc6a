#include "appraisal/appraise.h"

#include <algorithm>
#include <charconv>

#include "answers/book_state.h"
#include "answers/budget.h"
#include "answers/finding.h"
#include "answers/known.h"
#include "answers/settled_job.h"
#include "appraisal/read_job.h"
#include "appraisal/sound_value.h"
#include "book/events/appraisals.h"
#include "book/events/finding.h"
#include "book/ledger/names.h"
#include "commands/appraise_text.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/job_given.h"
#include "commands/workbook_place.h"
#include "exact/hint.h"
#include "figures/opinion.h"
#include "reports/appraisal.h"
#include "text/toml.h"
#include "words/appraisal_figures.h"
#include "words/appraise_json.h"

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

// What is appraised: a job file, or the appraisal that a car in the book has, with what was found since.
struct ToAppraise {
  appraisal::Job job;
  std::string text;  // as it is kept
  answers::Settled settled;
};
ToAppraise to_appraise(const std::string& word, const book::Book* book, const Currency& currency, Day day) {
  std::error_code error;
  if (names_a_file(word) || std::filesystem::exists(word, error) || !book) {
    const std::string text = read_file(word);
    auto read = answers::read_settled_job(text, word == "-" ? "standard input" : word, book, currency, day);
    return {std::move(read.job), text, std::move(read.settled)};
  }
  book::know_vehicle(*book, "appraise", word);
  const auto kept = book::appraisal_known(*book, word);
  if (!kept)
    throw hinted<Refusal>(fmt::format("appraise: no appraisal of {} is kept in the book", word),
                          {Action::keep_appraisal, {}});
  const std::string name = "the appraisal of " + word;
  const answers::Settled settled = kept->settled
                                       ? answers::Settled{*kept->settled, {}}
                                       : answers::settled(parse_toml(kept->job, name), name, book, kept->day);
  return {*answers::job_as_found(*book, word), kept->job, settled};
}

int run_appraise(const Given& given, Terminal& terminal) {
  const auto workbook = given.text("workbook");
  if (workbook) workbook_place(given, *workbook);
  std::optional<book::Book> book =
      given.flag("keep") ? open_book(given, terminal) : book_at_hand(given, terminal);
  const Currency currency = book ? book->currency() : Currency{};
  if (given.flag("date") && !given.flag("keep"))
    given.wrong("found --date without --keep, expected both: it is the day of the appraisal that is kept");
  const Day day = date_of(given, terminal);
  ToAppraise given_job = to_appraise(given.word(0), book ? &*book : nullptr, currency, day);
  appraisal::Job& job = given_job.job;
  const answers::Settled& settled = given_job.settled;
  if (const auto offer = given.money("offer", currency)) {
    if (is_negative(*offer))
      given.wrong("--offer: found " + offer->plain(currency) + ", expected an amount of 0 or more");
    job.deal.asking = in_units(*offer, currency);
  }
  std::vector<std::string> seen = given.texts("seen");
  for (std::string& each : seen) each = answers::seen_in_names(job, each);
  for (std::size_t i = 0; i < seen.size(); ++i) {
    const std::string test = seen[i].substr(0, seen[i].find('='));
    for (std::size_t j = 0; j < i; ++j)
      if (seen[j].substr(0, seen[j].find('=')) == test)
        given.wrong(fmt::format("--seen: test \"{}\" stands twice, expected one outcome of it", test));
    try {
      appraisal::see(job, seen[i]);
    } catch (const WrongUsage& error) {
      throw WrongUsage(std::string("appraise: --seen: ") + error.what());
    } catch (const Refusal& error) {
      throw Refusal(std::string("appraise: --seen: ") + error.what());
    }
  }
  const appraisal::SoundValue sound = appraisal::sound_value_of(job);
  const appraisal::Appraisal result = appraisal::appraise(
      job, sound, points_of(given),
      given.json() || given.flag("detail") || given.flag("keep") || workbook ? appraisal::Extent::whole
                                                                             : appraisal::Extent::screen);
  if (workbook) {
    auto figures =
        words::appraisal_figures(result, sound, book ? book->distance_unit() : "mi", terminal.today);
    if (book) figures.book = answers::state_of(*book);
    reports::write_appraisal(figures, *workbook);
  }
  std::string left_behind;
  if (given.flag("keep")) {
    book::Recording recording(*book, terminal.now, terminal.today);
    book::keep_appraisal(recording, job.vehicle.tag, day, 0,
                         {given_job.text, settled.figures, words::kept_json(result)});
    // The file is kept as it is; what a test has shown beside it is a finding, and stays known.
    book::Finding finding{day, job.vehicle.tag, "tests seen, with the appraisal", {}};
    for (const std::string& each : seen) {
      const auto at = each.find('=');
      finding.facts.push_back({book::fact::seen, each.substr(0, at), each.substr(at + 1)});
    }
    if (!finding.facts.empty()) record(recording, finding);
    recording.keep();
    for (const answers::LeftBehind& line : answers::left_behind(*book, job.vehicle.tag))
      left_behind +=
          in_80(printable(fmt::format("no longer in the estimate: {}, {} booked; if it is another line "
                                      "now: nonrunner note {} \"renamed\" --same \"{}=NEW\"",
                                      line.name, line.booked.shown(currency), job.vehicle.tag, line.name)),
                2);
  }
  if (given.json())
    terminal.out << words::to_json(result);
  else
    terminal.out << as_text(result, given.flag("detail"));
  if (!given.json() && !settled.notes.empty()) {
    terminal.out << "\nown figures and comparables in this answer\n";
    for (const std::string& note : settled.notes) terminal.out << in_80("  " + note, 4);
  }
  if (workbook && !given.json()) terminal.out << "\nworkbook: " << *workbook << "\n";
  if (given.flag("keep") && !given.json())
    terminal.out << "\nkept in " << book->path().string() << " as the appraisal of " << job.vehicle.tag
                 << " of " << day.iso() << "\n";
  if (!given.json()) terminal.out << left_behind;
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
      {"over", "", "write over a workbook that was changed since"},
      {"keep", "", "keeps it in the book, dated: the budget if the car is bought later"},
      {"date", "DAY", "the day of the appraisal that is kept (else today)"}},
     true,
     "TAG appraises again what is kept of a car, with what was found since. TEST and OUTCOME may be "
     "numbers.\n"
     "Without a book money is in USD. The job file's keys are described in the README; nonrunner new-job\n"
     "writes one to begin with."},
    run_appraise};

}  // namespace nonrunner::commands
