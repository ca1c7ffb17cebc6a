// The reference of the events file, from what each event says of its own fields.
#pragma once
#include <string>

namespace nonrunner::commands {

std::string events_help();                         // all of them: word, what it is, its keys
std::string event_help(const std::string& event);  // one, key by key; throws WrongUsage, names the nearest

}  // namespace nonrunner::commands
