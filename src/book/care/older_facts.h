// What entries of an older layout say beside their postings, in the columns of today: read once from their
// sealed events, when the book is brought up to date. Their seals do not cover these rows; `check` reads the
// events again and compares.
//
// The amounts are those that were booked: what a draw came to stays what it came to.
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

// Adds the rows of every entry before the layout. To be called within the transaction that brings it about.
void add_older_facts(Book&);
// Which figures of such a book are others now that it is read by days, one line each: what the version before
// showed of each car, and what it carried at the end of each year.
std::vector<std::string> figures_that_changed(const Book&);
// Whether the rows kept beside an entry of an older layout are those that its event says; true of any other.
bool older_facts_agree(const Book&, const Entry&);

}  // namespace nonrunner::book
