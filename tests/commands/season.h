// A season of an invented shop, typed at the desk: what the approved screens are taken from. Four cars: pip
// is mended and sold, gull ends in pieces, wren is looked at and left, teal is owned.
#pragma once
#include "commands/session.h"

namespace nonrunner::commands {

struct Season : Session {
  Season();
  std::string story;  // the dialogue of all that was typed
};

}  // namespace nonrunner::commands
