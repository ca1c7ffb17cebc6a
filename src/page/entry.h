// Everything that changes the book comes in as a form with the keys of an event (form_event.h), and is recorded
// here, once for each id that it was kept by.
//
//   POST /entry             a form: then the way on that it names, or the car; what has to be asked is a page with
//                           the question, and a button for each answer; what is refused comes back filled in
//   PUT /entry/ID           what a phone kept and sends by itself: never asked, never refused for likeness
//   PUT /entry/ID/photo     the photograph that belongs to it
//   POST /undo              takes back what this device entered last
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "book/ledger/entry.h"
#include "page/frame.h"
#include "page/visit.h"

namespace nonrunner::page {

// Records in one recording of this device, and keeps it; what was remarked is added to `remarks`.
book::EntryId record_here(Visit&, const std::function<book::EntryId(book::Recording&)>&,
                          std::vector<std::string>& remarks, bool names_are_new = true);
// On to `path`, which then says what was entered; or, where something was remarked, a page that says it.
Answer entered(const Visit&, book::EntryId, const std::string& path, const std::vector<std::string>& remarks);
// "entry 12, hours of Tue 5 May: 2.25 pip", as it reads now.
std::string said_of(const book::Book&, book::EntryId);
// "In the book: entry 38, receipt, pip: starter, 52.50 USD.", where the query names an entry; else nothing.
Html what_was_entered(const Visit&);
// A way of our own that a form or a query names; else `otherwise`.
std::string way_of(const Form&, const std::string& otherwise);

}  // namespace nonrunner::page
