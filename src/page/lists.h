// What a field of a form offers of what the book knows already, so that it is chosen and not typed.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "answers/budget.h"
#include "page/frame.h"
#include "page/visit.h"

namespace nonrunner::page {

using Choices = std::vector<std::pair<std::string, std::string>>;  // value, words

// Cars that something can still be booked on: owned first, then those that are looked at.
std::vector<std::string> cars_at_hand(const Visit&);
// The car that is meant most likely: of the query (`car`), of this person's clock, the one last worked on of those at hand.
std::string likely_car(const Visit&);
// "Your clock", "The owner's clock", "ann's clock", to whoever looks at the page.
std::string whose_clock(const Visit&, const std::string& worker);
Html car_field(const std::vector<std::string>& cars, const std::string& chosen,
               const std::string& name = "vehicle");

// The purse that the event goes through most likely; empty: nothing says which.
std::string likely_purse(const book::Book&, const std::string& event, const std::string& supplier);
Html purse_choice(const book::Book&, const std::string& name, const std::string& chosen);

// A text field with words to choose from; `list` is the id of its list on this page.
Html suggested_field(const std::string& name, const std::string& label, const std::string& list,
                     const std::string& value = "", const std::string& hint = "", Need = Need::may);
Html suggestions(const std::string& list, const Choices&);

Choices open_lines(const answers::Budget&);  // name, "4 starter, 45.00"; what is certain first
Choices open_work(const answers::Budget&);   // name, "9 strip"
// Of every car at hand, its tag before the words; with the lines what was bought lately.
Choices offered_lines(const Visit&);
Choices offered_work(const Visit&);

// Left empty it is today, of whoever sends it: a page that was opened yesterday must not say so.
Html another_day();
Html photo_field();  // the camera at once
// A photograph that is kept; its part of the page scrolls, by keys too.
Html photo_pane(const std::string& sha256, const std::string& about);
// A photograph for an entry that is there.
Html photo_form(const std::string& entry, const std::string& next);

// Two buttons, for hours and what else may end a line: "Keep" and "Keep, done".
Html two_buttons(const std::string& keep);
// A form like form() with buttons of its own.
Html form_with(const std::string& action, const Html& fields, const Html& buttons);

}  // namespace nonrunner::page
