// Text as it is sent to a browser that takes it packed (gzip, RFC 1952): a page of a car with many lines is sent in a
// quarter of its bytes.
//
// No oracle is made by that. Who would guess a secret by the length of what is sent needs a secret beside text of his own:
// no page holds one that opens anything (the cookie stands in the head alone, the code to pair in the fragment, ids of
// entries are new with each page), and another site's request is answered without a page (guards.h, SameSite=Strict).
#pragma once
#include <string>

#include "page/request.h"

namespace nonrunner::page {

// What Accept-Encoding says: whether gzip is taken; "gzip;q=0" is not.
bool takes_gzip(const std::string& accepted);
// Packs a body of text that gains by it. What a browser may keep is packed once and remembered.
void pack(Answer&);

}  // namespace nonrunner::page
