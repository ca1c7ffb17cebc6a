#include "book/events/receipt.h"

#include <algorithm>
#include <cerrno>
#include <fstream>
#include <memory>
#include <sstream>
#include <utility>

#include "answers/doubles.h"
#include "answers/entering.h"
#include "answers/line_kind.h"
#include "answers/paper_places.h"
#include "book/care/take_in.h"
#include "book/events/attach.h"
#include "book/events/done.h"
#include "book/events/fields.h"
#include "book/events/quick_line.h"
#include "book/events/typed.h"
#include "book/questions/figures.h"
#include "commands/ask.h"
#include "commands/asked_receipt.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/entry_number.h"
#include "commands/placed.h"
#include "exact/ends.h"
#include "exact/nearest.h"
#include "text/counted.h"
#include "text/csv.h"
#include "text/lower_case.h"
#include "text/toml.h"
#include "text/typed_numbers.h"
#include "words/book_json.h"
#include "words/paper_places.h"

namespace nonrunner::commands {

namespace {

void check_word(const Given& given, const std::string& option, const std::string& word,
                const std::vector<std::string>& known) {
  if (std::find(known.begin(), known.end(), word) == known.end())
    given.wrong(fmt::format("--{}: found \"{}\", expected {}{}", option, word, book::one_of(known),
                            did_you_mean(word, known)));
}

std::optional<Day> last_day_of_core(const Given& given, Day today, Day of_paper) {
  const auto typed = given.text("core-by");
  if (!typed) return std::nullopt;
  try {
    return typed_last_day(*typed, today, of_paper);
  } catch (const Refusal& refusal) {
    given.wrong(std::string("--core-by: ") + refusal.what());
  }
}

book::Receipt typed_line(const Given& given, const book::Book& book, Terminal& terminal) {
  const bool of_shelf = given.text_or("kind", "") == "stock";
  const bool item_alone = of_shelf && given.count() == 2;  // what was bought is the item
  if (given.count() != 3 && !item_alone)
    given.wrong(
        fmt::format("found {}, expected {}, or --file or --csv", counted(given.count(), "word"),
                    of_shelf ? "ITEM AMOUNT and, where it is not the item, WHAT" : "TAG AMOUNT WHAT"));
  book::Receipt receipt;
  receipt.day = date_of(given, terminal);
  receipt.supplier = given.text_or("supplier", "");
  receipt.number = given.text_or("number", "");
  receipt.itemised = given.flag("whole") || given.flag("no-paper");
  receipt.on_paper = !given.flag("no-paper");
  receipt.on_account = given.flag("on-account");
  book::ReceiptLine line;
  line.what = given.word(item_alone ? 0 : 2);
  line.amount = given.word_as_money(1, book.currency());
  line.kind = given.text_or("kind", "part");
  line.source = given.text_or("source", "");
  line.id = given.text_or("id", "");
  line.core = given.money("core", book.currency()).value_or(Money{});
  line.core_by = last_day_of_core(given, terminal.today, receipt.day);
  if (const auto gives = given.quantity("gives")) {
    if (line.kind != "stock") given.wrong("found --gives without --kind stock, expected both");
    if (*gives <= Quantity{})
      given.wrong("--gives: found " + gives->shown() + ", expected more than 0 pieces");
    line.gives = *gives;
  }
  check_word(given, "kind", line.kind, book::line_kinds());
  if (!line.source.empty()) check_word(given, "source", line.source, book::line_sources());
  const Money total = *line.amount + line.core;
  if (total <= Money{})
    given.wrong("found an amount of " + total.plain(book.currency()) +
                ", expected one above 0; money that comes back: nonrunner return LINE");
  receipt = book::quick_line(receipt, line, given.word(0));
  if (receipt.on_account && given.flag("purse"))
    given.wrong(
        "found --on-account and --purse, expected one of them: what is owed goes through no purse yet");
  if (!receipt.on_account)
    receipt.paid = {{purse_of(given, terminal, book, "receipt", receipt.supplier), receipt.total}};
  return receipt;
}

std::vector<book::EntryId> entry_numbers(const Given& given, const std::string& text) {
  std::vector<book::EntryId> all;
  std::istringstream in(text);
  for (std::string each; std::getline(in, each, ',');) all.push_back(entry_number(given, each));
  if (all.empty()) given.wrong("--replaces: expected the number of an entry, or several, 38,39");
  return all;
}

// The first is the one that the receipt names, the others stand beside it.
void take_places(const Given& given, const std::string& entries, book::Receipt& receipt,
                 std::vector<book::EntryId>& others) {
  others = entry_numbers(given, entries);
  receipt.replaces = others.front();
  others.erase(others.begin());
}

// Before money is booked the tray and the last days are looked through; what may be there already is asked about. Gives
// the quick lines beside the first whose place the paper takes.
std::vector<book::EntryId> settle_doubles(const Given& given, Terminal& terminal, const book::Book& book,
                                          book::Receipt& receipt) {
  std::vector<book::EntryId> others;
  receipt.again = receipt.again || given.flag("again");
  if (const auto replaced = given.text("replaces")) take_places(given, *replaced, receipt, others);
  if (receipt.again || receipt.replaces) return others;
  const auto question =
      receipt.itemised ? answers::whose_place(book, receipt) : answers::another_one(book, receipt);
  if (!question) return others;
  const answers::Choice& choice = question->choices[ask(*question, terminal)];
  if (choice.option == "replaces")
    take_places(given, choice.value, receipt, others);
  else if (choice.option == "again")
    receipt.again = true;
  else
    throw Refusal("receipt: left out, as it is there already; nothing was recorded");
  return others;
}

// The file, to be read twice: what no file is (a pipe, standard input) is held whole.
std::unique_ptr<std::istream> opened(const std::string& file) {
  std::error_code error;
  if (file == "-" || !std::filesystem::is_regular_file(file, error))
    return std::make_unique<std::istringstream>(read_file(file, any_size));
  auto in = std::make_unique<std::ifstream>(file, std::ios::binary);
  const int why = errno;
  if (!*in) throw MachineFailure(file + ": cannot be read: " + std::generic_category().message(why));
  return in;
}

// One line a paper: "row 2, 2026-04-05 Cleave Yard 3071, 61.37 USD: added as entry 12".
std::string told_of(const book::TakenPaper& paper, const std::string& file, const Currency& currency) {
  using What = book::TakenPaper::What;
  const std::string which =
      fmt::format("row {}, {} {}{}, {}: ", paper.row, paper.day.iso(), paper.supplier,
                  paper.number.empty() ? "" : " " + paper.number, paper.total.shown(currency));
  switch (paper.what) {
    case What::added:
      return which + fmt::format("added as entry {}", paper.entry);
    case What::replaced:
      return which + fmt::format("takes the place of {} as entry {}", paper.replaces, paper.entry);
    case What::there:
      return which + fmt::format("was there already as {}", paper.entry);
    case What::left_out:
      break;
  }
  const std::string again = fmt::format("nonrunner receipt --csv \"{}\" --row {}", file, paper.row);
  return which +
         fmt::format(
             "left out, as it may be the paper of {}; if it is: {} --replaces {}; if it is another one: "
             "{} --again",
             paper.replaces, again, paper.replaces, again);
}

const char* word_of(book::TakenPaper::What what) {
  using What = book::TakenPaper::What;
  return what == What::added      ? "added"
         : what == What::replaced ? "takes the place"
         : what == What::there    ? "there already"
                                  : "left out";
}

// A list of somebody else's making: "Date=date,Invoice=number", and what holds on every row.
book::CsvShape shape_of(const Given& given) {
  book::CsvShape shape;
  std::istringstream in(given.text_or("columns", ""));
  for (std::string each; std::getline(in, each, ',');) {
    const auto [theirs, ours] = name_and_value(given, "columns", each);
    shape.columns[lower_case(theirs)] = lower_case(ours);
  }
  for (const char* name : {"supplier", "purse", "kind", "source", "to", "number"})
    if (const auto text = given.text(name)) shape.fixed[name] = *text;
  return shape;
}

// Where ; parts the cells, a comma in a number is a decimal one. Somebody who is there is asked whether that is so.
void expect_decimal_commas(std::istream& in, Terminal& terminal) {
  if (!terminal.in) return;
  std::string heading, row, amount;
  std::getline(in, heading);
  while (amount.empty() && csv_parted(heading) == ';' && std::getline(in, row))
    for (const std::string& cell : parted(row, ';'))
      if (cell.find(',') != std::string::npos && decimal_comma(cell)) amount = cell;
  in.clear();
  in.seekg(0);
  if (amount.empty()) return;
  const answers::Question question{
      "receipt",
      fmt::format("the cells are parted by ; and a comma is a decimal one: \"{}\" is {}; is that so", amount,
                  *decimal_comma(amount)),
      {{"y", "yes", "", ""}, {"n", "no", "", ""}},
      0};
  if (ask(question, terminal) != 0)
    throw Refusal(
        "receipt: nothing was taken in; write numbers with a point, 1250.00, and part the cells with ,");
}

int run_csv(const Given& given, Terminal& terminal, book::Book& book) {
  const std::string file = *given.text("csv");
  const auto in = opened(file);
  expect_decimal_commas(*in, terminal);
  book::HowTaken how{given.flag("again"), 0, {}, shape_of(given)};
  if (const auto row = given.text("row")) how.row = static_cast<int>(entry_number(given, *row));
  if (given.flag("replaces") && how.row == 0)
    given.wrong("found --replaces with --csv, expected --row N beside them");
  if (const auto replaces = given.text("replaces")) how.replaces = entry_numbers(given, *replaces);
  book::Recording recording(book, terminal.now, terminal.today);
  recording.typed_by = terminal.login();
  const book::EntryId before = book::last_entry(book);
  Progress progress(terminal, "receipts");
  const book::TakenIn taken = book::take_in_receipts(recording, *in, file, how, std::ref(progress));
  progress.wipe();
  book::remember_typed(recording, before);
  const book::EntryId last = book::last_entry(book);
  recording.keep();
  for (std::string& told : settle_unplaced(given, terminal, book, before + 1, last))
    recording.remarks().push_back(std::move(told));
  std::vector<std::string> left_out;
  for (const book::TakenPaper& paper : taken.papers)
    if (paper.what == book::TakenPaper::What::left_out) left_out.push_back(std::to_string(paper.row));
  if (given.json()) {
    std::vector<std::string> told;
    for (const book::TakenPaper& paper : taken.papers)
      told.push_back(fmt::format("{} {} {}", paper.row, word_of(paper.what), paper.entry));
    terminal.out << words::facts_as_json({{"added", std::int64_t{taken.added}},
                                          {"already_there", std::int64_t{taken.there_already}},
                                          {"left_out_rows", left_out},
                                          {"papers", told},
                                          {"remarks", recording.remarks()}});
    return 0;
  }
  for (const std::string& remark : recording.remarks()) terminal.out << remark << "\n";
  for (const book::TakenPaper& paper : taken.papers)
    terminal.out << in_80(printable(told_of(paper, file, book.currency())), 2);
  terminal.out << fmt::format("{} added, {} there already{}{}\n", counted(taken.added, "paper"),
                              counted(taken.there_already, "was", "were"),
                              left_out.empty() ? "" : fmt::format(", {} left out", left_out.size()),
                              taken.before ? " (this file was taken in before)" : "");
  return 0;
}

// "52.50 USD from cash for gannet, starter; it waits in the tray for its paper".
std::string said_of(const book::Receipt& receipt, const std::string& through, const std::string& placed,
                    const Currency& currency) {
  const bool back = is_negative(receipt.total);
  std::string said = (back ? -receipt.total : receipt.total).shown(currency) + (back ? " came back" : "");
  const bool several = through.find(", ") != std::string::npos;
  if (!through.empty()) said += several ? " (" + through + ")" : " " + through;
  if (receipt.lines.size() == 1) {
    const book::ReceiptLine& line = receipt.lines.front();
    said += " for " + (line.shares.size() == 1 ? line.shares.front().vehicle + ", " : "") + line.what;
  } else {
    said += fmt::format(" on {} lines from {}", receipt.lines.size(), receipt.supplier);
  }
  said += placed;
  if (receipt.on_account)
    said += ", on account" + (receipt.supplier.empty() ? "" : " at " + receipt.supplier);
  if (!receipt.on_paper)
    said += ", without a paper: it is listed at the year's end";
  else if (!receipt.itemised)
    said += "; it waits in the tray for its paper";
  return said;
}

// The lines of a whole paper in the budgets of their cars: asked about where somebody is there, else remarked on with
// what to type. `ready`: lines that are all there though the paper counts fewer pieces.
struct PaperPlaces {
  std::vector<answers::PaperPlace> close;
  std::vector<answers::PiecesApart> apart;
  std::vector<book::Done> all_there;
};

PaperPlaces settle_places(Terminal& terminal, const book::Book& book, book::Receipt& receipt,
                          std::vector<book::EntryId> replaced, bool typed) {
  PaperPlaces places;
  if (receipt.replaces) replaced.push_back(*receipt.replaces);
  // A quick line's place passes on to a paper of one line.
  if (receipt.replaces && receipt.lines.size() == 1) {
    answers::carry_place(book, receipt, replaced);
    return places;
  }
  // The place of a typed line is settled where it is typed (Placed).
  if (!typed) places.close = answers::places_to_ask(book, receipt, replaced);
  if (terminal.in) {
    for (const answers::PaperPlace& place : places.close)
      answers::answer(place, ask(answers::question_of(place, receipt), terminal), receipt);
    places.close.clear();
  }
  for (const answers::PiecesApart& each : answers::pieces_apart(book, receipt)) {
    if (!each.may_be_all || !terminal.in) {
      places.apart.push_back(each);
      continue;
    }
    const answers::Question question{"receipt",
                                     fmt::format("\"{}\": {} of {} planned for {}, {}; are these all of them",
                                                 receipt.lines[each.line].what, each.bought.shown(),
                                                 each.planned.shown(), each.tag, each.name),
                                     {{"y", "all of them", "", ""}, {"n", "more are to come", "", ""}},
                                     0};
    if (ask(question, terminal) == 0)
      places.all_there.push_back({receipt.day, each.tag, {each.name}, book::says::done});
  }
  return places;
}

void remark_places(book::Recording& recording, const book::Receipt& receipt, const PaperPlaces& places,
                   book::EntryId entry) {
  const auto id_of = [&](std::size_t at) {
    const std::string& id = receipt.lines[at].id;
    return id.empty() ? fmt::format("{}.{}", entry, at + 1) : id;
  };
  for (const answers::PaperPlace& place : places.close)
    recording.remarks().push_back(fmt::format(
        "\"{}\" stands under no line of the budget; if it {} line {}, {}: nonrunner under {} \"{}\" "
        "--paper-line {}",
        receipt.lines[place.line].what,
        place.follows.empty() ? "is" : fmt::format("goes with \"{}\", under", place.follows),
        place.placing.number, place.placing.close, place.tag, place.placing.close, id_of(place.line)));
  for (const answers::PiecesApart& each : places.apart) {
    const std::string counted = words::in_words(each);
    recording.remarks().push_back(
        each.may_be_all ? fmt::format("{}; if these are all of them: nonrunner done {} \"{}\"", counted,
                                      each.tag, each.name)
                        : fmt::format("{}; shelve what is over? nonrunner shelve \"{}\" {} --line {}",
                                      counted, each.name, each.too_many.shown(), id_of(each.line)));
  }
}

int run_receipt(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  if (given.flag("csv") && given.flag("file")) given.wrong("found --csv and --file, expected one of them");
  if ((given.flag("csv") || given.flag("file")) && given.count() > 0)
    given.wrong("found words beside a file, expected one of them");
  for (const char* of_a_list : {"row", "columns", "to"})
    if (given.flag(of_a_list) && !given.flag("csv"))
      given.wrong(fmt::format("found --{} without --csv, expected both", of_a_list));
  if (given.flag("csv")) return run_csv(given, terminal, book);
  book::Receipt receipt;
  const bool asked = given.count() == 0 && !given.flag("file");
  if (asked) {
    receipt = asked_receipt(given, terminal, book);
  } else if (const auto file = given.text("file")) {
    const Value value = parse_toml(read_file(*file), *file);
    receipt = book::read<book::Receipt>(Table(value, *file, "the receipt"), book.currency());
    if (receipt.day > terminal.today)
      throw Refusal(fmt::format("{}: the day {} has not come yet, expected {} at the latest", *file,
                                receipt.day.iso(), terminal.today.iso()));
  } else {
    receipt = typed_line(given, book, terminal);
  }
  const auto others = settle_doubles(given, terminal, book, receipt);
  // A line typed for one car has its place in that car's budget.
  std::optional<Placed> placed;
  std::string taken_as;
  if (!asked && !given.flag("file") && receipt.lines.front().shares.size() == 1) {
    book::ReceiptLine& line = receipt.lines.front();
    placed.emplace(given, terminal, book, line.shares.front().vehicle, line.what, false);
    line.what = placed->words();
    line.more = given.flag("more");
    if (placed->placing().says) line.under[placed->tag()] = *placed->placing().says;
    if (!given.flag("kind"))
      line.kind = answers::line_kind(book, placed->tag(), line.what, placed->placing().line);
    if (!given.flag("kind") && line.kind != "part") taken_as = ", a " + line.kind + " as its budget has it";
  } else if (given.flag("for") || given.flag("more")) {
    given.wrong("found --for or --more without a typed line for one car; in a file a line says it itself");
  }
  const PaperPlaces places = settle_places(terminal, book, receipt, others, placed.has_value());
  const int status = record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        answers::take_places(recording, receipt.day, others);
        // Names were settled at their questions.
        const bool strict = std::exchange(recording.strict_words, recording.strict_words && !asked);
        const book::EntryId entry = record(recording, receipt);
        recording.strict_words = strict;
        for (const book::EntryId other : others) book::photos_follow(recording, other, entry);
        for (const book::Done& done : places.all_there) record(recording, done);
        if (placed) placed->remark(recording, entry);
        remark_places(recording, receipt, places, entry);
        return entry;
      },
      Done([&](const std::string& through) {
        return said_of(receipt, through, (placed ? placed->said() : "") + taken_as, book.currency());
      }));
  if (asked) forget_draft(terminal, book);
  return status;
}

}  // namespace

