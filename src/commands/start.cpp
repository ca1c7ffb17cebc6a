#include "commands/command.h"
#include "commands/desk.h"
#include "exact/ends.h"
#include "words/book_json.h"

namespace nonrunner::commands {

namespace {
int run_start(const Given& given, Terminal& terminal) {
  const std::filesystem::path path =
      given.word_if(0) ? std::filesystem::path(given.word(0)) : terminal.default_book();
  const Currency currency = [&] {
    try {
      return Currency::of(given.text_or("currency", "USD"));
    } catch (const Refusal& refusal) {
      given.wrong(std::string("--") + refusal.what());  // "currency: found ..."
    }
  }();
  const std::string distance = given.text_or("distance", "mi");
  if (distance != "mi" && distance != "km")
    given.wrong("--distance: found \"" + distance + "\", expected mi or km");
  if (!given.word_if(0) && path.has_parent_path()) {
    std::error_code error;
    std::filesystem::create_directories(path.parent_path(), error);
    if (error)
      throw MachineFailure(path.parent_path().string() + ": the folder cannot be made: " + error.message());
  }
  const book::Book book = book::Book::create(path, currency, distance);
  made_anew(book, terminal);
  if (given.json()) {
    terminal.out << words::facts_as_json(
        {{"book", path.string()}, {"currency", currency.code}, {"distance_unit", distance}});
    return 0;
  }
  terminal.out << fmt::format("{}: an empty book in {}, distances in {}\n", path.string(), currency.code,
                              distance);
  if (given.word_if(0) && path != terminal.default_book())
    terminal.out << fmt::format("use it with --book {0}, or once for all: export NONRUNNER_BOOK={0}\n",
                                path.string());
  return 0;
}
}  // namespace

extern const Command start;
const Command start{{"start",
                     "[FILE]",
                     "makes a book: one shop's records in one file",
                     "nonrunner start my-shop.book --currency USD --distance mi",
                     {{"currency", "CODE", "ISO 4217 code of the money it is kept in (else USD)"},
                      {"distance", "UNIT", "mi or km (else mi)"}},
                     false,
                     ""},
                    run_start};

}  // namespace nonrunner::commands
