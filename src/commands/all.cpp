// Every command, in the order in which `nonrunner --help` lists them.
#include "commands/command.h"

namespace nonrunner::commands {

extern const Command start, post, owner, move, buy, pass, receipt, return_goods, core, hours, clock_command, draw, count, shelve, transfer, stock,
    recover, advertise, deposit, tool, sell, cost, write_off, trip, note, attach, pay, void_command, vehicles, show, entries, due, tray, purses,
    close_command, set_command, check, backup, export_command, restore, workbook, go_on;

const std::vector<Command>& all() {
  static const std::vector<Command> commands = {
      start, buy, receipt, return_goods, core, hours, clock_command, draw, count, shelve, stock, transfer, recover, advertise, deposit, sell, cost,
      write_off, pass, trip, note, attach, tool, pay, owner, move, void_command, post, vehicles, show, go_on, entries, due, tray, purses,
      set_command, close_command, check, backup, export_command, restore, workbook};
  return commands;
}

}  // namespace nonrunner::commands
