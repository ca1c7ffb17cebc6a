// An entry put right: a form with what it holds, of which only what was changed is put right; or taken back.
#include "book/events/correct.h"

#include <fmt/format.h>

#include <algorithm>

#include "answers/links.h"
#include "answers/taken_back.h"
#include "book/events/attach.h"
#include "book/events/void_entry.h"
#include "book/ledger/event_text.h"
#include "book/ledger/marks.h"
#include "book/questions/journal.h"
#include "page/entry.h"
#include "page/form_event.h"
#include "page/lists.h"
#include "page/rooms.h"
#include "text/tag.h"
#include "text/typed_hours.h"
#include "text/typed_numbers.h"
#include "words/days.h"

namespace nonrunner::page {

namespace {

// What of an entry can be put right, as it stands; absent: it has no such thing.
struct Held {
  book::EntryId entry = 0;
  std::string kind;
  std::optional<std::string> vehicle, amount, purse, what, under;
  bool is_money = true;  // the amount: not hours, pieces, a distance
  Day day;
  std::vector<std::pair<std::string, std::string>> lines;  // of a paper with several: id, words
};

std::optional<std::string> text_at(const Value& value, std::initializer_list<const char*> keys) {
  for (const char* key : keys)
    if (const Value* found = value.find(key);
        found && (found->kind == Value::Kind::text || found->kind == Value::Kind::whole ||
                  found->kind == Value::Kind::real))
      return found->text;
  return std::nullopt;
}

// The line of a paper that is meant: the only one, or the one of that id.
void take_line(const Value& lines, const std::string& id, const Currency& currency, Held& held) {
  for (const Value& line : lines.items) {
    const std::string name = text_at(line, {"id"}).value_or("");
    if (lines.items.size() > 1)
      held.lines.emplace_back(name, text_at(line, {"what"}).value_or("") + ", " +
                                        text_at(line, {"to"}).value_or("several cars, or none"));
    if (lines.items.size() > 1 && name != id) continue;
    held.vehicle = text_at(line, {"to"});
    held.what = text_at(line, {"what"});
    held.under = text_at(line, {"for"}).value_or("");
    held.amount = text_at(line, {"amount"});
    if (held.amount) held.amount = Money::parse(*held.amount, currency).plain(currency);
    if (const auto unit = text_at(line, {"unit"})) {
      const auto pieces = text_at(line, {"qty"});
      held.amount = Price::parse(*unit, currency)
                        .times(pieces ? Quantity::parse(*pieces) : Quantity::of(1000))
                        .plain(currency);
    }
  }
}

Held held_by(const Visit& visit, const std::string& number, const std::string& line) {
  const auto entry_number = typed_entry(number);
  if (!entry_number) throw Refusal("correct: found \"" + number + "\", expected the number of an entry");
  const book::Entry entry = book::load_entry(visit.book, *entry_number);
  const Value kept = book::kept_event(entry.event);
  const Value& event = *kept.find("e");
  Held held;
  held.entry = entry.id;
  held.kind = entry.kind;
  const Value* day = event.find("date");
  held.day = day && day->kind == Value::Kind::day ? day->day : entry.day;
  if (const Value* paid = event.find("paid"); paid && paid->kind == Value::Kind::table) {
    if (paid->entries.size() == 1) held.purse = paid->entries.front().first;
  } else {
    held.purse = text_at(event, {"purse"});
  }
  if (const Value* lines = event.find("line"); entry.kind == "receipt" && lines) {
    take_line(*lines, line, visit.book.currency(), held);
    return held;
  }
  held.vehicle = text_at(event, {entry.kind == "transfer" ? "to" : "vehicle"});
  held.what = text_at(event, {"what", "operation", "text", "why", "name"});
  held.amount =
      text_at(event, {"amount", "price", "own", "paid", "still_brings", "distance", "qty", "goods"});
  held.is_money =
      (event.find("amount") || event.find("price") || event.find("goods")) && entry.kind != "hours";
  if (held.amount && held.is_money)
    held.amount = Money::parse(*held.amount, visit.book.currency()).plain(visit.book.currency());
  const bool stands_somewhere = entry.kind == "hours" || entry.kind == "transfer" || entry.kind == "draw";
  if (held.vehicle && stands_somewhere) held.under = text_at(event, {"for"}).value_or("");
  return held;
}

Html lines_to_choose(const Held& held) {
  if (held.lines.empty()) return {};
  Html links;
  for (const auto& [id, words] : held.lines)
    links += html("<li><a href=\"{}?line={}\">{}: {}</a></li>\n",
                  path_of("/correct/", std::to_string(held.entry)), path_of("", id), id, words);
  return html("<h2>Which line?</h2>\n<ul>\n{}</ul>\n", links);
}

Html under_field(const Visit& visit, const Held& held) {
  if (!held.vehicle || !held.under) return {};
  Choices lines{{"", "by its own name"}, {book::under_none, "under no line"}};
  for (const answers::LineName& name : answers::line_names(visit.book, *held.vehicle))
    if (name.is_hours == (held.kind == "hours"))
      lines.emplace_back(name.name, fmt::format("{} {}", name.number, name.name));
  return lines.size() == 2 ? Html() : choice("for", "line of the budget", lines, *held.under);
}

Html fields_of(const Visit& visit, const Held& held) {
  Html fields;
  if (held.vehicle) fields += car_field(cars_at_hand(visit), *held.vehicle);
  if (held.amount)
    fields += money_field("amount", held.kind == "hours" ? "own hours" : "amount", *held.amount);
  if (held.what) fields += field("what", "what it was", *held.what);
  if (held.purse) fields += purse_choice(visit.book, "purse", *held.purse);
  fields += under_field(visit, held);
  return fields + field("date", "day", held.day.iso(), "date");
}

Html pictures_of(const Visit& visit, book::EntryId entry) {
  Html pictures;
  for (const book::Photo& photo : book::photos_of(visit.book, entry))
    pictures += photo_pane(photo.sha256, fmt::format("photo of entry {}", entry));
  return pictures;
}

// A sale that falls through is no slip of the pen: which of both has to be said, where it makes a difference.
Html standing_of(const Visit& visit, book::EntryId entry) {
  const auto question = answers::question_of_standing(visit.book, entry, visit.today);
  if (!question) return {};
  Html ways;
  for (const answers::Choice& choice : question->choices)
    ways += html(
        "<label class=\"tick\"><input type=\"radio\" name=\"standing\" value=\"{}\" required> {}</label>\n",
        choice.option, choice.words);
  return html("<fieldset>\n<legend>{}?</legend>\n{}</fieldset>\n", question->words, ways);
}

Answer form_of(const Visit& visit, const Held& held, const std::string& line, const std::string& reason) {
  const std::string number = std::to_string(held.entry);
  const Html said = reason.empty() ? Html() : html("<p class=\"reason\" role=\"alert\">{}</p>\n", reason);
  const Html put = html("<form method=\"post\" action=\"{}\">\n{}{}<button>Put it right</button>\n</form>\n",
                        path_of("/correct/", number), line.empty() ? Html() : hidden("line", line),
                        fields_of(visit, held));
  const Html back =
      html("<details class=\"detail\"><summary>Take it back</summary>\n{}</details>\n",
           form("/entry",
                hidden("do", "void") + hidden("next", "/entries") + hidden("entry", number) +
                    field("why", "why", "", "text", "", Need::must) + standing_of(visit, held.entry),
                "Take it back"));
  Answer answer =
      page(visit, fmt::format("Entry {}, {} of {}", number, held.kind, words::shown_day(held.day)),
           said + lines_to_choose(held) + put + back + pictures_of(visit, held.entry) +
               (held.vehicle ? photo_form(number, path_of("/correct/", number)) : Html()));
  if (!reason.empty()) answer.status = 422;
  return answer;
}

// As an event has it: hours as 1:30 too, all else with a decimal comma or a point.
std::string amount_typed(const Held& held, const std::string& typed, const Currency& currency) {
  if (held.kind == "hours") return typed_hours(typed).shown();
  const std::string number = number_as_in_file(typed);
  if (held.is_money) expect_money_of_one_reading(number, currency, "amount");
  if (number.find_first_not_of("0123456789.-") != std::string::npos)
    throw Refusal("amount: found \"" + typed + "\", expected a number");
  return number;
}

Day day_typed(const std::string& typed) {
  try {
    return Day::parse(typed);
  } catch (const Refusal& refusal) {
    throw Refusal(std::string("day: ") + refusal.what());
  }
}

// Only what was changed.
book::Correction correction_of(const Visit& visit, const Held& held, const Form& form) {
  book::Correction correction;
  correction.entry = held.entry;
  const auto changed = [&](const char* key, const std::optional<std::string>& was) {
    return form.has(key) && !form.get(key).empty() && form.get(key) != was.value_or("");
  };
  if (changed("vehicle", held.vehicle)) correction.vehicle = as_tag(form.get("vehicle"));
  if (changed("purse", held.purse)) correction.purse = form.get("purse");
  if (changed("what", held.what)) correction.what = form.get("what");
  if (changed("for", held.under)) correction.under = form.get("for");
  const Currency& currency = visit.book.currency();
  if (changed("amount", held.amount) && amount_typed(held, form.get("amount"), currency) != held.amount) {
    correction.amount = amount_typed(held, form.get("amount"), currency);
    // The same amount, written otherwise, is no change.
    if (held.kind == "receipt" && held.amount &&
        Money::parse(*correction.amount, currency) == Money::parse(*held.amount, currency))
      correction.amount.reset();
  }
  if (form.has("date") && !form.get("date").empty())
    if (const Day day = day_typed(form.get("date")); day != held.day) correction.day = day;
  correction.paper_line = form.get("line");
  return correction;
}

}  // namespace

Answer rooms::correct(Visit& visit) {
  const std::string line = visit.request.query.get("line");
  const Held held = held_by(visit, visit.tag(), line);
  Answer answer = form_of(visit, held, line, "");
  return answer;
}

Answer rooms::put_right(Visit& visit) {
  const Form& form = visit.request.form;
  const std::string line = form.get("line");
  const Held held = held_by(visit, visit.tag(), line);
  std::vector<std::string> remarks;
  try {
    book::Corrected corrected;
    record_here(
        visit,
        [&](book::Recording& recording) {
          corrected = book::correct(recording, correction_of(visit, held, form));
          return corrected.entry;
        },
        remarks, false);
    if (!corrected.carried.empty()) {
      std::string said = "Carried along:";
      for (const book::EntryId entry : corrected.carried) said += fmt::format(" entry {}", entry);
      remarks.push_back(said);
    }
    return entered(visit, corrected.entry, way_of(form, "/entries"), remarks);
  } catch (const Refusal& refusal) {
    Held typed = held;
    if (form.has("amount")) typed.amount = form.get("amount");
    if (form.has("what")) typed.what = form.get("what");
    return form_of(visit, typed, line, refusal.what());
  }
}

}  // namespace nonrunner::page
