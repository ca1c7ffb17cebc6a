#include "commands/command.h"
#include "commands/desk.h"
#include "commands/figures_text.h"
#include "commands/option_on.h"

namespace nonrunner::commands {

namespace {
int run_show(const Given& given, Terminal& terminal) {
  const auto on = given.day("on");
  const book::Book book = open_book(given, terminal);
  book::know_vehicle(book, "show", given.word(0));
  const book::VehicleFigures figures = book::figures_of(book, given.word(0), terminal.today, on);
  if (given.json())
    terminal.out << as_json(figures, book).dump(2) << "\n";
  else
    terminal.out << as_text(figures, book);
  return 0;
}
}  // namespace

extern const Command show;
const Command show{{"show", "TAG", "one vehicle: result or break-even, cost, hours, what is due back", "nonrunner show pip", {on_option()}, true, ""}, run_show};

}  // namespace nonrunner::commands
