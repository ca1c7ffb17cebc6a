#include "commands/hints.h"

#include <fmt/format.h>

#include "words/days.h"

namespace nonrunner::commands {

namespace {
std::string clock_told(const std::string& since, const std::string& now) {
  if (since.empty()) return "";
  return "; it runs since " + words::shown_time(since) +
         (now.empty() ? "" : ", and it is " + words::shown_time(now));
}
}  // namespace

std::string in_shell_words(const Hint& hint) {
  const auto word = [&](const char* name) {
    const auto found = hint.with.find(name);
    return found == hint.with.end() ? std::string() : found->second;
  };
  switch (hint.action) {
    case Action::add_comparables:
      return "; add some: nonrunner comparable add --csv FILE";
    case Action::allow_again:
      return " with --again";
    case Action::allow_again_in_file:
      return ": again = true";
    case Action::allow_new_name:
      return " with --new";
    case Action::buy:
      return fmt::format(": nonrunner buy {} PRICE", word("tag"));
    case Action::count_stock:
      return fmt::format("; where the shelf holds more: nonrunner count \"{}\" N", word("item")) +
             (word("boxed").empty() ? ""
                                    : "; where a box was entered as one piece, take its entry back and enter "
                                      "it with --gives PIECES");
    case Action::give_clock_hours:
      return ": nonrunner clock off --hours N" + clock_told(word("since"), word("now"));
    case Action::give_courses_or_keep_appraisal:
      return "; keep one with nonrunner appraise JOB.toml --keep, or give the courses with --file "
             "COURSES.toml";
    case Action::go_on:
      return fmt::format("; what the other courses bring: nonrunner go-on {} --cause \"{}\"", word("tag"),
                         word("cause"));
    case Action::keep_appraisal:
      return "; keep one with: nonrunner appraise JOB.toml --keep";
    case Action::list_comparable_columns:
      return "; see: nonrunner comparable --help";
    case Action::list_comparables:
      return " by: nonrunner comparable list";
    case Action::list_entries:
      return fmt::format("; see: nonrunner entries{}{}", word("tag").empty() ? "" : " ", word("tag"));
    case Action::list_lines:
      return "; see: nonrunner entries TAG --lines";
    case Action::list_receipt_columns:
      return "; see: nonrunner receipt --help";
    case Action::list_stock:
      return "; see: nonrunner stock";
    case Action::list_vehicles:
      return "; see: nonrunner vehicles";
    case Action::look_at_entries:
      return ": nonrunner entries";
    case Action::look_at_health:
      return "; see: nonrunner check";
    case Action::look_back:
      return ", expected a --date before that";
    case Action::look_back_or_give_courses:
      return ", a --date before that, or courses of your own with --file COURSES.toml";
    case Action::mend:
      return fmt::format("; make a new one of it: nonrunner mend {} --book NEW", word("place"));
    case Action::name_another_book:
      return "; restore to a new one with --book NEW";
    case Action::name_cause:
      return fmt::format(
          " say --cause \"{1}\" or the like, or note it: nonrunner note {0} \"...\" --cause \"...\"",
          word("tag"), word("cause"));
    case Action::name_supplier:
      return ": --supplier NAME, or --no-paper";
    case Action::no_more_comes:
      return "; where no more comes back: --kept";
    case Action::owe_instead:
      return "; what is owed to a supplier: --on-account";
    case Action::pass:
      return fmt::format("; one looked at and left: nonrunner pass {} --why \"...\"", word("tag"));
    case Action::replace_or_again:
      return fmt::format(": replaces = {}, or again = true", word("entry"));
    case Action::restore:
      return " with: nonrunner restore FROM --book NEW";
    case Action::say_something_else:
      return "; if it is none of them say so: --cause \"something else\"";
    case Action::show_budget:
      return fmt::format("; see: nonrunner show {} --detail", word("tag"));
    case Action::show:
      return fmt::format("; what looking at it cost stands in: nonrunner show {}", word("tag"));
    case Action::start_book:
      return word("place").empty()
                 ? std::string("; make one with: nonrunner start")
                 : fmt::format(" with: nonrunner start {} --currency USD --distance mi", word("place"));
    case Action::start_clock:
      return ": nonrunner clock on TAG \"OPERATION\"";
    case Action::stop_clock:
      return ": nonrunner clock off" + clock_told(word("since"), "");
    case Action::tray:
      return "; see: nonrunner tray";
    case Action::use_book:
      return "; name one with --book";
    case Action::take_back:
    case Action::void_entry:
      return fmt::format(": nonrunner void {}{} --why \"...\"", word("entry"),
                         hint.with.contains("later") ? " --later " + word("later") : "");
    case Action::write_off:
      return fmt::format(" with: nonrunner write-off {}", word("tag"));
  }
  return "";
}

std::string with_hint(const std::exception& error) {
  const auto* more = dynamic_cast<const Hinted*>(&error);
  return error.what() + (more ? in_shell_words(more->hint()) : std::string());
}

}  // namespace nonrunner::commands
