// The words of a command line, one a line, given to every command: understood or answered, whatever is asked
// of them then. Of the words of a note one is made: it comes out of the book as it went in.
#include <algorithm>
#include <sstream>

#include "book/events/finding.h"
#include "commands/command.h"
#include "commands/entry_number.h"
#include "fuzz/fuzzed.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace nonrunner;
  commands::Words words;
  std::istringstream in(std::string(reinterpret_cast<const char*>(data), size));
  for (std::string word; std::getline(in, word);) words.push_back(word);
  const Currency currency = Currency::of("USD");
  for (const commands::Command& command : commands::all()) {
    fuzzed::answered([&] {
      const commands::Given given(command.usage, words, Day(2026, 5, 2));
      for (std::size_t at = 0; at < given.count(); ++at)
        fuzzed::answered([&] { given.word_as_money(at, currency); });
      for (const commands::Option& option : command.usage.options) {
        fuzzed::answered([&] { given.day(option.name); });
        fuzzed::answered([&] { given.money(option.name, currency); });
        for (const std::string& text : given.texts(option.name)) {
          fuzzed::answered([&] { commands::name_and_value(given, option.name, text); });
          fuzzed::answered([&] { commands::entry_number(given, text); });
        }
      }
    });
  }
  fuzzed::answered([&] {
    const auto note =
        std::find_if(commands::all().begin(), commands::all().end(),
                     [](const commands::Command& each) { return each.usage.command == "note"; });
    const commands::Given given(note->usage, words, Day(2026, 5, 2));
    if (given.count() < 2) return;  // only help was asked for
    fuzzed::recorded([&](book::Recording& recording) {
      book::Finding finding{Day(2026, 2, 1), given.word(0), given.word(1), {}};
      for (const std::string& cause : given.texts("cause"))
        finding.facts.push_back({book::fact::cause, cause, ""});
      record(recording, finding);
    });
  });
  return 0;
}
