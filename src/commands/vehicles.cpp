#include "book/events/sell.h"
#include "book/questions/board.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "words/book_json.h"

namespace nonrunner::commands {

namespace {
int run_vehicles(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  const Currency& c = book.currency();
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
  columns.row({"vehicle", "state", "days", "carried", "own hours", "cash profit"});
  for (const book::BoardRow& row : board)
    columns.row({row.tag, row.in_pieces ? "in pieces" : book::shown(row.state),
                 row.days ? std::to_string(*row.days) : "", is_zero(row.carried) ? "" : row.carried.shown(c),
                 row.own_hours == Hours{} ? "" : row.own_hours.shown(),
                 row.cash_profit ? row.cash_profit->shown(c) : "",
                 row.cash_profit && is_negative(*row.cash_profit) ? "loss" : ""});
  terminal.out << columns.text();
  if (const auto limit = book.setting("dealer-limit"))
    terminal.out << fmt::format("\n{} sold in the last twelve months; your limit is {}\n",
                                book::sold_in_twelve_months(book, terminal.today), *limit);
  return 0;
}
}  // namespace

extern const Command vehicles;
const Command vehicles{{"vehicles",
                        "",
                        "the board: every car, its state, cost, hours and result",
                        "nonrunner vehicles",
                        {},
                        true,
                        ""},
                       run_vehicles};

}  // namespace nonrunner::commands
