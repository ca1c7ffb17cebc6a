// A question to the book in SQL, asked beside the answer that it is for: names are bound by name, columns come as
// the types that they are, and the statement is at rest again when the call returns, whatever happened in it, so
// that no read transaction stays open.
//
//   each<Day, EntryId, Money>(book, "SELECT e.day, e.entry, p.total FROM ... WHERE m.vehicle = :tag AND " +
//                             counts_on(":on"), {{":tag", tag}, {":on", on}},
//                             [&](Day day, EntryId entry, Money total) { ... });
//
// A day that is not said is bound as the end of days. One text is one prepared statement: while its rows are being
// taken the same text must not be asked again.
#pragma once
#include <cstdint>
#include <functional>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <variant>

#include "book/ledger/book.h"
#include "exact/thousandths.h"

namespace nonrunner::book {

// What is bound under a name.
struct Bound {
  const char* name;
  std::variant<std::monostate, std::int64_t, std::string> value;

  Bound(const char* n, const std::string& text) : name(n), value(text) {}
  Bound(const char* n, const char* text) : name(n), value(std::string(text)) {}
  Bound(const char* n, std::int64_t number) : name(n), value(number) {}
  Bound(const char* n, int number) : name(n), value(std::int64_t{number}) {}
  Bound(const char* n, Money money) : name(n), value(money.minor()) {}
  Bound(const char* n, Quantity quantity) : name(n), value(quantity.thousandths()) {}
  Bound(const char* n, Hours hours) : name(n), value(hours.thousandths()) {}
  Bound(const char* n, Distance distance) : name(n), value(distance.thousandths()) {}
  Bound(const char* n, Day day) : name(n), value(day.iso()) {}
  Bound(const char* n, std::optional<Day> day) : name(n), value(day ? day->iso() : "9999-12-31") {}
  Bound(const char* n, std::nullopt_t) : name(n) {}  // NULL
};
using Binds = std::initializer_list<Bound>;

class Row {
 public:
  explicit Row(SQLite::Statement& row) : row_(row) {}
  bool none(int at) const;
  std::int64_t number(int at) const;
  std::string text(int at) const;                                              // the bytes of a blob as well
  std::variant<std::monostate, std::int64_t, std::string> cell(int at) const;  // as it is kept
  Money money(
      int at) const;  // throws Refusal where a sum left the range of Money: what spoilt it can be looked up

  // The columns in their order into these, each as what it is.
  template <class... T>
  void into(T&... targets) const {
    int at = 0;
    ((targets = as<T>(at++)), ...);
  }

  template <class T>
  T as(int at) const {
    if constexpr (is_optional<T>::value)
      return none(at) ? T() : T(as<typename T::value_type>(at));
    else if constexpr (std::is_same_v<T, std::string>)
      return text(at);
    else if constexpr (std::is_same_v<T, Day>)
      return Day::parse(text(at));
    else if constexpr (std::is_same_v<T, Money>)
      return money(at);
    else if constexpr (std::is_same_v<T, Quantity> || std::is_same_v<T, Hours> || std::is_same_v<T, Distance>)
      return T::of(number(at));
    else if constexpr (std::is_same_v<T, bool>)
      return number(at) != 0;
    else
      return static_cast<T>(number(at));
  }

 private:
  template <class T>
  struct is_optional : std::false_type {};
  template <class T>
  struct is_optional<std::optional<T>> : std::true_type {};
  SQLite::Statement& row_;
};

// Hands out row after row until `take` returns false.
void ask(const Book&, std::string_view sql, Binds, const std::function<bool(const Row&)>& take);
// Every row; for rows of many columns, with Row::into.
inline void rows(const Book& book, std::string_view sql, Binds binds,
                 const std::function<void(const Row&)>& take) {
  ask(book, sql, binds, [&](const Row& row) {
    take(row);
    return true;
  });
}
// The first row, if there is one: false where there is none.
inline bool row(const Book& book, std::string_view sql, Binds binds,
                const std::function<void(const Row&)>& take) {
  bool found = false;
  ask(book, sql, binds, [&](const Row& first_one) {
    take(first_one);
    found = true;
    return false;
  });
  return found;
}
// Changes the book; gives the number of rows that were changed.
int change(const Book&, std::string_view sql, Binds);

namespace query_detail {
template <class... T, class Take, std::size_t... at>
void hand_out(const Row& row, Take& take, std::index_sequence<at...>) {
  take(row.as<T>(static_cast<int>(at))...);
}
template <class... T, std::size_t... at>
std::tuple<T...> gathered(const Row& row, std::index_sequence<at...>) {
  return {row.as<T>(static_cast<int>(at))...};
}
}  // namespace query_detail

template <class... T, class Take>
void each(const Book& book, std::string_view sql, Binds binds, Take take) {
  ask(book, sql, binds, [&](const Row& row) {
    query_detail::hand_out<T...>(row, take, std::index_sequence_for<T...>{});
    return true;
  });
}

// The first row, if there is one.
template <class... T>
auto first(const Book& book, std::string_view sql, Binds binds) {
  using Found =
      std::conditional_t<sizeof...(T) == 1, std::tuple_element_t<0, std::tuple<T...>>, std::tuple<T...>>;
  std::optional<Found> found;
  ask(book, sql, binds, [&](const Row& row) {
    if constexpr (sizeof...(T) == 1)
      found = row.as<Found>(0);
    else
      found = query_detail::gathered<T...>(row, std::index_sequence_for<T...>{});
    return false;
  });
  return found;
}

}  // namespace nonrunner::book
