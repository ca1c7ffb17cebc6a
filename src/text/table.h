// A table of a TOML file, read key by key with the type that is expected there. Whatever does not fit is
// refused with one line: `file:line: key in [table] is X, expected Y`. Nothing is guessed, nothing is
// converted in silence.
#pragma once
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "exact/money.h"
#include "exact/price.h"
#include "exact/thousandths.h"
#include "text/value.h"

namespace nonrunner {

class Table {
 public:
  // `name` is how messages call it: "[deal]", "[[cause]] \"head gasket leaks\"". Keeps a pointer to `value`.
  Table(const Value& value, std::string file, std::string name);

  // Refuses a key that is not among these and names the nearest one.
  void only(const std::vector<std::string>& known) const;

  bool has(std::string_view key) const { return value_->find(key) != nullptr; }
  const Value* find(std::string_view key) const { return value_->find(key); }
  const Value& need(std::string_view key, std::string_view expected) const;

  std::string text(std::string_view key) const;  // not empty
  std::string text_or(std::string_view key, std::string fallback) const;
  double number(std::string_view key) const;
  double number_or(std::string_view key, double fallback) const;
  int whole(std::string_view key, int least, int most) const;
  bool flag_or(std::string_view key, bool fallback) const;
  Day day(std::string_view key) const;
  std::optional<Day> day_if(std::string_view key) const;
  Money money(std::string_view key, const Currency&) const;
  Price price(std::string_view key, const Currency&) const;
  Quantity quantity(std::string_view key) const;
  Hours hours(std::string_view key) const;
  Distance distance(std::string_view key) const;
  std::vector<std::string> texts(std::string_view key) const;
  // Sub-tables; an absent key gives none. `each` is how one of them is called in messages, e.g. "[[cause]]".
  std::vector<Table> tables(std::string_view key, const std::string& each) const;
  std::optional<Table> table(std::string_view key, const std::string& name) const;

  const Value& value() const { return *value_; }
  const std::string& file() const { return file_; }
  const std::string& name() const { return name_; }
  void rename(std::string name) { name_ = std::move(name); }
  std::string place(std::string_view key = {}) const;  // "pip.toml:31"
  // Throws Refusal: `place: key in name is FOUND, expected EXPECTED`.
  [[noreturn]] void refuse(std::string_view key, std::string_view expected) const;
  // Throws Refusal: `place: WHAT`, at the line of `key` (of the table itself where it is absent).
  [[noreturn]] void refuse_whole(std::string_view what, std::string_view key = {}) const;

 private:
  const Value* value_;
  std::string file_;
  std::string name_;
};

}  // namespace nonrunner
