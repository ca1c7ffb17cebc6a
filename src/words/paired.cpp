#include "words/paired.h"

#include "words/json.h"

namespace nonrunner::words {

std::string paired_as_json(const std::string& device, const std::string& key, const std::string& name) {
  Json json;
  json["device"] = device;
  json["key"] = key;
  json["name"] = name;
  return text_of(json);
}

std::string proof_as_json(const std::string& proof) {
  Json json;
  json["proof"] = proof;
  return text_of(json);
}

std::string devices_as_json(const std::vector<book::Device>& devices) {
  Json list = Json::array();
  for (const book::Device& device : devices) {
    Json& row = added(list);
    row["name"] = device.name;
    row["person"] = device.person;
    row["origin"] = device.origin;
    row["paired"] = device.paired;
    row["seen"] = device.seen;
    row["forgotten"] = device.forgotten.empty() ? Json(nullptr) : Json(device.forgotten);
  }
  return text_of(list);
}

}  // namespace nonrunner::words
