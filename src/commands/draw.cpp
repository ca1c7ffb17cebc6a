#include "answers/question.h"
#include "book/events/shelf.h"
#include "book/ledger/entry.h"
#include "commands/ask.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/placed.h"
#include "exact/ends.h"
#include "text/tag.h"

namespace nonrunner::commands {

namespace {

int run_draw(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const book::Draw draw{date_of(given, terminal), given.word(0), given.word(1), given.word_as_quantity(2),
                        given.text_or("heading", "")};
  const Placed placed(given, terminal, book, draw.vehicle, draw.stock, false);
  return record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        placed.mark(recording);
        const book::EntryId entry = record(recording, draw);
        placed.remark(recording, entry);
        if (const auto found = book::counted_on(book, draw.stock, draw.day))
          recording.remarks().push_back(
              fmt::format("\"{}\" was counted on that day: this was drawn before, and {} are still there",
                          draw.stock, found->shown()));
        return entry;
      },
      fmt::format("{} of \"{}\" to {}{}", draw.quantity.shown(), draw.stock, draw.vehicle, placed.said()));
}

int run_count(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const book::Count count{date_of(given, terminal), given.word(0), given.word_as_quantity(1)};
  const book::Balance before = book::balance_of(book, book::account::stock, count.stock);
  // More than twice of what was bought is hardly found: a box was entered as one piece, then, and its price is that of
  // the whole box.
  const Quantity twice = before.quantity + before.quantity;
  if (terminal.in && before.quantity > Quantity{} && count.found > twice) {
    const answers::Question question{
        "count",
        fmt::format("{} of \"{}\" {} in the book; were {} found, each worth as much as one of these",
                    before.quantity.shown(), count.stock,
                    before.quantity == Quantity::of(1000) ? "is" : "are", count.found.shown()),
        {{"y", "yes", "", ""}, {"n", "no, the box was entered as one piece", "", ""}},
        0};
    if (ask(question, terminal) != 0)
      throw Refusal(
          "count: nothing was recorded; take the entry of the box back (nonrunner undo, or void ENTRY) and "
          "enter it "
          "with --gives PIECES");
  }
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, count); },
      Done([&](const std::string&) {
        const Money more = book::balance_of(book, book::account::stock, count.stock).amount - before.amount;
        const std::string worth = (is_negative(more) ? -more : more).shown(book.currency());
        return fmt::format("{} of \"{}\" found, {} in the book before{}", count.found.shown(), count.stock,
                           before.quantity.shown(),
                           is_zero(more)       ? ""
                           : is_negative(more) ? "; " + worth + " less on the shelf, overhead"
                                               : "; " + worth + " more on the shelf, taken off overhead");
      }));
}

int run_shelve(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  book::Shelve shelve;
  shelve.day = date_of(given, terminal);
  shelve.line = given.text_or("line", "");
  shelve.vehicle = as_tag(given.text_or("from", ""));
  shelve.what = given.text_or("what", "");
  shelve.amount = given.money("amount", book.currency());
  if (shelve.line.empty() && (shelve.vehicle.empty() || !shelve.amount))
    given.wrong(
        "found neither --line nor --from with --amount, expected what comes to the shelf by one of them");
  shelve.stock = given.word(0);
  shelve.quantity = given.word_as_quantity(1);
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, shelve); },
      fmt::format("{} of \"{}\" to the shelf", shelve.quantity.shown(), shelve.stock));
}

}  // namespace

extern const Command draw, count, shelve;
const Command draw{{"draw",
                    "TAG ITEM QTY",
                    "stock off the shelf for a car, at the moving average",
                    "nonrunner draw pip gloves 4",
                    {for_option(),
                     {"heading", "NAME", "of the budget, where its words do not say it"},
                     date_option(),
                     new_option()},
                    true,
                    ""},
                   run_draw};
const Command count{{"count",
                     "ITEM QTY",
                     "what the shelf really holds; the difference is overhead",
                     "nonrunner count gloves 70",
                     {date_option()},
                     true,
                     "A count is the last thing of its day: what is drawn on that day was drawn before it."},
                    run_count};
const Command shelve{{"shelve",
                      "ITEM QTY",
                      "a part off a car to the shelf, at cost",
                      "nonrunner shelve hub cap 2 --line R05.4",
                      {{"line", "LINE", "the receipt line that it came with"},
                       {"from", "TAG", "or the car it comes off,"},
                       {"what", "TEXT", "what it is,"},
                       {"amount", "AMOUNT", "and its cost"},
                       date_option()},
                      true,
                      ""},
                     run_shelve};

}  // namespace nonrunner::commands
