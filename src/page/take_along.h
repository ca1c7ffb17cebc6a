// What is taken along as one page without script, an ordinary file for any phone: nested parts that are opened as
// tests are made, in the order in which they are listed.
#pragma once
#include <string>

#include "answers/take_along.h"

namespace nonrunner::page {

std::string take_along_page(const answers::TakeAlong&, const std::string& as_of);

}  // namespace nonrunner::page
