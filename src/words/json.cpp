#include "words/json.h"

namespace nonrunner::words {

Json& added(Json& list) { return list.emplace_back(Json::object()); }
std::string text_of(const Json& json) {
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}
Json exact(const std::string& decimal) { return Json::parse(decimal); }

Object::Object() : json_(Json::object()) {}
Object&& Object::with(const char* key, Json value) && {
  json_[key] = std::move(value);
  return std::move(*this);
}
Object::operator Json() && { return std::move(json_); }

}  // namespace nonrunner::words
