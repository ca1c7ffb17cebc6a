#include <fmt/format.h>

#include <sstream>

#include "commands/command.h"
#include "commands/installed_words.h"
#include "commands/topics.h"

namespace nonrunner::commands {

namespace {

// Text as roff reads it: a backslash and a dash as they stand, no line taken for a request.
std::string roff(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if ((c == '.' || c == '\'') && (out.empty() || out.back() == '\n')) out += "\\&";
    if (c == '\\')
      out += "\\e";
    else if (c == '-')
      out += "\\-";
    else
      out += c;
  }
  return out;
}

std::string term(const std::string& bold, const std::string& italic, const std::string& says) {
  return ".TP\n\\fB" + roff(bold) + "\\fR" + (italic.empty() ? "" : " \\fI" + roff(italic) + "\\fR") + "\n" +
         roff(says) + "\n";
}

// Lines that follow one another are a paragraph; those that begin with a blank stand as they are.
std::string paragraphs(const std::string& text) {
  std::string out;
  bool kept = false;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    const bool keep = line.starts_with(' ');
    if (keep != kept) out += keep ? ".nf\n" : ".fi\n.PP\n";
    kept = keep;
    out += roff(line) + "\n";
  }
  return out + (kept ? ".fi\n" : "");
}

std::string command_text(const Command& command) {
  const Usage& usage = command.usage;
  std::string text = ".SS " + roff(usage.command) + "\n.B nonrunner " + roff(usage.command) + "\n";
  if (!usage.words.empty()) text += ".I " + roff(usage.words) + "\n";
  text += ".PP\n" + roff(usage.says) + ".\n";
  for (const Option& option : usage.options)
    text += term("--" + option.name, option.value,
                 option.says + (option.repeats ? " (may be repeated)" : "") + ".");
  if (!usage.more.empty()) text += ".PP\n" + paragraphs(usage.more);
  return text + ".PP\nExample:\n.PP\n.nf\n.RS\n" + roff(usage.example) + "\n.RE\n.fi\n";
}

constexpr const char* what_it_is =
    "Nonrunner tells before the purchase whether a car that does not run is worth it and up to what price, "
    "keeps "
    "each car's money and hours as the work goes on, and says after the sale what was really earned. "
    "Everything "
    "stays on this machine, in one file, the book.\n"
    ".PP\n"
    "Money, days and hours may be written short; see \\fBnonrunner help typing\\fR.\n";

}  // namespace

std::string man_page() {
  std::string text =
      ".\\\" Made by the program from its own commands.\n"
      ".TH NONRUNNER 1 \"\" \"nonrunner " NONRUNNER_VERSION
      "\" \"User Commands\"\n"
      ".SH NAME\n"
      "nonrunner \\- buy cars that do not run, mend them, sell them\n"
      ".SH SYNOPSIS\n"
      ".B nonrunner\n"
      ".I COMMAND\n"
      "[\\fIWORDS\\fR] [\\fIOPTIONS\\fR]\n"
      ".br\n"
      ".B nonrunner help\n"
      "[\\fICOMMAND\\fR | \\fITOPIC\\fR]\n"
      ".SH DESCRIPTION\n";
  text += what_it_is;
  text +=
      ".SH OPTIONS\nEvery command takes these; all but \\fBstart\\fR and \\fBnew\\-job\\fR read a book.\n";
  text += term("--book", "FILE", "the book (else NONRUNNER_BOOK, else ~/.local/share/nonrunner/shop.book).");
  text += term("--json", "", "machine-readable output.");
  text += term("--help", "", "what to say to the command, with an example.");
  text += ".SH COMMANDS\n";
  for (const Command& command : all()) text += command_text(command);
  text += ".SH TOPICS\n";
  for (const Topic& topic : topics()) text += term("nonrunner help " + topic.name, "", topic.says + ".");
  text += ".SH EXIT STATUS\n";
  text += term("0", "", "done.");
  text +=
      term("1", "", "the answer is no: a rule broken, a file invalid, a check failed; nothing was written.");
  text += term("2", "", "wrong usage.");
  text += term("3", "", "the machine failed.");
  text += ".SH ENVIRONMENT\n";
  text += term("NONRUNNER_BOOK", "", "the book, where none is named.");
  text += term("COLUMNS", "", "how wide the screen is (else what the terminal says, else 80).");
  text += ".SH FILES\n";
  text += term("~/.local/share/nonrunner/shop.book", "", "the book, where nothing else is said.");
  text += term("~/.local/state/nonrunner/heads", "", "the last seal of each day, kept apart from the book.");
  return text;
}

}  // namespace nonrunner::commands
