#include "answers/year.h"
#include "book/care/devices.h"
#include "book/events/sell.h"
#include "book/questions/board.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/year.h"
#include "words/book_json.h"
#include "words/year_sums.h"

namespace nonrunner::commands {

namespace {
void add_sum(Columns& columns, const std::vector<book::BoardRow>& board, const Currency& c) {
  Money in_it, profit;
  Hours hours;
  for (const book::BoardRow& row : board) {
    in_it += row.carried;
    hours += row.own_hours;
    if (row.cash_profit) profit += *row.cash_profit;
  }
  if (board.size() > 1)
    columns.row(
        {"sum", "", "", in_it.shown(c), hours.shown(), profit.shown(c), is_negative(profit) ? "loss" : ""});
}

int run_vehicles(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  const Currency& c = book.currency();
  if (const auto text = given.text("year")) {
    const answers::YearSums sums = answers::sums_of(
        answers::year_figures(book, year_typed(given, *text, terminal.today), terminal.today));
    terminal.out << (given.json() ? words::to_json(sums, c) : cars_of_year(sums, c));
    return 0;
  }
  const std::vector<book::BoardRow> board = book::board(book, terminal.today);
  if (given.json()) {
    terminal.out << words::board_as_json(board, c);
    return 0;
  }
  if (board.empty()) {
    terminal.out << "no vehicle yet; buy one: nonrunner buy TAG PRICE\n";
    return 0;
  }
  Columns columns("llrrrrl");
  columns.row({"vehicle", "state", "days", "in it", "own hours", "cash profit"});
  for (const book::BoardRow& row : board)
    columns.row({row.tag, row.in_pieces ? "in pieces" : book::shown(row.state),
                 row.days ? std::to_string(*row.days) : "", is_zero(row.carried) ? "" : row.carried.shown(c),
                 row.own_hours == Hours{} ? "" : row.own_hours.shown(),
                 row.cash_profit ? row.cash_profit->shown(c) : "",
                 row.cash_profit && is_negative(*row.cash_profit) ? "loss" : ""});
  add_sum(columns, board, c);
  terminal.out << columns.text();
  if (const auto last = book::seen_last(book))
    terminal.out << fmt::format("\nthe house was last reached on {} by \"{}\"\n", last->seen.substr(0, 10),
                                printable(last->name));
  if (const auto limit = book.setting("dealer-limit"))
    terminal.out << fmt::format("\n{} sold in the last twelve months; your limit is {}\n",
                                book::sold_in_twelve_months(book, terminal.today), *limit);
  return 0;
}
}  // namespace

int list_cars(const Given& given, Terminal& terminal) { return run_vehicles(given, terminal); }

extern const Command vehicles;
const Command vehicles{{"vehicles",
                        "",
                        "the board: every car, its state, cost, hours and result",
                        "nonrunner vehicles",
                        {{"year", "YEAR", "the cars of that year: result, own hours, result an hour"}},
                        true,
                        "\"in it\" is the money that is tied up in a car."},
                       run_vehicles};

}  // namespace nonrunner::commands
