#include "book/events/pass.h"

#include <algorithm>
#include <set>

#include "answers/entering.h"
#include "book/ledger/names.h"
#include "commands/ask.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/event_words.h"
#include "exact/hint.h"
#include "exact/nearest.h"

namespace nonrunner::commands {

namespace {
constexpr std::initializer_list<const char*> pass_words = {"vehicle"};

// "pass asked too much": a word of why, where the tag was forgotten, would be a new car.
// Gives the tag that was said to be a new one.
std::set<std::string> car_meant(const Given& given, Terminal& terminal, const book::Book& book,
                                const std::string& tag) {
  const auto known = book::all_tags(book);
  if (!terminal.in || given.flag("new") || std::find(known.begin(), known.end(), tag) != known.end())
    return {};
  const std::string refused = fmt::format("pass: no vehicle has the tag \"{}\"", tag);
  const std::string near = nearest(tag, known) ? did_you_mean(tag, known) : ";";
  if (ask(answers::is_it_new(refused + near, tag), terminal) != 0)
    throw hinted<Refusal>(refused, {Action::list_vehicles, {}});
  return {tag};
}

int run_pass(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  auto pass = typed_event<book::Pass>(given, terminal, book, "pass", pass_words);
  if (const auto why = given.word_if(1)) pass.why = *why;
  const std::set<std::string> new_words = car_meant(given, terminal, book, pass.vehicle);
  return record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        recording.new_words.insert(new_words.begin(), new_words.end());
        return record(recording, pass);
      },
      pass.vehicle + " was looked at and left; what looking cost is overhead");
}
}  // namespace

extern const Command pass;
const Command pass{
    {"pass", "TAG [WHY]", "a car looked at and left: its costs become the overhead of looking",
     "nonrunner pass troupe asked too much", with_new(options_of<book::Pass>(pass_words)), true, ""},
    run_pass};

}  // namespace nonrunner::commands
