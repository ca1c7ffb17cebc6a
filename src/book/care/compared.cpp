#include "book/care/compared.h"

#include <fmt/format.h>

#include <vector>

#include "text/unicode.h"

namespace nonrunner::book {

EntryId first_by_days(const Book& book) {
  return first<EntryId>(book, "SELECT entry FROM sealed_from WHERE what = 'days'", {}).value_or(1);
}

std::string but_for_its_closing(const Book& book) {
  const auto closed = book.setting("closed");
  return closed ? fmt::format("NOT (kind = 'close' AND day = '{}')", Day::parse(*closed).iso()) : "true";
}

std::string text_of(const Row& row, int columns, int from) {
  std::string text;
  for (int i = from; i < columns; ++i)
    text += (i > from ? " | " : "") + (row.none(i) ? std::string("nothing") : made_utf8(row.text(i)));
  return text;
}

namespace {
std::string cut(const std::string& text) { return "\"" + cut_to(text, 60) + "\""; }

}  // namespace

std::string parting(const std::string& text, const std::string& other) {
  constexpr std::size_t before = 20;
  std::size_t at = 0;
  while (at < text.size() && at < other.size() && text[at] == other[at]) ++at;
  return cut(at > before ? "..." + made_utf8(text.substr(at - before)) : text);
}

std::string apart(const Book& book, const Book& again, const Compared& table,
                  const std::function<void(std::size_t, std::size_t)>& tick) {
  // What each row says here, as a number: the text of a whole book is not held.
  std::vector<std::size_t> here;
  const auto listen = [&](std::size_t row) {
    if (tick && row % 1024 == 0) tick(row, row);
  };
  rows(book, table.sql, {}, [&](const Row& row) {
    here.push_back(std::hash<std::string>()(text_of(row, table.columns)));
    listen(here.size());
  });
  std::size_t at = 0;
  std::string there;
  ask(again, table.sql, {}, [&](const Row& row) {
    listen(at);
    const std::string text = text_of(row, table.columns);
    if (at < here.size() && here[at] == std::hash<std::string>()(text)) {
      ++at;
      return true;
    }
    there = text;
    return false;
  });
  if (at == here.size() && there.empty()) return "";
  std::string mine;
  row(book, fmt::format("{} LIMIT 1 OFFSET {}", table.sql, at), {},
      [&](const Row& found) { mine = text_of(found, table.columns); });
  if (there.empty())
    return fmt::format("{}: {} is not there when it is entered again", table.what, cut(mine));
  if (mine.empty())
    return fmt::format("{}: {} is there only when it is entered again", table.what, cut(there));
  const std::string entry = table.by_entry ? "entry " + mine.substr(0, mine.find(' ')) + ": " : "";
  return fmt::format("{}: {}{}, and {} when it is entered again", table.what, entry, parting(mine, there),
                     parting(there, mine));
}

}  // namespace nonrunner::book
