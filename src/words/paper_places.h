// What an entry does to the budget of its car, in words: pieces that were bought beside those planned, and what the first
// advert closes.
#pragma once
#include <string>
#include <vector>

#include "answers/made_ready.h"
#include "answers/paper_places.h"
#include "exact/currency.h"

namespace nonrunner::words {

std::string in_words(const answers::PiecesApart&);  // "plug: 6 for 4 planned on pip"
// "4 starter (45.00); 9 strip (1.5 h)"
std::string in_words(const std::vector<answers::StillOpen>&, const Currency&);
// `reopen`: how a line is opened again, in the words of the front end; may be empty.
std::vector<std::string> in_words(const answers::MadeReady&, const Currency&, const std::string& reopen = "");

}  // namespace nonrunner::words
