#include "commands/options.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <boost/program_options.hpp>
#include <sstream>

#include "commands/desk.h"
#include "commands/screen.h"
#include "exact/ends.h"
#include "exact/nearest.h"
#include "text/counted.h"
#include "text/tag.h"
#include "text/unicode.h"

namespace nonrunner::commands {

namespace {

std::vector<Option> all_options(const Usage& usage) {
  std::vector<Option> all = usage.options;
  if (usage.needs_book)
    all.push_back(
        {"book", "FILE", "the book (else NONRUNNER_BOOK, else ~/.local/share/nonrunner/shop.book)"});
  all.push_back({"json", "", "machine-readable output"});
  all.push_back({"help", "", "this text"});
  return all;
}

struct WordCounts {
  std::size_t least = 0, most = 0;
};

WordCounts counts_of(const std::string& words) {
  WordCounts counts;
  bool more = false;
  std::istringstream in(words);
  for (std::string word; in >> word;) {
    if (word != "...") ++counts.most;
    if (word != "..." && word.front() != '[') ++counts.least;
    more = more || word.ends_with("...") || word.ends_with("...]");
  }
  if (more) counts.most = 1000;
  return counts;
}

}  // namespace

namespace {

namespace po = boost::program_options;

po::options_description described(const std::vector<Option>& known) {
  po::options_description all;
  for (const Option& option : known) {
    if (option.value.empty())
      all.add_options()(option.name.c_str(), "");
    else
      all.add_options()(option.name.c_str(), po::value<std::vector<std::string>>(), "");
  }
  return all;
}

[[noreturn]] void refuse_unknown(const Usage& usage, const po::option& option,
                                 const std::vector<Option>& known) {
  std::vector<std::string> names;
  for (const Option& each : known) names.push_back("--" + each.name);
  const std::string name = option.string_key.empty() && !option.original_tokens.empty()
                               ? option.original_tokens.front()
                               : "--" + option.string_key;
  throw WrongUsage(fmt::format(
      "{}: unknown option \"{}\"{}", usage.command, name,
      nearest(name, names) ? did_you_mean(name, names) : "; see: nonrunner " + usage.command + " --help"));
}

// Long options only, written in full: a negative number is then a word, and no option is guessed from its
// beginning.
po::parsed_options parsed(const Usage& usage, const Words& words, const po::options_description& options) {
  using namespace po::command_line_style;
  try {
    return po::command_line_parser(words)
        .options(options)
        .style(allow_long | long_allow_adjacent | long_allow_next)
        .allow_unregistered()
        .run();
  } catch (const po::error_with_option_name& error) {
    const bool is_missing = dynamic_cast<const po::invalid_command_line_syntax*>(&error) != nullptr;
    throw WrongUsage(fmt::format(
        "{}: {} {}; see: nonrunner {} --help", usage.command, error.get_option_name(),
        is_missing ? "is given wrongly: expected a value, or none for a switch" : "cannot be understood",
        usage.command));
  } catch (const po::error& error) {
    throw WrongUsage(
        fmt::format("{}: {}; see: nonrunner {} --help", usage.command, error.what(), usage.command));
  }
}

// Words of a person's own. What names a cause is refused where its appraisal has none of that name.
bool takes_text(const Option& option) {
  constexpr std::array<std::string_view, 5> texts = {"NAME", "TEXT", "WORDS", "WHY", "LINE"};
  return option.name != "cause" && option.name != "ruled-out" &&
         std::find(texts.begin(), texts.end(), option.value) != texts.end();
}

}  // namespace

Given::Given(const Usage& usage, const Words& words, Day today) : usage_(usage), today_(today) {
  for (const std::string& word : words)
    if (broken_utf8(word))
      throw WrongUsage(usage.command + ": a word on the command line is not UTF-8 text, expected UTF-8");
  const std::vector<Option> known = all_options(usage);
  const po::options_description options = described(known);
  std::vector<Stood> stood;  // of each word
  Stood next;
  for (const po::option& option : parsed(usage, words, options).options) {
    if (option.unregistered) refuse_unknown(usage, option, known);
    if (option.string_key.empty()) {
      words_.insert(words_.end(), option.value.begin(), option.value.end());
      stood.resize(words_.size(), next);
      next.behind.reset();
      continue;
    }
    const auto about = std::find_if(known.begin(), known.end(),
                                    [&](const Option& each) { return each.name == option.string_key; });
    next.behind.reset();
    if (!option.value.empty() && option.original_tokens.size() > 1) {  // "--date=thu" ends with itself
      ++next.stretch;
      if (takes_text(*about) && option.value.front().find(' ') == std::string::npos)
        next.behind = {option.string_key, option.value.front(), 0};
    }
    if (about != known.end() && options_.contains(about->name) && !about->repeats && !about->value.empty())
      throw WrongUsage(fmt::format("{}: --{} is given twice, expected once", usage.command, about->name));
    auto& values = options_[option.string_key];
    values.insert(values.end(), option.value.begin(), option.value.end());
  }
  if (help()) return;
  std::string in_quotes;
  for (std::size_t i = 0; i < words_.size(); ++i)
    if (const auto& behind = stood[i].behind)
      in_quotes = fmt::format("; a value of two words needs quotes: --{} \"{} {}\"", behind->option,
                              behind->value, words_[i]);
  put_in_order(std::move(stood));
  const WordCounts counts = counts_of(usage.words);
  if (words_.size() < counts.least || words_.size() > counts.most)
    wrong(fmt::format("found {}, expected {}{}", counted(words_.size(), "word"),
                      usage.words.empty() ? "none" : usage.words,
                      words_.size() > counts.most ? in_quotes : ""));
  lower_tags();
}

namespace {

std::vector<std::string> pattern_of(const Usage& usage) {
  std::vector<std::string> pattern;
  std::istringstream in(usage.words);
  for (std::string word; in >> word;) pattern.push_back(word);
  return pattern;
}

bool is_one_of(const std::string& word, std::initializer_list<const char*> names) {
  return std::any_of(names.begin(), names.end(),
                     [&](const char* name) { return word == name || word == "[" + std::string(name) + "]"; });
}
bool is_text(const std::string& word) {
  return is_one_of(word, {"WHAT", "OPERATION", "TEXT", "WHY", "SUPPLIER", "NAME", "ITEM", "HEADING"});
}
bool is_number(const std::string& word) {
  return is_one_of(word, {"AMOUNT", "PRICE", "N", "QTY", "DISTANCE"});
}

}  // namespace

void Given::put_in_order(std::vector<Stood> stood) {
  const std::vector<std::string> pattern = pattern_of(usage_);
  if (pattern.empty() || words_.empty()) return;
  if (words_.size() > 1 && is_number(pattern.back()) && pattern.back().front() != '[' &&
      is_number_typed(words_.front()) && !is_number_typed(words_.back())) {
    std::rotate(words_.begin(), words_.begin() + 1, words_.end());
    std::rotate(stood.begin(), stood.begin() + 1, stood.end());
  }
  const auto last_text = std::find_if(pattern.rbegin(), pattern.rend(), is_text);
  if (last_text == pattern.rend()) return;
  const auto at = static_cast<std::size_t>(pattern.rend() - last_text) - 1;
  const std::size_t over = words_.size() > pattern.size() ? words_.size() - pattern.size() : 0;
  // A word behind an option may be the second one of its value.
  for (std::size_t i = at; i < at + over; ++i)
    if (stood[i].stretch != stood[i + 1].stretch)
      wrong(
          fmt::format("found \"{}\" and \"{}\" on both sides of an option, expected the words of {} side by "
                      "side; an option's value of two words needs quotes",
                      words_[i], words_[i + 1], pattern[at]));
  for (std::size_t i = 0; i < over; ++i) {
    words_[at] += " " + words_[at + 1];
    words_.erase(words_.begin() + static_cast<std::ptrdiff_t>(at) + 1);
  }
  if (at < words_.size() && stood[at].behind) {
    behind_option_ = stood[at].behind;
    behind_option_->at = at;
  }
}

void Given::lower_tags() {
  // With --kind stock the first word of a receipt is an item of the shelf, whose name is as it is.
  if (text_or("kind", "") == "stock") return;
  std::vector<std::string> asked;
  std::istringstream in(usage_.words);
  for (std::string word; in >> word;) asked.push_back(word);
  for (std::size_t i = 0; i < std::min(asked.size(), words_.size()); ++i) {
    if (asked[i].front() == '[' && words_.size() < asked.size() && asked.back().front() != '[')
      return;  // which of them is absent cannot be told
    if (asked[i] == "TAG" || asked[i] == "[TAG]") words_[i] = as_tag(words_[i]);
  }
}

void Given::wrong(const std::string& what) const {
  // A question that names the nearest word is the better advice.
  if (what.back() == '?') throw WrongUsage(usage_.command + ": " + what);
  throw WrongUsage(fmt::format("{}: {}; see: nonrunner {} --help", usage_.command, what, usage_.command));
}

std::optional<std::string> Given::text(const std::string& name) const {
  const auto found = options_.find(name);
  if (found == options_.end() || found->second.empty()) return std::nullopt;
  return found->second.back();
}

std::vector<std::string> Given::texts(const std::string& name) const {
  const auto found = options_.find(name);
  return found == options_.end() ? std::vector<std::string>{} : found->second;
}

namespace {
// The option's value read by `read`; what it refuses becomes wrong usage.
template <class Read>
auto option_as(const Given& given, const std::string& name, Read read)
    -> std::optional<decltype(read(std::string()))> {
  const auto value = given.text(name);
  if (!value) return std::nullopt;
  try {
    return read(*value);
  } catch (const Refusal& refusal) {
    given.wrong("--" + name + ": " + refusal.what());
  }
}
}  // namespace

std::optional<Day> Given::day(const std::string& name, Looks looks) const {
  return option_as(*this, name, [&](const std::string& text) { return typed_day(text, today_, looks); });
}

std::optional<Money> Given::money(const std::string& name, const Currency& currency) const {
  return option_as(*this, name, [&](const std::string& text) { return typed_money(text, currency); });
}

std::optional<Quantity> Given::quantity(const std::string& name) const {
  return option_as(*this, name, [](const std::string& text) { return Quantity::parse(plain_number(text)); });
}

std::optional<Hours> Given::hours(const std::string& name) const {
  return option_as(*this, name, [](const std::string& text) { return Hours::parse(plain_hours(text)); });
}

namespace {
// A word read by `read`; what it refuses becomes wrong usage.
template <class Read>
auto word_as(const Given& given, std::size_t at, Read read) -> decltype(read(std::string())) {
  try {
    return read(given.word(at));
  } catch (const Refusal& refusal) {
    given.wrong(refusal.what());
  }
}
}  // namespace

Money Given::word_as_money(std::size_t at, const Currency& currency) const {
  return word_as(*this, at, [&](const std::string& text) { return typed_money(text, currency); });
}
Quantity Given::word_as_quantity(std::size_t at) const {
  return word_as(*this, at, [](const std::string& text) { return Quantity::parse(plain_number(text)); });
}
Hours Given::word_as_hours(std::size_t at) const {
  return word_as(*this, at, [](const std::string& text) { return Hours::parse(plain_hours(text)); });
}
Distance Given::word_as_distance(std::size_t at) const {
  return word_as(*this, at, [](const std::string& text) { return Distance::parse(plain_number(text)); });
}
Day Given::word_as_day(std::size_t at, Looks looks) const {
  return word_as(*this, at, [&](const std::string& text) { return typed_day(text, today_, looks); });
}

std::string in_80(const std::string& text, std::size_t further) {
  const std::size_t width = prose_columns();
  further = std::min(further, width / 2);  // on a narrow screen words come before the picture that they make
  std::string all, line;
  std::istringstream in(text);
  const std::size_t indent = text.find_first_not_of(' ');
  line.assign(indent == std::string::npos ? 0 : indent, ' ');
  if (shown_width(text) <= width) return text + "\n";
  bool begun = false;
  for (std::string word; in >> word;) {
    if (begun && shown_width(line) + 1 + shown_width(word) > width) {
      all += line + "\n";
      line.assign(further, ' ');
      begun = false;
    }
    line += (begun ? " " : "") + word;
    begun = true;
  }
  return all + line + "\n";
}

std::string paragraphs_in_80(const std::string& text) {
  std::string all, paragraph;
  std::istringstream lines(text);
  const auto flow = [&] {
    if (!paragraph.empty()) all += in_80(paragraph, 0);
    paragraph.clear();
  };
  for (std::string line; std::getline(lines, line);) {
    const bool kept = line.empty() || line.front() == ' ';
    if (kept) flow();
    if (kept)
      all += line.empty() ? "\n" : in_80(line, line.find_first_not_of(' ') + 2);
    else
      paragraph += (paragraph.empty() ? "" : " ") + line;
  }
  flow();
  return all;
}

std::string help_text(const Usage& usage) {
  std::string text = fmt::format("nonrunner {}{}{} [OPTIONS]\n{}\n", usage.command,
                                 usage.words.empty() ? "" : " ", usage.words, in_80(usage.says, 0));
  std::size_t width = 0;
  const auto shown = [](const Option& option) {
    return "--" + option.name + (option.value.empty() ? "" : " " + option.value);
  };
  for (const Option& option : all_options(usage)) width = std::max(width, shown(option).size());
  for (const Option& option : all_options(usage)) {
    // The name keeps its column: blanks inside it are words of their own otherwise.
    const std::string name = fmt::format("  {:<{}}  ", shown(option), width);
    const std::string says = option.says + (option.repeats ? " (may be repeated)" : "");
    text += name + in_80(std::string(name.size(), ' ') + says, name.size()).substr(name.size());
  }
  if (!usage.more.empty()) text += "\n" + paragraphs_in_80(usage.more);
  text += "\nExample:\n  " + usage.example + "\n";
  return text;
}

std::pair<std::string, std::string> name_and_value(const Given& given, const std::string& option,
                                                   const std::string& text) {
  const auto equals = text.rfind('=');
  if (equals == std::string::npos || equals == 0 || equals + 1 == text.size())
    given.wrong(fmt::format("--{}: found \"{}\", expected NAME=VALUE", option, text));
  return {text.substr(0, equals), text.substr(equals + 1)};
}

}  // namespace nonrunner::commands
