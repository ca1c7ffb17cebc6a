// A TOML 1.0 document as a plain tree that remembers where each value stood, keys in the order of the file.
//
// Reading TOML is toml++'s work (text/toml.cpp); this tree exists so that places and order survive and so
// that the rest of the program needs neither the library nor its types.
#pragma once
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "exact/day.h"

namespace nonrunner {

struct Value {
  enum class Kind { text, whole, real, flag, day, array, table, other };
  Kind kind = Kind::other;
  int line = 0;

  std::string
      text;  // text: the string. whole, real: the number in plain decimal digits, as short as it can be
  double real = 0;  // whole and real
  bool flag = false;
  Day day;
  std::vector<Value> items;                            // array
  std::vector<std::pair<std::string, Value>> entries;  // table, in the order of the file

  const Value* find(std::string_view key) const;
  std::string shown() const;  // for messages: what was found, cut to 40 characters

  // As the language makes them, but elsewhere (text/toml.cpp): here a pair with a Value is not whole yet.
  Value();
  Value(const Value&);
  Value(Value&&) noexcept;
  Value& operator=(const Value&);
  Value& operator=(Value&&) noexcept;
  ~Value();
};

}  // namespace nonrunner
