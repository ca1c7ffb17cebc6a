// Of entries made before the book kept in columns whose place each takes, and which line has no name yet
// (schema/0026-place.sql): the rows that their events say. Read once, when the book is brought up to date; their seals do not
// cover these rows, so `check` reads the events again and compares.
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

// Adds the rows of every entry before. To be called within the transaction that brings the layout about, before a figure is
// asked for. An event that cannot be read says nothing: `check` names it.
void add_older_places(Book&);
// Whether the rows kept beside an entry of before are those that its event says; true of any other.
bool older_places_agree(const Book&, const Entry&);

}  // namespace nonrunner::book
