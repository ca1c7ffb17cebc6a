#include "commands/two_readings.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "answers/links.h"
#include "answers/paper_choices.h"
#include "book/care/devices.h"
#include "book/events/clock.h"
#include "book/ledger/names.h"
#include "text/lower_case.h"

namespace nonrunner::commands {

namespace {

// Whose clock runs, and whose devices are let in.
std::vector<std::string> people(const book::Book& book) {
  std::vector<std::string> all;
  for (const book::Clock& clock : book::clocks(book)) all.push_back(clock.worker);
  for (const book::Device& device : book::devices(book)) all.push_back(device.person);
  return all;
}

std::vector<std::string> lines_of(const Given& given, const book::Book& book) {
  std::vector<std::string> all;
  std::istringstream asked(given.usage().words);
  std::string word;
  for (std::size_t at = 0; asked >> word; ++at)
    if ((word == "TAG" || word == "[TAG]") && at < given.count())
      for (const answers::LineName& line : answers::line_names(book, given.word(at)))
        all.push_back(line.name);
  return all;
}

std::vector<std::string> known_to(const Given& given, const book::Book& book, const std::string& option) {
  if (option == "worker") return people(book);
  if (option == "for") return lines_of(given, book);
  if (option == "supplier") return answers::suppliers_known(book);
  if (option == "purse") return book::names_of(book, book::account::purse);
  return {};
}

std::string in_quotes_where_needed(const std::string& text) {
  return text.find(' ') == std::string::npos ? text : "\"" + text + "\"";
}

// "4" and "3071" are; a name of a shop may go on behind a digit.
bool is_one_word(const BehindOption& behind) {
  const bool is_name = behind.option == "supplier" || behind.option == "purse";
  const bool has_digit = behind.value.find_first_of("0123456789") != std::string::npos;
  return behind.value == "none" || (has_digit && !is_name);
}

}  // namespace

void expect_one_meant(const Given& given, const book::Book& book) {
  const auto& behind = given.behind_option();
  if (!behind || is_one_word(*behind)) return;
  const std::string& words = given.word(behind->at);
  const std::string together = behind->value + " " + words;
  const auto known = known_to(given, book, behind->option);
  const std::string begun = lower_case(behind->value + " " + words.substr(0, words.find(' ')));
  const auto longer = std::find_if(known.begin(), known.end(), [&](const std::string& each) {
    return lower_case(each).starts_with(begun);
  });
  const bool is_known = std::find(known.begin(), known.end(), behind->value) != known.end();
  if (is_known && longer == known.end()) return;
  given.wrong(
      fmt::format("found --{0} {1} and then \"{2}\", which may be one name or two things{3}, expected --{0} "
                  "\"{4}\", or the "
                  "words before the option",
                  behind->option, behind->value, words,
                  longer == known.end() ? "" : " (the book knows \"" + *longer + "\")",
                  longer == known.end() ? together : *longer));
}

std::string reading_taken(const Given& given) {
  const auto& behind = given.behind_option();
  if (!behind || is_one_word(*behind)) return "";
  return fmt::format("the {} is {}, the words behind it are {}", behind->option, behind->value,
                     in_quotes_where_needed(given.word(behind->at)));
}

}  // namespace nonrunner::commands
