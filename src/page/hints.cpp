#include "page/hints.h"

#include "page/frame.h"
#include "words/days.h"

namespace nonrunner::page {

namespace {
Html link(const std::string& path, std::string_view words) {
  return html("<p><a href=\"{}\">{}</a></p>", path, words);
}
}  // namespace

Html way_on(const Hint& hint) {
  const auto word = [&](const char* name) {
    const auto found = hint.with.find(name);
    return found == hint.with.end() ? std::string() : found->second;
  };
  const std::string tag = word("tag");
  switch (hint.action) {
    case Action::buy:
    case Action::pass:
      return link(path_of("/seller/", tag), "Before the seller: bought, or left");
    case Action::give_clock_hours:
    case Action::start_clock:
    case Action::stop_clock:
      return link("/hours", "Hours and the clock") +
             (word("since").empty()
                  ? Html()
                  : html("<p>It runs since {}{}.</p>", words::shown_time(word("since")),
                         word("now").empty() ? std::string()
                                             : ", and it is " + words::shown_time(word("now"))));
    case Action::go_on:
    case Action::name_cause:
    case Action::say_something_else:
      return tag.empty() ? Html() : link(path_of("/go-on/", tag), "Go on or stop");
    case Action::list_entries:
    case Action::list_lines:
    case Action::look_at_entries:
      return link("/entries", "The entries of the last days");
    case Action::take_back:
    case Action::void_entry:
    case Action::replace_or_again:
      return link(path_of("/correct/", word("entry")), "Entry " + word("entry") + ": put it right");
    case Action::list_vehicles:
    case Action::use_book:
      return link("/", "Cars");
    case Action::show_budget:
    case Action::show:
      return tag.empty() ? Html() : link(path_of("/car/", tag), tag);
    case Action::tray:
      return link("/tray", "Tray");
    case Action::write_off:
    case Action::no_more_comes:
      return tag.empty() ? Html() : link(path_of("/car/", tag, "/more"), "More of " + tag);
    case Action::keep_appraisal:
    case Action::give_courses_or_keep_appraisal:
      return html("<p>{}</p>", "An appraisal is kept from its job file, at the prompt.");
    case Action::allow_again:
    case Action::allow_again_in_file:
    case Action::allow_new_name:
      return html("<p>{}</p>", "Send it again with that chosen.");
    case Action::owe_instead:
      return html("<p>{}</p>", "What is paid later: choose 'on account'.");
    case Action::add_comparables:
    case Action::count_stock:
    case Action::list_comparable_columns:
    case Action::list_comparables:
    case Action::list_receipt_columns:
    case Action::list_stock:
    case Action::look_at_health:
    case Action::look_back:
    case Action::look_back_or_give_courses:
    case Action::mend:
    case Action::name_another_book:
    case Action::name_supplier:
    case Action::restore:
    case Action::start_book:
      return {};
  }
  return {};
}

}  // namespace nonrunner::page
