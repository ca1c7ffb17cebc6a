#include "book/ledger/query.h"

#include "exact/ends.h"
#include "exact/hint.h"

namespace nonrunner::book {

namespace {

// At rest again when it leaves scope.
class Asked {
 public:
  Asked(const Book& book, std::string_view sql, Binds binds) : statement_(book.query(sql)) {
    for (const Bound& bound : binds) {
      if (const auto* number = std::get_if<std::int64_t>(&bound.value))
        statement_.bind(bound.name, *number);
      else if (const auto* text = std::get_if<std::string>(&bound.value))
        statement_.bind(bound.name, *text);
      else
        statement_.bind(bound.name);
    }
  }
  ~Asked() { statement_.tryReset(); }
  Asked(const Asked&) = delete;
  Asked& operator=(const Asked&) = delete;
  SQLite::Statement& operator*() { return statement_; }

 private:
  SQLite::Statement& statement_;
};

}  // namespace

bool Row::none(int at) const { return row_.isColumnNull(at); }
std::int64_t Row::number(int at) const { return row_.getColumn(at).getInt64(); }
std::string Row::text(int at) const {
  const SQLite::Column column = row_.getColumn(at);
  // Where SQLite has no memory to write a number as text it says nothing and gives none.
  return column.isInteger() ? std::to_string(column.getInt64()) : column.getString();
}
Money Row::money(int at) const {
  try {
    return Money::of_minor(number(at));
  } catch (const Refusal& refusal) {
    throw hinted<Refusal>(refusal.what(), {Action::look_at_health, {}});
  }
}
std::variant<std::monostate, std::int64_t, std::string> Row::cell(int at) const {
  const SQLite::Column column = row_.getColumn(at);
  if (column.isNull()) return {};
  if (column.isInteger()) return column.getInt64();
  return column.getString();
}

void ask(const Book& book, std::string_view sql, Binds binds, const std::function<bool(const Row&)>& take) {
  Asked asked(book, sql, binds);
  while ((*asked).executeStep())
    if (!take(Row(*asked))) return;
}

int change(const Book& book, std::string_view sql, Binds binds) {
  Asked asked(book, sql, binds);
  return (*asked).exec();
}

}  // namespace nonrunner::book
