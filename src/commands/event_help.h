// The reference of the events file, from what each event says of its own fields.
#pragma once
#include <string>
#include <vector>

#include "book/events/fields.h"

namespace nonrunner::commands {

std::string fields_text(const std::vector<book::Described>&);  // key by key, what a list holds further in
std::string events_help();                                     // all of them: word, what it is, its keys
std::string event_help(const std::string& event);  // one, key by key; throws WrongUsage, names the nearest

}  // namespace nonrunner::commands
