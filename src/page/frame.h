// What is around every page: its head, the way between the rooms, the line of what is not in the book yet.
#pragma once
#include <string>
#include <string_view>

#include "page/visit.h"

namespace nonrunner::page {

// A whole page. `title` is also its only h1, unless `content` brings its own (`own_heading`).
Answer page(const Visit&, const std::string& title, const Html& content, bool own_heading = false);

// A form that changes something: posts to `action`, carries the id by which it is kept once however often it is
// sent, and ends in one button.
Html form(const std::string& action, const Html& fields, const std::string& button);
// The same form once more, with the id that it had and a button to keep it.
Html form_again(const std::string& action, const Form& before, const Html& fields);
// 32 hexadecimal digits that nobody had before, by which an entry is kept once.
std::string fresh_id();

// What is opened by a tap on its summary.
Html folded(const std::string& summary, const Html& content);
Html hidden(const std::string& name, const std::string& value);
// Whether a form can be sent without it: the browser says so before anything is sent.
enum class Need { may, must };
Html required(Need);
// A labelled field; its label is visible. `type`: text, number, date, search ...; `hint` stands below it.
Html field(const std::string& name, const std::string& label, const std::string& value = "",
           const std::string& type = "text", const std::string& hint = "", Need = Need::may);
// Digits with a decimal point, asked for by the phone's number pad.
Html money_field(const std::string& name, const std::string& label, const std::string& value = "",
                 Need = Need::may);
Html choice(const std::string& name, const std::string& label,
            const std::vector<std::pair<std::string, std::string>>& values, const std::string& chosen = "");

// The same as a list of which one is tapped, where a hand has to be quick: one tap, not two.
Html one_of(const std::string& name, const std::string& label,
            const std::vector<std::pair<std::string, std::string>>& values, const std::string& chosen = "");

// A table with its caption and headings; the first column's cells are headings of their rows. A cell that starts
// with a digit or a minus stands to the right.
Html table(const std::string& caption, const std::vector<std::string>& headings,
           const std::vector<std::vector<Html>>& rows);

// "/car/PART/job" with the part encoded as a path wants it.
std::string path_of(std::string_view before, std::string_view part, std::string_view after = "");

}  // namespace nonrunner::page
