// Values of a tree that no file wrote: what a form, a command line or an answer puts into an event before it is read.
#pragma once
#include <cstdint>
#include <string>
#include <string_view>

#include "text/value.h"

namespace nonrunner {

Value text_value(std::string text);
Value flag_value(bool yes = true);
Value number_value(std::int64_t number);

bool is_number(const Value&);

// Under this key of the table, in the place of what stood there.
void put(Value& table, const std::string& key, Value value);
void drop(Value& table, std::string_view key);
// What stands there; empty, or no, where nothing of that kind does.
std::string text_at(const Value& table, std::string_view key);
bool flag_at(const Value& table, std::string_view key);

}  // namespace nonrunner