extern const Command receipt;
const Command receipt{
    {"receipt",
     "[TAG] [AMOUNT] [WHAT]",
     "what was bought: a quick line, a whole paper, or many",
     "nonrunner receipt pip 45 radiator --source salvage --supplier \"Cleave Yard\"",
     {{"kind", "KIND",
       "part (else, or as its line of the budget is), consumable, sublet, fee, tool, overhead, private or "
       "stock"},
      {"source", "SOURCE", "new, salvage or reman"},
      {"supplier", "NAME", "who sold it"},
      {"number", "TEXT", "the paper's number"},
      {"gives", "PIECES", "with --kind stock: pieces in what was bought, a box of 100; else 1"},
      {"core", "AMOUNT", "deposit paid on top, to come back with the old part"},
      {"core-by", "DAY", "the last day for the core"},
      {"id", "NAME", "your own name for the line"},
      for_option(),
      more_option(),
      {"whole", "", "this is all there is to it: do not wait for a paper"},
      {"no-paper", "", "there was no paper: do not wait; listed at year's end"},
      {"on-account", "", "not paid yet"},
      {"file", "PAPER.toml", "a whole paper (nonrunner help receipt); - reads standard input"},
      {"csv", "FILE", "many papers; the same file twice adds nothing"},
      {"columns", "THEIRS=OURS,...", "with --csv: what the columns of another list are to this one"},
      {"to", "TAG", "with --csv: the car of every line that names none"},
      {"row", "N", "with --csv: only the paper that begins in this row"},
      {"replaces", "ENTRY", "the quick line that this paper takes the place of; or several, 38,39"},
      {"again", "", "it is another paper, though it looks like one that is there"},
      purse_option(),
      date_option(),
      new_option()},
     true,
     "Without words a whole paper is asked for, line by line; what was begun is kept until it is whole.\n"
     "AMOUNT is what was paid, tax included. TAG is a car, or tools, owner, overhead; with --kind stock the "
     "item.\n"
     "CSV: nonrunner help csv has the columns. Of another list say what its columns are, --columns "
     "\"Date=date,Description=what,Price=amount\", and for all rows --supplier, --purse, --kind, --to."},
    run_receipt};

}  // namespace nonrunner::commands
