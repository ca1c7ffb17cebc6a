#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "commands/command.h"
#include "commands/desk.h"
#include "commands/door.h"
#include "commands/event_help.h"
#include "commands/hints.h"
#include "exact/ends.h"
#include "exact/nearest.h"
#include "words/ending.h"

namespace nonrunner::commands {

namespace {

// Where a new group of commands begins in the list of all of them.
constexpr std::pair<std::string_view, std::string_view> groups[] = {{"appraise", "Deciding"},
                                                                    {"start", "Keeping the book"},
                                                                    {"vehicles", "Looking"},
                                                                    {"set", "Looking after it"}};

std::string overview() {
  std::string text =
      "nonrunner COMMAND [WORDS] [OPTIONS]\n"
      "Buy cars that do not run, mend them, sell them: is it worth it, what did it\n"
      "cost, what did it bring.\n";
  std::size_t width = 0;
  for (const Command& command : all()) width = std::max(width, command.usage.command.size());
  for (const Command& command : all()) {
    for (const auto& [first, heading] : groups)
      if (command.usage.command == first) text += fmt::format("\n{}\n", heading);
    text += fmt::format("  {:<{}}  {}\n", command.usage.command, width, command.usage.says);
  }
  text += "\nWhat to say to one of them, with an example: nonrunner COMMAND --help\n";
  text += "What an events file holds: nonrunner help events\n";
  return text;
}

const Command& find_command(const std::string& name) {
  std::vector<std::string> names;
  for (const Command& command : all()) {
    if (command.usage.command == name) return command;
    names.push_back(command.usage.command);
  }
  const std::string hint = did_you_mean(name, names);
  throw WrongUsage(
      fmt::format("unknown command \"{}\"{}", name, hint.empty() ? "; see: nonrunner --help" : hint));
}

// A command, or the events of a file: "events", "events sell", "events core back".
std::string help_on(const Words& words) {
  if (words.front() != "events") return help_text(find_command(words.front()).usage);
  std::string event;
  for (std::size_t i = 1; i < words.size(); ++i) event += (i > 1 ? " " : "") + words[i];
  return event.empty() ? events_help() : event_help(event);
}

int dispatch(const Words& words, Terminal& terminal) {
  if (words.empty()) throw WrongUsage("which command? see: nonrunner --help");
  if (words.front() == "--help" || words.front() == "help") {
    terminal.out << (words.size() > 1 ? help_on(Words(words.begin() + 1, words.end())) : overview());
    return 0;
  }
  if (words.front() == "--version") {
    terminal.out << "nonrunner " NONRUNNER_VERSION "\n";
    return 0;
  }
  const Command& command = find_command(words.front());
  const Given given(command.usage, Words(words.begin() + 1, words.end()));
  if (given.help()) {
    terminal.out << help_text(command.usage);
    return 0;
  }
  return command.run(given, terminal);
}

std::filesystem::path book_of(const Words& words, const Terminal& terminal) {
  const auto option = std::find(words.begin(), words.end(), "--book");
  if (option != words.end() && option + 1 != words.end()) return *(option + 1);
  for (const std::string& word : words)
    if (word.starts_with("--book=")) return word.substr(7);
  try {
    return terminal.default_book();
  } catch (const WrongUsage&) {
    return "book";
  }
}

}  // namespace

namespace {

int run_behind_the_door(const Words& typed, Terminal& terminal) {
  const auto say = [&](const std::string& what, int status) {
    // One line, whatever a file or a word held.
    terminal.err << "nonrunner: " << printable(what) << "\n";
    return status;
  };
  try {
    const int status = dispatch(typed, terminal);
    terminal.out.flush();
    if (!terminal.out)
      throw MachineFailure(
          "the output could not be written; what the command recorded is in the book: nonrunner entries");
    return status;
  } catch (const Interrupted& interrupted) {
    return say(interrupted.what(), 128 + interrupted.signal);
  } catch (...) {
    const words::Ending ending = words::ending_of(std::current_exception(), book_of(typed, terminal));
    using Kind = words::Ending::Kind;
    return say(ending.message + (ending.hint ? in_shell_words(*ending.hint) : std::string()),
               ending.kind == Kind::refused       ? 1
               : ending.kind == Kind::wrong_usage ? 2
                                                  : 3);
  }
}

}  // namespace

int run(const Words& words, Terminal& terminal) {
  const bool json = std::find(words.begin(), words.end(), "--json") != words.end();
  Door out_door(terminal.out, json ? Door::Kind::json : Door::Kind::text),
      err_door(terminal.err, Door::Kind::progress);
  std::ostream out(&out_door), err(&err_door);
  err << std::unitbuf;
  Terminal seen{out,
                err,
                terminal.out_is_terminal,
                terminal.err_is_terminal,
                terminal.today,
                terminal.now,
                terminal.environment,
                terminal.in};
  return run_behind_the_door(words, seen);
}

}  // namespace nonrunner::commands
