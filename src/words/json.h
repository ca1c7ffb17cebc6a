// What the JSON of this room shares. Objects are filled key by key, or made with Object: lists in braces in braces cost
// the compiler a minute in one file. Keys keep the order in which they are set.
#pragma once
#include <nlohmann/json.hpp>
#include <string>

namespace nonrunner::words {

using Json = nlohmann::ordered_json;

Json& added(Json& list);           // a new row at its end, to be filled
std::string text_of(const Json&);  // as it is printed: two blanks deep, a line end
// Of at most three decimals, so that the nearest double prints as what it stands for.
Json exact(const std::string& decimal);

// Object().with("low", 1).with("high", 2)
class Object {
 public:
  Object();
  Object&& with(const char* key, Json value) &&;
  operator Json() &&;

 private:
  Json json_;
};

}  // namespace nonrunner::words
