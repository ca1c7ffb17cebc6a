#include "text/json.h"

#include <nlohmann/json.hpp>

namespace nonrunner {

namespace {

Value value_of(const nlohmann::ordered_json& json) {
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
  const auto json = nlohmann::ordered_json::parse(text, nullptr, false);
  if (json.is_discarded()) return std::nullopt;
  return value_of(json);
}

}  // namespace nonrunner
