// The form of a paper, filled with what is given; `reason`: why it was sent back.
#pragma once
#include <string>

#include "page/visit.h"

namespace nonrunner::page {

Answer paper_page(const Visit&, const Form&, const std::string& reason);

}  // namespace nonrunner::page
