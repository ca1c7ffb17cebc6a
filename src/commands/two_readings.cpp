#include "commands/two_readings.h"

#include <fmt/format.h>

#include <algorithm>

#include "answers/paper_choices.h"
#include "book/ledger/names.h"
#include "text/lower_case.h"

namespace nonrunner::commands {

namespace {

std::vector<std::string> known_to(const book::Book& book, const std::string& option) {
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
  const auto known = known_to(book, behind->option);
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
