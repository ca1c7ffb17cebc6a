// Invented figures for the tests of the workbooks: makes, shops, prices and people exist nowhere.
#pragma once
#include <string>

#include "reports/profit.h"

namespace nonrunner::reports::invented {

Money usd(const char*);
Hours hours(const char*);

// A small hatchback from purchase to a sale that two things followed. Cash profit 881.94, by hand.
ProfitFigures sold_hatchback();
ProfitFigures not_sold_yet();  // the same before its sale, with a commission rate
ProfitFigures in_pieces();     // ended in parts, below its cost so far
ProfitFigures finished();      // written off, with a part sold after it
// The same in amounts of nine digits before the decimals, or nearly.
ProfitFigures in_pesos(ProfitFigures);
ProfitFigures of_many_entries();  // 400 of them
ProfitFigures sold_by_agent();    // yen, a commission by rate, a loss, no appraisal, strange texts

// Texts that break careless files.
std::vector<std::string> strange_texts();

}  // namespace nonrunner::reports::invented
