// What else happens to a car: a part to another one or to the shelf, sold off it, to pieces, from the shelf, a trip, a
// note, a photograph. Each form is made from the fields of its event, filled with what the book knows.
#include <fmt/format.h>

#include <array>

#include "book/events/post.h"
#include "book/ledger/names.h"
#include "book/questions/journal.h"
#include "page/entry.h"
#include "page/lists.h"
#include "page/rooms.h"

namespace nonrunner::page {

namespace {

struct Offered {
  const char* event;
  const char* words;
  const char* own_car;  // the key under which this car stands
};
constexpr std::array<Offered, 10> offered{{{"finding", "A note", "vehicle"},
                                           {"trip", "A trip", "vehicle"},
                                           {"transfer", "A part to another car", "from"},
                                           {"shelve", "A part to the shelf", "vehicle"},
                                           {"draw", "From the shelf", "vehicle"},
                                           {"recover", "A part sold off it, scrap", "vehicle"},
                                           {"recover back", "Money given back for such a part", "vehicle"},
                                           {"part out", "It goes to pieces", "vehicle"},
                                           {"write off", "It is finished: the rest is its loss", "vehicle"},
                                           {"pass", "It was left to others", "vehicle"}}};

Choices lines_of_car(const Visit& visit) {
  Choices all{{"", "none"}};
  for (const book::Line& line : book::lines_of(visit.book, visit.tag()))
    all.emplace_back(line.id, line.id + ", " + line.what);
  return all;
}

Html text_field(const Visit& visit, const book::Described& field_of, const std::string& event,
                const std::string& list) {
  const std::string label =
      field_of.need == book::Need::must ? field_of.means : field_of.means + " (may be left out)";
  const Need need = field_of.need == book::Need::must ? Need::must : Need::may;
  switch (field_of.text) {
    case book::Text::tag:
      return suggested_field(field_of.key, label, list + "-cars", "", "", need);
    case book::Text::purse:
      return purse_choice(visit.book, field_of.key, likely_purse(visit.book, event, ""));
    case book::Text::line:
      return choice(field_of.key, label, lines_of_car(visit));
    case book::Text::item:
      return suggested_field(field_of.key, label, list + "-shelf", "", "", need);
    case book::Text::choice: {
      Choices words{{"", ""}};
      for (const std::string& word : field_of.choices) words.emplace_back(word, word);
      return choice(field_of.key, label, words);
    }
    case book::Text::words:
    case book::Text::supplier:
    case book::Text::name:
    case book::Text::operation:
    case book::Text::file:
      break;
  }
  return field(field_of.key, label, "", "text", "", need);
}

Html one_field(const Visit& visit, const book::Described& field_of, const std::string& event,
               const std::string& list) {
  const std::string label =
      field_of.need == book::Need::must ? field_of.means : field_of.means + " (may be left out)";
  const Need need = field_of.need == book::Need::must ? Need::must : Need::may;
  using book::Holds;
  switch (field_of.holds) {
    case Holds::day:
      return field(field_of.key, label, "", "date", "", need);
    case Holds::flag:
      return choice(field_of.key, label, {{"", ""}, {"true", "yes"}, {"false", "no"}});
    case Holds::money:
    case Holds::price:
    case Holds::quantity:
    case Holds::hours:
    case Holds::distance:
      return money_field(field_of.key, label, "", need);
    case Holds::texts:
    case Holds::amounts:
    case Holds::shares:
    case Holds::rows:
      return {};  // what is chosen from the appraisal has a room of its own
    case Holds::text:
    case Holds::entry:
    case Holds::fraction:
      break;
  }
  return text_field(visit, field_of, event, list);
}

Html form_of(const Visit& visit, const Offered& each, std::size_t number) {
  const std::string list = "list" + std::to_string(number);
  Html fields = hidden("do", each.event) + hidden("next", path_of("/car/", visit.tag())) +
                hidden(each.own_car, visit.tag());
  for (const book::EventWord& word : book::events_described()) {
    if (word.name != each.event) continue;
    for (const book::Described& field_of : word.fields)
      // What may be there already is asked about once it is.
      if (field_of.key != "date" && field_of.key != "again" && field_of.key != each.own_car)
        fields += one_field(visit, field_of, each.event, list);
  }
  Choices cars, shelf;
  for (const std::string& tag : cars_at_hand(visit))
    if (tag != visit.tag()) cars.emplace_back(tag, "");
  for (const std::string& item : book::names_of(visit.book, book::account::stock))
    shelf.emplace_back(item, "");
  fields += field("date", "another day than today", "", "date") + suggestions(list + "-cars", cars) +
            suggestions(list + "-shelf", shelf);
  return html("<details class=\"detail\"><summary>{}</summary>\n{}</details>\n", each.words,
              form("/entry", fields, "Keep"));
}

// A note whose photograph is what matters.
Html note_with_photo(const Visit& visit) {
  return html(
      "<details class=\"detail\"><summary>A photograph</summary>\n{}</details>\n",
      form("/entry",
           hidden("do", "finding") + hidden("next", path_of("/car/", visit.tag())) +
               hidden("vehicle", visit.tag()) + photo_field() + field("text", "what it shows", "photograph"),
           "Keep"));
}

}  // namespace

Answer rooms::more(Visit& visit) {
  book::know_vehicle(visit.book, "more", visit.tag());
  Html forms = what_was_entered(visit) + note_with_photo(visit);
  for (std::size_t i = 0; i < offered.size(); ++i) forms += form_of(visit, offered[i], i);
  return page(visit, "More of " + visit.tag(),
              forms + html("<p><a href=\"{}\">{}</a></p>\n", path_of("/car/", visit.tag()), visit.tag()));
}

}  // namespace nonrunner::page
