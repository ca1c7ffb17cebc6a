#include "book/events/buy.h"

#include "answers/budget.h"
#include "answers/finding.h"
#include "answers/settled_job.h"
#include "answers/tests_kept.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/named_amounts.h"
#include "exact/ends.h"
#include "text/toml.h"
#include "words/appraise_for_book.h"
#include "words/budget.h"
#include "words/finding.h"

namespace nonrunner::commands {

std::vector<book::NamedAmount> named_amounts(const Given& given, const std::string& option,
                                             const Currency& currency) {
  std::vector<book::NamedAmount> all;
  for (const std::string& text : given.texts(option)) {
    const auto [name, value] = name_and_value(given, option, text);
    const auto at = value.find('@');  // NAME=AMOUNT@PURSE
    try {
      all.push_back({name, typed_money(value.substr(0, at), currency),
                     at == std::string::npos ? "" : value.substr(at + 1)});
    } catch (const Refusal& refusal) {
      given.wrong("--" + option + " " + name + ": " + refusal.what());
    }
  }
  return all;
}

namespace {
int run_buy(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  book::Buy buy;
  buy.day = date_of(given, terminal);
  buy.vehicle = given.word(0);
  buy.price = given.word_as_money(1, book.currency());
  buy.purse = purse_of(given, terminal, book, "buy");
  buy.fees = named_amounts(given, "fee", book.currency());
  buy.from = given.text("from").value_or("");
  buy.odometer = odometer_of(given);
  std::vector<book::Fact> seen;
  std::string otherwise;
  if (const auto job = given.text("job")) {
    const appraisal::Job read =
        answers::read_settled_job(read_file(*job), *job, &book, book.currency(), buy.day).job;
    seen = answers::tests_to_keep(book, buy.vehicle, read);
    if (const std::string& tag = read.vehicle.tag; !tag.empty() && tag != buy.vehicle)
      otherwise =
          fmt::format("{} calls the car {}; it is kept as the appraisal of {}", *job, tag, buy.vehicle);
    buy.appraised = words::appraise_for_book(book)(read_file(*job), *job, buy.day, {});
  }
  return record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        const book::EntryId entry = record(recording, buy);
        if (!otherwise.empty()) recording.remarks().push_back(otherwise);
        // What the tests showed before the purchase stays known, though this file does not say it.
        if (!seen.empty()) {
          record(recording, book::Finding{buy.day, buy.vehicle, "tests seen before the purchase", seen});
          for (const book::Fact& fact : seen)
            recording.remarks().push_back("kept from the appraisal before: " + words::in_words(fact));
        }
        const auto budget = answers::budget_of(recording.book(), buy.vehicle);
        if (const std::string said = budget ? words::fees_ahead(*budget, book.currency()) : ""; !said.empty())
          recording.remarks().push_back(fmt::format("{}: nonrunner done {} fees", said, buy.vehicle));
        return entry;
      },
      fmt::format("bought {} for {}", buy.vehicle, buy.price.shown(book.currency())));
}
}  // namespace

extern const Command buy;
const Command buy{
    {"buy",
     "TAG PRICE",
     "a vehicle bought",
     "nonrunner buy pip 900 --fee title=62 --purse cash --date 2026-04-04",
     {{"fee", "NAME=AMOUNT", "a fee paid with it; NAME=AMOUNT@PURSE from another purse", true},
      {"from", "NAME", "who sold it"},
      {"odometer", "N", "what it stands at"},
      purse_option(),
      date_option(),
      {"job", "JOB.toml", "keeps this appraisal as the one in force: the budget the car is measured against"},
      new_option()},
     true,
     ""},
    run_buy};

}  // namespace nonrunner::commands
