#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "commands/command.h"
#include "commands/installed_words.h"
#include "commands/topics.h"
#include "exact/ends.h"

namespace nonrunner::commands {

namespace {

// The options that the command line knows beside the command's own.
std::vector<Option> options_of(const Usage& usage) {
  std::vector<Option> all = usage.options;
  if (usage.needs_book) all.push_back({"book", "FILE", "the book"});
  all.push_back({"json", "", "machine-readable output"});
  all.push_back({"help", "", "what to say to it"});
  return all;
}

bool is_file(const std::string& value) {
  return value.find("FILE") != std::string::npos || value.find(".toml") != std::string::npos ||
         value.find(".xlsx") != std::string::npos || value.find(".ics") != std::string::npos;
}

// "on|off|show [TAG]" has three words to choose from; "TAG PRICE" none.
std::vector<std::string> first_words(const Usage& usage) {
  std::vector<std::string> all;
  std::istringstream in(usage.words.substr(0, usage.words.find(' ')));
  for (std::string word; std::getline(in, word, '|');)
    if (!word.empty() && std::all_of(word.begin(), word.end(), [](char c) { return c >= 'a' && c <= 'z'; }))
      all.push_back(word);
  return all;
}

std::string replaced(std::string text, const std::string& from, const std::string& by) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + by.size()))
    text.replace(at, from.size(), by);
  return text;
}

// Between single quotes of a shell of the Bourne family.
std::string in_quotes(const std::string& text) { return "'" + replaced(text, "'", "'\\''") + "'"; }
// Between single quotes of fish, which knows a backslash there.
std::string fish_quoted(const std::string& text) {
  return "'" + replaced(replaced(text, "\\", "\\\\"), "'", "\\'") + "'";
}

std::vector<std::string> command_names() {
  std::vector<std::string> names;
  for (const Command& command : all()) names.push_back(command.usage.command);
  return names;
}

std::vector<std::string> explained() {
  std::vector<std::string> names = command_names();
  for (const Topic& topic : topics())
    if (std::find(names.begin(), names.end(), topic.name) == names.end()) names.push_back(topic.name);
  return names;
}

std::string in_a_row(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

std::string bash() {
  std::string text =
      "# bash completion for nonrunner; made by the program from its own commands\n"
      "_nonrunner() {\n"
      "  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} options= values= words=\n"
      "  COMPREPLY=()\n"
      "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
      "    COMPREPLY=($(compgen -W " +
      in_quotes(in_a_row(command_names()) + " help --help --version") +
      " -- \"$word\"))\n"
      "    return\n"
      "  fi\n"
      "  case ${COMP_WORDS[1]} in\n"
      "    help) words=" +
      in_quotes(in_a_row(explained())) + " ;;\n";
  for (const Command& command : all()) {
    std::string options, values;
    for (const Option& option : options_of(command.usage)) {
      options += (options.empty() ? "--" : " --") + option.name;
      if (!option.value.empty()) values += " --" + option.name;
    }
    text +=
        fmt::format("    {}) options={} values={} words={} ;;\n", command.usage.command, in_quotes(options),
                    in_quotes(values + " "), in_quotes(in_a_row(first_words(command.usage))));
  }
  return text +
         "    *) return ;;\n"
         "  esac\n"
         "  case $values in *\" $before \"*) return ;; esac  # a value: files, by the shell itself\n"
         "  case $word in\n"
         "    -*) COMPREPLY=($(compgen -W \"$options\" -- \"$word\")) ;;\n"
         "    *) [ \"$COMP_CWORD\" -eq 2 ] && COMPREPLY=($(compgen -W \"$words\" -- \"$word\")) ;;\n"
         "  esac\n"
         "}\n"
         "complete -o default -F _nonrunner nonrunner\n";
}

// What stands in a specification of _arguments must not hold what it divides by.
std::string zsh_says(const std::string& says) {
  std::string text;
  for (const char c : says) {
    if (c == '[' || c == ']' || c == ':' || c == '\\') text += '\\';
    text += c;
  }
  return text;
}

std::string zsh() {
  std::string text =
      "#compdef nonrunner\n"
      "# made by the program from its own commands\n"
      "_nonrunner() {\n"
      "  local -a commands\n"
      "  commands=(\n";
  for (const Command& command : all())
    text += "    " + in_quotes(command.usage.command + ":" + zsh_says(command.usage.says)) + "\n";
  text +=
      "    'help:what a command or a file wants'\n"
      "  )\n"
      "  if (( CURRENT == 2 )); then\n"
      "    _describe 'command' commands\n"
      "    return\n"
      "  fi\n"
      "  local command=$words[2]\n"
      "  shift words\n"
      "  (( CURRENT-- ))\n"
      "  case $command in\n"
      "    help) _values 'topic' " +
      in_a_row(explained()) + " ;;\n";
  for (const Command& command : all()) {
    text += "    " + command.usage.command + ") _arguments";
    for (const Option& option : options_of(command.usage)) {
      std::string spec =
          std::string(option.repeats ? "*" : "") + "--" + option.name + "[" + zsh_says(option.says) + "]";
      if (!option.value.empty())
        spec += ":" + zsh_says(option.value) + ":" + (is_file(option.value) ? "_files" : "");
      text += " \\\n      " + in_quotes(spec);
    }
    const auto words = first_words(command.usage);
    if (!words.empty()) text += " \\\n      " + in_quotes("1:what:(" + in_a_row(words) + ")");
    text += " \\\n      '*:word:_files' ;;\n";
  }
  return text +
         "  esac\n"
         "}\n"
         "_nonrunner \"$@\"\n";
}

std::string fish() {
  std::string text =
      "# fish completion for nonrunner; made by the program from its own commands\n"
      "complete -c nonrunner -n __fish_use_subcommand -f -a help -d 'what a command or a file wants'\n";
  for (const Command& command : all()) {
    const std::string& name = command.usage.command;
    text += fmt::format("complete -c nonrunner -n __fish_use_subcommand -f -a {} -d {}\n", name,
                        fish_quoted(command.usage.says));
    const std::string seen = "'__fish_seen_subcommand_from " + name + "'";
    if (const auto words = first_words(command.usage); !words.empty())
      text += fmt::format("complete -c nonrunner -n {} -f -a '{}'\n", seen, in_a_row(words));
    for (const Option& option : options_of(command.usage))
      text += fmt::format("complete -c nonrunner -n {} -l {}{} -d {}\n", seen, option.name,
                          option.value.empty()    ? ""
                          : is_file(option.value) ? " -r"
                                                  : " -x",
                          fish_quoted(option.says));
  }
  return text + "complete -c nonrunner -n '__fish_seen_subcommand_from help' -f -a '" +
         in_a_row(explained()) + "'\n";
}

}  // namespace

std::string completion(const std::string& shell) {
  if (shell == "bash") return bash();
  if (shell == "zsh") return zsh();
  if (shell == "fish") return fish();
  throw WrongUsage("help: found \"" + shell + "\" behind --completion, expected bash, zsh or fish");
}

}  // namespace nonrunner::commands
