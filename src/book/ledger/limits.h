// What an entry may hold: text that can be read, and amounts that a shop has.
//
// The limits are those of a small shop, so that a barcode typed as an amount is asked about, and so that no
// sum over entries leaves the range of Money (exact/money.h), of hours or of distance:
//   money       10^9 whole units a posting, a line, a price; 9/10 of the range of Money turned over by all
//               entries together (schema/0016-turned-over.sql)
//   hours       10^4 an entry, own or paid (that a day has 24 is asked about elsewhere: questions/alike.h)
//   distance    10^5 an entry                        pieces      10^6 a line or a posting
//   days        1886 to 2200, as the years of cars
//   text        10,000 bytes a name; 1 MiB the whole event
// What is taken back is never refused for these.
//
// Text: UTF-8 everywhere; in names (of purses, suppliers, lines, operations, items, files) nothing that
// nobody sees (text/unicode.h).
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

void expect_readable(const Entry&);  // throws Refusal
// The same of one name beside the entries (a heading, a comparable's note, what a clock runs for); `event` begins the message.
void expect_name(const std::string& event, const std::string& name);  // throws Refusal
// Of what is entered now, and not of a book that is taken as it was: names that show something (no fillers, not blanks alone).
void expect_names_show(const Entry&);                                  // throws Refusal
void expect_shows(const std::string& event, const std::string& name);  // throws Refusal
void expect_shop_sized(const Recording&, const Entry&);                // throws Refusal

}  // namespace nonrunner::book
