#include "words/json.h"

namespace nonrunner::words {

Json& added(Json& list) { return list.emplace_back(Json::object()); }
std::string text_of(const Json& json) {
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}
Json exact(const std::string& decimal) { return Json::parse(decimal); }

}  // namespace nonrunner::words
