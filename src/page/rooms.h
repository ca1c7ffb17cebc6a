// The rooms of the page, one file each, in the order in which they are needed. Which road leads to which: roads.cpp.
#pragma once
#include "page/visit.h"

namespace nonrunner::page::rooms {

// Every change comes through here (entry.cpp): a form whose `do` names an event, kept once for each id.
Answer enter(Visit&);

Answer take_in(Visit&);     // what a phone kept
Answer keep_photo(Visit&);  // and its photograph
Answer show_photo(Visit&);
Answer undo(Visit&);

Answer cars(Visit&);
Answer receipt(Visit&);
Answer tray(Visit&);
Answer tray_answer(Visit&);  // the same, or another one
Answer paper(Visit&);
Answer hours(Visit&);
Answer due(Visit&);
Answer due_calendar(Visit&);  // the same for a phone's own calendar
Answer shopping(Visit&);
Answer entries(Visit&);
Answer correct(Visit&);
Answer put_right(Visit&);
Answer more(Visit&);  // what else happens to a car

Answer seller(Visit&);
Answer keep_appraisal(Visit&);  // as it was tapped and changed there
Answer take_along(Visit&);      // the answers in every state of its tests, as JSON
Answer go_on(Visit&);
Answer job(Visit&);
Answer sell(Visit&);
Answer report(Visit&);
Answer year(Visit&);
Answer workbook(Visit&);

Answer device(Visit&);  // what is on this device only; filled by its script
Answer away(Visit&);    // what works with the house out of reach; filled by its script
Answer away_lists(Visit&);
Answer known(Visit&);  // which of the ids that a device sent the book does not have

}  // namespace nonrunner::page::rooms
