// What lies in src/page/web, as it lies there; what is served of it: files.h.
#pragma once
#include <string>
#include <vector>

namespace nonrunner::page {

struct WebPart {
  std::string name;
  std::string text;
};
const std::vector<WebPart>& web_parts();

}  // namespace nonrunner::page
