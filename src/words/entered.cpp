#include "words/entered.h"

#include "words/json.h"

namespace nonrunner::words {

std::string entered_as_json(const std::string& state, std::int64_t entry, const std::string& message) {
  Json json;
  json["state"] = state;
  json["entry"] = entry != 0 ? Json(entry) : Json(nullptr);
  json["message"] = message;
  return text_of(json);
}

std::string missing_as_json(const std::vector<std::string>& ids, const std::string& now, Day today) {
  Json json;
  json["now"] = now;
  json["today"] = today.iso();
  json["missing"] = ids;
  return text_of(json);
}

}  // namespace nonrunner::words
