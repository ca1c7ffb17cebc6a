#include "commands/topics.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>
#include <stdexcept>

#include "appraisal/job_keys.h"
#include "book/care/comparables_csv.h"
#include "book/care/receipts_csv.h"
#include "book/events/fields.h"
#include "book/events/receipt.h"
#include "commands/command.h"
#include "commands/event_help.h"
#include "commands/options.h"
#include "commands/topic_files.h"
#include "exact/ends.h"
#include "exact/nearest.h"

namespace nonrunner::commands {

const std::string& topic_file(const std::string& name) {
  for (const TopicFile& file : topic_files())
    if (file.name == name) return file.text;
  throw std::logic_error("no topic file is called " + name);
}

namespace {

// An example as it stands in its file, two columns in.
std::string shown_file(const std::string& name) {
  std::string text;
  std::istringstream lines(topic_file(name));
  for (std::string line; std::getline(lines, line);) text += line.empty() ? "\n" : "  " + line + "\n";
  return text;
}

// "  asking*     the price asked", the words in a column of their own.
std::string keys_text(const std::vector<FileKey>& keys) {
  std::size_t width = 0;
  for (const FileKey& each : keys)
    width = std::max(width, std::string(each.key).size() + (each.must ? 1 : 0));
  std::string text;
  for (const FileKey& each : keys) {
    const std::string head = fmt::format("  {:<{}}  ", std::string(each.key) + (each.must ? "*" : ""), width);
    text += head + in_80(std::string(head.size(), ' ') + each.means, head.size()).substr(head.size());
  }
  return text;
}

std::string job_file_text() {
  std::string text;
  for (const FileTable& table : appraisal::job_tables())
    text += "\n" + in_80(std::string(table.head) + ": " + table.says, 2) + keys_text(table.keys);
  return text + "\nAn example:\n\n" + shown_file("job-file.toml");
}

std::string receipt_text() {
  return "\n" + fields_text(book::described(book::Receipt{})) + "\nAn example:\n\n" +
         shown_file("receipt.toml");
}

std::string csv_text() {
  return "\nReceipts: nonrunner receipt --csv FILE\n" + keys_text(book::receipt_columns()) +
         "\nAn example:\n\n" + shown_file("receipts.csv") +
         "\nComparables: nonrunner comparable add --csv FILE\n" + keys_text(book::comparable_columns()) +
         "\nAn example:\n\n" + shown_file("comparables.csv");
}

std::string page(const std::string& name) {
  if (name == "events") return events_help();
  std::string text = paragraphs_in_80(topic_file(name + ".txt"));
  if (name == "job-file") text += job_file_text();
  if (name == "receipt") text += receipt_text();
  if (name == "csv") text += csv_text();
  return text;
}

}  // namespace

const std::vector<Topic>& topics() {
  static const std::vector<Topic> all = {
      {"typing", "how words, numbers and days may be written at the prompt"},
      {"words", "what counts as cost, profit, margin, break-even price"},
      {"book", "what the book promises, and how mistakes are put right"},
      {"budget", "what is still to come on a car, and how it is known"},
      {"answer", "how an appraisal comes to its answer"},
      {"value", "what it will sell for: comparables, your own cars"},
      {"go-on", "go on or stop: what is counted"},
      {"workbook", "what each spreadsheet is for"},
      {"job-file", "every key of a job file, with an example"},
      {"receipt", "every key of a whole paper as a file, with an example"},
      {"csv", "the columns of lists of receipts and of comparables"},
      {"events", "every event of an events file with its keys"},
  };
  return all;
}

bool is_topic(const std::string& name) {
  return std::any_of(topics().begin(), topics().end(), [&](const Topic& each) { return each.name == name; });
}

std::string topic_text(const std::string& name) {
  std::vector<std::string> names;
  std::string text;
  for (const Command& command : all()) {
    if (command.usage.command == name) text = help_text(command.usage);
    names.push_back(command.usage.command);
  }
  for (const Topic& topic : topics()) names.push_back(topic.name);
  if (is_topic(name)) return text + (text.empty() ? "" : "\n") + page(name);
  if (!text.empty()) return text;
  const std::string hint = did_you_mean(name, names);
  throw WrongUsage(fmt::format("help: there is no command or topic \"{}\"{}", name,
                               hint.empty() ? "; see: nonrunner --help" : hint));
}

}  // namespace nonrunner::commands
