// Every figure of a day under a name of its own ("pip cost", "purse cash", "shelf oil"), once as the
// bookkeeper by days has it and once as the book shows it: two maps to compare. Zeros are left out.
#pragma once
#include <map>
#include <set>
#include <string>

#include "book/dated_bookkeeper.h"
#include "book/ledger/book.h"

namespace dated {

using Figures = std::map<std::string, Number>;

Figures figures_of(const Bookkeeper&, int day);
Figures figures_of(const nonrunner::book::Book&, const std::vector<std::string>& tags, int day);
// Of a calendar year: the difference of two days, but for what stood there at the end.
Figures year_of(const Bookkeeper&, int year);
Figures year_of(const nonrunner::book::Book&, int year);

// The board as it is at the end of the last day.
Figures board_of(const Bookkeeper&, int last);
Figures board_of(const nonrunner::book::Book&, int last);
// Every line that is due on that day, every line of work of the profit reports, and the sums of their lines of money by
// kind, as they are shown: to compare two orders of typing.
std::multiset<std::string> lines_of(const nonrunner::book::Book&, const std::vector<std::string>& tags,
                                    int day);

// "pip cost: 12.00, expected 13.00", of what differs first; empty where nothing does.
std::string apart(const Figures& found, const Figures& expected);
// What breaks in the bookkeeper's own identities from the day before `first` to `last`; empty where they
// hold.
std::string identities(const Bookkeeper&, int first, int last);

nonrunner::Day calendar(int day);

}  // namespace dated
