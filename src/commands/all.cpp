// Every command, in the order in which `nonrunner --help` lists them: deciding, keeping, looking, looking
// after.
#include "commands/command.h"

namespace nonrunner::commands {

extern const Command advertise;
extern const Command appraise;
extern const Command attach;
extern const Command backup;
extern const Command buy;
extern const Command check;
extern const Command choose;
extern const Command clock_command;
extern const Command close_command;
extern const Command comparable;
extern const Command core;
extern const Command correct;
extern const Command cost;
extern const Command count;
extern const Command deposit;
extern const Command done;
extern const Command draw;
extern const Command due;
extern const Command entries;
extern const Command export_command;
extern const Command fixes;
extern const Command go_on;
extern const Command hours;
extern const Command learn;
extern const Command move;
extern const Command new_job;
extern const Command note;
extern const Command owner;
extern const Command part_out;
extern const Command pass;
extern const Command pay;
extern const Command plan;
extern const Command post;
extern const Command price;
extern const Command purses;
extern const Command receipt;
extern const Command recover;
extern const Command mend;
extern const Command restore;
extern const Command return_goods;
extern const Command sell;
extern const Command serve;
extern const Command set_command;
extern const Command shelve;
extern const Command show;
extern const Command start;
extern const Command stock;
extern const Command tool;
extern const Command transfer;
extern const Command tray;
extern const Command trip;
extern const Command under;
extern const Command undo;
extern const Command vehicles;
extern const Command void_command;
extern const Command workbook;
extern const Command write_off;
extern const Command year;

const std::vector<Command>& all() {
  static const std::vector<Command> commands = {
      appraise, choose,   new_job,   go_on,       fixes,         price,     learn,   comparable,
      start,    buy,      pass,      receipt,     return_goods,  core,      hours,   clock_command,
      draw,     count,    shelve,    transfer,    recover,       advertise, deposit, sell,
      cost,     part_out, write_off, trip,        note,          plan,      done,    under,
      attach,   tool,     pay,       owner,       move,          correct,   undo,    void_command,
      post,     vehicles, show,      entries,     due,           tray,      purses,  stock,
      year,     workbook, serve,     set_command, close_command, check,     backup,  export_command,
      restore,  mend,
  };
  return commands;
}

}  // namespace nonrunner::commands
