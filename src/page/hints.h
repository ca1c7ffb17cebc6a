// What would put an error right, as a way on the page: the rooms below say an action (exact/hint.h), the page the
// room in which it is done.
#pragma once
#include "exact/hint.h"
#include "page/html.h"

namespace nonrunner::page {

// A sentence with a link, or nothing where the page has no room for it: that is done at the prompt.
Html way_on(const Hint&);

}  // namespace nonrunner::page
