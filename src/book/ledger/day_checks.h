// What holds on every day from that of an entry on, whatever was typed before or after it: no deposit held
// below nothing, no supplier owed less than nothing, no more given back of what was recovered than came in, no
// car out of which more was moved than was put into it, no line named before its paper, no line of which something went
// back for some days otherwise than it was on them, no car sold or finished that was not bought. (The pieces on a shelf are looked after by shelf_days.h.)
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

// Looks at the accounts that the entry, just written and its shelves settled, takes something from. Throws
// Refusal with the first day on which that is more than was there, and the entry on it.
void check_days(Recording&, const Entry&);

// What the entry, just written, changes of the shelves that it moves: the averages that follow from it are entered. Throws
// Refusal where less than nothing would lie there.
void settle_shelves(Recording&, const Entry&);

// Both for what was held back until something takes its place; nothing where nothing was.
void look_after_held(Recording&);

}  // namespace nonrunner::book
