#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "appraisal/starters.h"
#include "book/ledger/settings.h"
#include "commands/command.h"
#include "commands/job_given.h"
#include "exact/ends.h"
#include "exact/nearest.h"
#include "text/lower_case.h"
#include "words/book_json.h"

namespace nonrunner::commands {

namespace {

// The file's name as far as it can be a tag.
std::string tag_of(const std::filesystem::path& file) {
  std::string tag;
  for (const char low : lower_case(file.stem().string())) {
    if ((low >= 'a' && low <= 'z') || (low >= '0' && low <= '9'))
      tag += low;
    else if (!tag.empty() && tag.back() != '-')
      tag += '-';
  }
  tag.resize(std::min<std::size_t>(tag.size(), 24));
  while (!tag.empty() && tag.back() == '-') tag.pop_back();
  return tag.empty() ? "car" : tag;
}

const appraisal::Starter& starter_for(const Given& given) {
  std::vector<std::string> known;
  std::string listed;
  for (const appraisal::Starter& starter : appraisal::starters()) {
    known.push_back(starter.complaint);
    listed += (listed.empty() ? "\"" : ", \"") + known.back() + "\"";
  }
  auto complaint = given.text("complaint");
  if (!complaint) given.wrong("which complaint? expected --complaint with one of " + listed);
  complaint = lower_case(*complaint);
  const auto found = std::find(known.begin(), known.end(), *complaint);
  if (found == known.end())
    given.wrong("--complaint: found \"" + *complaint + "\", expected one of " + listed +
                did_you_mean(*complaint, known));
  return appraisal::starters()[static_cast<std::size_t>(found - known.begin())];
}

// As a shell takes it for one word: in single quotes where it has more than plain characters.
std::string as_one_word(const std::string& word) {
  const bool plain = std::all_of(word.begin(), word.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           std::string_view("/._-+").find(c) != std::string_view::npos;
  });
  if (plain) return word;
  std::string quoted = "'";
  for (const char c : word) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return quoted + "'";
}

// What an own hour must earn by the book that is at hand, as one types it; nothing where none says.
std::optional<std::string> hour_of_book(const Given& given, const Terminal& terminal) {
  std::optional<book::Book> book;
  try {
    book = book_at_hand(given, terminal);
  } catch (const std::exception&) {
    if (given.flag("book")) throw;  // a file to begin with needs none
  }
  if (!book || !book->setting("hour")) return std::nullopt;
  std::string hour = book::hour(*book, terminal.today).plain(book->currency());
  if (hour.find('.') != std::string::npos) hour.erase(hour.find_last_not_of('0') + 1);
  if (hour.ends_with('.')) hour.pop_back();
  return hour;
}

int run_new_job(const Given& given, Terminal& terminal) {
  const std::filesystem::path file = given.word(0);
  const appraisal::Starter& starter = starter_for(given);
  const auto hour = hour_of_book(given, terminal);
  const std::string text = hour ? appraisal::starter_job(starter, tag_of(file), *hour)
                                : appraisal::starter_job(starter, tag_of(file));
  std::FILE* out = std::fopen(file.c_str(), "wx");  // x: a file that is there already stays as it is
  if (!out) {
    if (std::filesystem::exists(file))
      throw Refusal(file.string() +
                    ": found a file of that name, expected none; name another, nothing was written");
    throw MachineFailure(file.string() + ": cannot be written; check the folder and its permissions");
  }
  const bool written = std::fwrite(text.data(), 1, text.size(), out) == text.size();
  if ((std::fclose(out) != 0) || !written) {
    std::error_code ignored;
    std::filesystem::remove(file, ignored);
    throw MachineFailure(file.string() +
                         ": could not be written whole, and was taken away again; is the disk full?");
  }
  if (given.json())
    terminal.out << words::facts_as_json({{"written", file.string()}, {"tag", tag_of(file)}});
  else
    terminal.out << file.string() << ": a job file to begin with; its figures are invented, put in your own\n"
                 << (hour ? "an own hour is to earn " + *hour + ", as the book says\n" : "")
                 << "then: nonrunner appraise " << as_one_word(file.string()) << "\n";
  return 0;
}

}  // namespace

extern const Command new_job;
const Command new_job{
    {"new-job",
     "FILE",
     "a job file to begin with, for a common complaint",
     "nonrunner new-job pip.toml --complaint overheated",
     {{"complaint", "WORDS", "what is wrong with it, as seen"}},
     true,
     "Complaints: cranks but will not start; does not crank; knocks; no drive; overheated."},
    run_new_job};

}  // namespace nonrunner::commands
