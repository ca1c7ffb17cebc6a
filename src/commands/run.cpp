#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "commands/command.h"
#include "commands/desk.h"
#include "commands/door.h"
#include "commands/event_help.h"
#include "commands/hints.h"
#include "commands/installed_words.h"
#include "commands/screen.h"
#include "commands/topics.h"
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
  text += "\nExplained, too, by nonrunner help TOPIC\n";
  for (const Topic& topic : topics()) text += fmt::format("  {:<{}}  {}\n", topic.name, width, topic.says);
  return text;
}

// What is typed most often has one letter, which stands for the same command for ever.
constexpr std::pair<std::string_view, std::string_view> short_words[] = {
    {"r", "receipt"}, {"h", "hours"}, {"n", "note"}, {"s", "show"}};

// A beginning that only one command has stands for it where somebody is there to see what it became; a script would
// break when a command is added.
const Command& find_command(std::string name, bool at_terminal) {
  for (const auto& [letter, whole] : short_words)
    if (name == letter) name = whole;
  std::vector<std::string> names;
  const Command* begun = nullptr;
  std::string like;
  for (const Command& command : all()) {
    if (command.usage.command == name) return command;
    names.push_back(command.usage.command);
    if (!at_terminal || !command.usage.command.starts_with(name) || name.empty()) continue;
    begun = like.empty() ? &command : nullptr;
    like += (like.empty() ? "" : ", ") + command.usage.command;
  }
  if (begun) return *begun;
  if (!like.empty())
    throw WrongUsage(
        fmt::format("\"{}\" is the beginning of several commands: {}; type one letter more", name, like));
  const std::string hint = did_you_mean(name, names);
  throw WrongUsage(
      fmt::format("unknown command \"{}\"{}", name, hint.empty() ? "; see: nonrunner --help" : hint));
}

// A command, a topic, or an event of a file: "sell", "budget", "events core back". What the build lays down beside the
// program is asked for here too; nobody types that, so no page lists it.
std::string help_on(const Words& words) {
  if (words.front() == "--man") return man_page();
  if (words.front() == "--completion") return completion(words.size() > 1 ? words[1] : "");
  if (words.front() != "events" || words.size() == 1) return topic_text(words.front());
  std::string event;
  for (std::size_t i = 1; i < words.size(); ++i) event += (i > 1 ? " " : "") + words[i];
  return event_help(event);
}

int dispatch(const Words& words, Terminal& terminal) {
  if (words.empty()) throw WrongUsage("which command? see: nonrunner --help");
  if (words.front() == "--help" || words.front() == "-h" || words.front() == "help") {
    terminal.out << (words.size() > 1 ? help_on(Words(words.begin() + 1, words.end())) : overview());
    return 0;
  }
  if (words.front() == "--version") {
    terminal.out << "nonrunner " NONRUNNER_VERSION "\n";
    return 0;
  }
  const Command& command = find_command(words.front(), terminal.in != nullptr);
  Words further(words.begin() + 1, words.end());
  std::replace(further.begin(), further.end(), std::string("-h"), std::string("--help"));
  const Given given(command.usage, further, terminal.today);
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

// An event that has another name than its command is called as it was typed.
constexpr std::pair<std::string_view, std::string_view> events_typed[] = {{"note", "finding: "},
                                                                          {"deposit", "buyer deposit: "},
                                                                          {"advertise", "advertised: "},
                                                                          {"cost", "selling cost: "}};

std::string as_typed(const Words& typed, std::string message, bool at_terminal) {
  std::string command;
  try {
    if (!typed.empty()) command = find_command(typed.front(), at_terminal).usage.command;
  } catch (const WrongUsage&) {
  }
  for (const auto& [name, event] : events_typed)
    if (command == name && message.starts_with(event)) return command + ": " + message.substr(event.size());
  return message;
}

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
    return say(as_typed(typed, ending.message, terminal.in != nullptr) +
                   (ending.hint ? in_shell_words(*ending.hint) : std::string()),
               ending.kind == Kind::refused       ? 1
               : ending.kind == Kind::wrong_usage ? 2
                                                  : 3);
  }
}

}  // namespace

int run(const Words& words, Terminal& terminal) {
  const bool json = std::find(words.begin(), words.end(), "--json") != words.end();
  const Screen screen(terminal.columns);
  Door out_door(terminal.out, json ? Door::Kind::json : Door::Kind::text, terminal.columns),
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
                terminal.in,
                terminal.columns,
                terminal.patience};
  return run_behind_the_door(words, seen);
}

}  // namespace nonrunner::commands
