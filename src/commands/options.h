// What a command is given on its line, over Boost.Program_options: words to checked types, once, here.
// Whatever does not fit throws WrongUsage (status 2) and names the nearest option; a value that is no amount,
// day or number throws WrongUsage too.
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "commands/terminal.h"
#include "commands/typed_forms.h"
#include "exact/money.h"
#include "exact/price.h"
#include "exact/thousandths.h"

namespace nonrunner::commands {

using Words = std::vector<std::string>;

struct Option {
  std::string name;   // "fee"
  std::string value;  // "NAME=AMOUNT"; empty: a switch
  std::string says;   // one line for --help
  bool repeats = false;
};

struct Usage {
  std::string command;  // "sell"
  std::string words;  // "TAG PRICE": capital letters are given; in brackets: may be absent; "..." at the end:
      // more may follow. What is text (OPERATION, WHAT ...) takes the words that are left over, so that
      // they need no quotes; where the number stands last, one that was typed first is put there
  std::string says;     // what it does, one line
  std::string example;  // works as pasted
  std::vector<Option> options;
  bool needs_book = true;  // adds --book
  std::string more;        // further lines for --help
};

// "--supplier Cleave Yard": the text of the command begins straight behind an option whose value is a text of one word,
// so that it may be that value's second word.
struct BehindOption {
  std::string option, value;  // "supplier", "Cleave"
  std::size_t at = 0;         // which of the words stands there: "Yard", or all that follow
};

class Given {
 public:
  Given(const Usage&, const Words&, Day today);  // throws WrongUsage

  bool help() const { return flag("help"); }
  bool json() const { return flag("json"); }
  bool flag(const std::string& name) const { return options_.contains(name); }
  std::optional<std::string> text(const std::string& name) const;
  std::string text_or(const std::string& name, std::string fallback) const {
    return text(name).value_or(std::move(fallback));
  }
  std::vector<std::string> texts(const std::string& name) const;
  std::optional<Day> day(const std::string& name, Looks = Looks::back) const;
  std::optional<Money> money(const std::string& name, const Currency&) const;
  std::optional<Quantity> quantity(const std::string& name) const;
  std::optional<Hours> hours(const std::string& name) const;

  std::size_t count() const { return words_.size(); }
  const std::string& word(std::size_t at) const { return words_[at]; }
  std::optional<std::string> word_if(std::size_t at) const {
    return at < count() ? std::optional(words_[at]) : std::nullopt;
  }
  Money word_as_money(std::size_t at, const Currency&) const;
  Quantity word_as_quantity(std::size_t at) const;
  Hours word_as_hours(std::size_t at) const;
  Distance word_as_distance(std::size_t at) const;
  Day word_as_day(std::size_t at, Looks = Looks::back) const;
  const std::optional<BehindOption>& behind_option() const { return behind_option_; }
  Day today() const { return today_; }
  const Usage& usage() const { return usage_; }

  [[noreturn]] void wrong(
      const std::string& what) const;  // throws WrongUsage "command: what; see: nonrunner command --help"

 private:
  struct Stood {
    std::size_t stretch = 0;             // how many options with a value stand before the word
    std::optional<BehindOption> behind;  // where it stands straight behind one
  };
  // Of the words, as Usage::words says.
  void put_in_order(std::vector<Stood> stood);
  void lower_tags();  // a tag typed with capitals is the same car
  const Usage& usage_;
  Day today_;
  Words words_;
  std::map<std::string, std::vector<std::string>> options_;
  std::optional<BehindOption> behind_option_;
};

std::string help_text(const Usage&);
// Words put into lines of 80 columns, or as the screen is (commands/screen.h), each with its end, the later ones
// indented by `further`.
std::string in_80(const std::string& text, std::size_t further);
// A page: lines that follow one another flow as a paragraph; one that begins with a blank keeps its place.
std::string paragraphs_in_80(const std::string& text);
// "NAME=AMOUNT" into its two halves; throws WrongUsage.
std::pair<std::string, std::string> name_and_value(const Given&, const std::string& option,
                                                   const std::string& text);

}  // namespace nonrunner::commands
