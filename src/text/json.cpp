#include "text/json.h"

#include <nlohmann/json.hpp>

namespace nonrunner {

namespace {

using Json = nlohmann::ordered_json;

Json as_json(const Value& value) {
  switch (value.kind) {
    case Value::Kind::text:
      return value.text;
    case Value::Kind::whole:
    case Value::Kind::real:
      return Json::parse(value.text);
    case Value::Kind::flag:
      return value.flag;
    case Value::Kind::day:
      return value.day.iso();
    case Value::Kind::array: {
      Json all = Json::array();
      for (const Value& item : value.items) all.push_back(as_json(item));
      return all;
    }
    case Value::Kind::table: {
      Json all = Json::object();
      for (const auto& [key, item] : value.entries) all[key] = as_json(item);
      return all;
    }
    case Value::Kind::other:
      break;
  }
  return nullptr;
}

Value value_of(const Json& json) {
  using Kind = Value::Kind;
  Value value;
  if (json.is_string()) {
    value.kind = Kind::text;
    value.text = json.get_ref<const std::string&>();
  } else if (json.is_number()) {
    value.kind = json.is_number_integer() ? Kind::whole : Kind::real;
    value.real = json.get<double>();
    value.text = json.dump();
  } else if (json.is_boolean()) {
    value.kind = Kind::flag;
    value.flag = json.get<bool>();
  } else if (json.is_array()) {
    value.kind = Kind::array;
    for (const auto& item : json) value.items.push_back(value_of(item));
  } else if (json.is_object()) {
    value.kind = Kind::table;
    for (const auto& [key, item] : json.items()) value.entries.emplace_back(key, value_of(item));
  }
  return value;
}

}  // namespace

std::optional<Value> parse_json(std::string_view text) {
  const auto json = Json::parse(text, nullptr, false);
  if (json.is_discarded()) return std::nullopt;
  return value_of(json);
}

std::string json_line(const Value& value) {
  return as_json(value).dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace nonrunner
