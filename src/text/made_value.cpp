#include "text/made_value.h"

namespace nonrunner {

Value text_value(std::string text) {
  Value value;
  value.kind = Value::Kind::text;
  value.text = std::move(text);
  return value;
}

Value flag_value(bool yes) {
  Value value;
  value.kind = Value::Kind::flag;
  value.flag = yes;
  return value;
}

Value number_value(std::int64_t number) {
  Value value;
  value.kind = Value::Kind::whole;
  value.text = std::to_string(number);
  value.real = static_cast<double>(number);
  return value;
}

bool is_number(const Value& value) {
  return value.kind == Value::Kind::whole || value.kind == Value::Kind::real;
}

void put(Value& table, const std::string& key, Value value) {
  for (auto& [name, old] : table.entries)
    if (name == key) {
      old = std::move(value);
      return;
    }
  table.entries.emplace_back(key, std::move(value));
}

void drop(Value& table, std::string_view key) {
  std::erase_if(table.entries, [&](const auto& each) { return each.first == key; });
}

std::string text_at(const Value& table, std::string_view key) {
  const Value* value = table.find(key);
  return value && value->kind == Value::Kind::text ? value->text : std::string();
}

bool flag_at(const Value& table, std::string_view key) {
  const Value* value = table.find(key);
  return value && value->kind == Value::Kind::flag && value->flag;
}

}  // namespace nonrunner
