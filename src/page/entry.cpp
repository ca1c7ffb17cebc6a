#include "page/entry.h"

#include <fmt/format.h>

#include <algorithm>

#include "answers/appraise.h"
#include "answers/entering.h"
#include "answers/made_ready.h"
#include "answers/purse.h"
#include "book/events/attach.h"
#include "book/events/clock.h"
#include "book/events/post.h"
#include "book/events/typed.h"
#include "book/ledger/kept.h"
#include "book/ledger/marks.h"
#include "book/questions/entry_now.h"
#include "book/questions/figures.h"
#include "book/questions/journal.h"
#include "exact/hint.h"
#include "page/form_event.h"
#include "page/hints.h"
#include "page/paper.h"
#include "page/rooms.h"
#include "text/typed_hours.h"
#include "text/typed_numbers.h"
#include "words/appraise_for_book.h"
#include "words/days.h"
#include "words/ending.h"
#include "words/entered.h"
#include "words/finding.h"
#include "words/paper_places.h"
#include "words/purse.h"

namespace nonrunner::page {

namespace {

// The hidden fields of a form that is sent once more, as it was.
Html as_it_was(const Form& form) {
  Html fields;
  for (const auto& [name, value] : form.fields)
    if (name != "kept" || value != kept_id(form)) fields += hidden(name, value);
  return fields;
}

// A question with a button for each answer; what was typed goes along. The last way is to leave it.
Answer asked(const Visit& visit, const Form& form, const answers::Question& question) {
  Html buttons;
  for (const answers::Choice& choice : question.choices)
    if (!choice.option.empty())
      buttons += html("<button name=\"{}\" value=\"{}\">{}</button>\n", choice.option,
                      choice.value.empty() ? "true" : choice.value, choice.words);
  const Html leave = html("<a class=\"choice\" href=\"{}\">leave it out</a>\n", way_of(form, "/"));
  return page(visit, "One question",
              html("<form method=\"post\" action=\"/entry\" data-kept class=\"ask\">\n{}{}"
                   "<p>{}?</p>\n<p class=\"choices\">\n{}</p>\n<p>{}</p>\n</form>\n",
                   hidden("kept", kept_id(form).empty() ? fresh_id() : kept_id(form)), as_it_was(form),
                   question.words, buttons, leave));
}

// The label of a field of the event: as the forms call it, else as its description does.
std::string label_of(const Form& form, const std::string& key) {
  if (const std::string called = label_of_key(key); !called.empty()) return called;
  for (const book::EventWord& word : book::events_described()) {
    if (word.name != form.get("do")) continue;
    const std::size_t dot = key.find('.');
    for (const book::Described& field : word.fields) {
      if (field.key == key) return field.means;
      if (dot == std::string::npos || field.key != key.substr(0, dot)) continue;
      const std::string rest = key.substr(dot + 1), number = rest.substr(0, rest.find('.'));
      for (const book::Described& row : field.rows)
        if (rest == number + "." + row.key)
          return (form.get("itemised") == "false" ? "" : key.substr(0, dot) + " " + number + ", ") +
                 (label_of_key(row.key).empty() ? row.means : label_of_key(row.key));
      return field.means + ": " + rest;
    }
  }
  return key;
}

// The place of a form is its page: it stands before no message.
std::string without_place(std::string text) {
  for (const char* place : {"form:0: ", "form: ", "the event: "})
    if (text.starts_with(place)) text.erase(0, std::string(place).size());
  return text;
}

// `"commission" in the event "sell" is -3, expected ...`: what the reader of events finds in a key that has no label of
// its own there.
std::string key_by_label(const Form& form, const std::string& text) {
  const std::size_t key_end = text.find('"', 1), is = text.find(" is ");
  const bool names_key = text.starts_with('"') && key_end != std::string::npos && is != std::string::npos &&
                         text.compare(key_end, 15, "\" in the event ") == 0;
  return names_key ? label_of(form, text.substr(1, key_end - 1)) + ": found " + text.substr(is + 4) : text;
}

// `the event has no "operation", expected a text in quotes`: what the reader of events misses, by the label that the
// form gives it. Whatever else was refused comes back as it is.
std::string in_words_of_form(const Form& form, const std::string& refused) {
  const std::string text = key_by_label(form, without_place(refused));
  constexpr std::string_view has_no = " has no \"", expected = "\", expected ";
  const std::size_t at = text.find(has_no);
  const std::size_t end = at == std::string::npos ? at : text.find(expected, at);
  if (end == std::string::npos) return text;
  const std::string of = text.substr(0, at),
                    missed = text.substr(at + has_no.size(), end - at - has_no.size());
  std::string key = missed;
  if (const std::size_t in = of.rfind(" in "); of.starts_with("{") && in != std::string::npos)
    key = of.substr(in + 4) + ".1." + missed;
  else if (!of.starts_with("the event") && of != "the form")
    return text;
  const std::string kind = text.substr(end + expected.size());
  return label_of(form, key) + ": nothing is said, expected " +
         (kind == "a text in quotes" ? "a few words" : kind);
}

// A refusal that is read on a page or a phone, its way out in words where it ends in the middle.
std::string said_of(const Form& form, const Refusal& refusal) {
  const std::string said = in_words_of_form(form, refusal.what());
  const auto* more = dynamic_cast<const Hinted*>(&refusal);
  if (!more || more->hint().action != Action::take_back) return said;
  return said + " open entry " + more->hint().with.at("entry");
}

// What the book refused, with the form filled as it was.
Answer sent_back(const Visit& visit, const Form& form, const std::string& reason, const Html& way) {
  Html fields;
  for (const auto& [name, value] : form.fields) {
    if (name == "kept" && value == kept_id(form)) continue;
    fields += name == "do" || name == "next" || name == "new" || name == "tests_seen" ||
                      name == "decided_by" || name == "standing" || name == "never_was" || name == "later" ||
                      name == "long_day"
                  ? hidden(name, value)
                  : field(name, label_of(form, name), value);
  }
  Answer answer = page(visit, "That does not go",
                       html("<p class=\"reason\" role=\"alert\">{}</p>\n{}", reason, way) +
                           form_again("/entry", form, fields));
  answer.status = 422;
  return answer;
}

// By which appraisal a car was bought or left, and what tests have shown before that, goes in with it.
void keep_what_decided(book::Recording& recording, const Form& form, const Value& event,
                       book::EntryId entry) {
  const std::string tag = form.get("vehicle"), by = form.get("decided_by");
  const book::EntryId bought_by = form.get("do") == "buy" ? entry : 0;
  if (const std::string said = by.empty() ? "" : answers::decide_by(recording, tag, by, bought_by);
      !said.empty())
    recording.remarks().push_back(said);
  std::vector<std::string> outcomes;
  for (const auto& [name, value] : form.fields)
    if (name == "tests_seen" && !value.empty()) outcomes.push_back(value);
  const Value* date = event.find("date");
  const Day on = date && date->kind == Value::Kind::day ? date->day : recording.today();
  if (!outcomes.empty()) answers::keep_seen(recording, tag, on, outcomes);
}

// What the cause that a form notes does to the one noted before.
std::optional<answers::OtherCause> other_cause_of(const book::Recording& recording, const Form& form,
                                                  const answers::Entering& entering) {
  if (form.get("do") != "finding" || form.get("cause").empty()) return std::nullopt;
  const Day day = Table(entering.event, "form", "the form").day("date");
  return answers::other_cause(
      recording.book(),
      {day, form.get("vehicle"), form.get("text"), {{book::fact::cause, form.get("cause"), ""}}});
}

// The entry, as far as it goes before it is kept.
book::EntryId put_in(book::Recording& recording, const Form& form, const answers::Entering& entering) {
  recording.wary = true;
  Value event = entering.event;
  if (const std::string id = kept_id(form); !id.empty()) {
    Value kept;
    kept.kind = Value::Kind::text;
    kept.text = id + " " + sent_hash(form);
    event.entries.emplace_back("kept_as", kept);
  }
  answers::take_places(recording, Table(event, "form", "the form").day("date"), entering.also_replaced);
  const bool is_advert = form.get("do") == "advertised";
  const std::string tag = form.get("vehicle");
  const auto open =
      is_advert ? answers::open_in_budget(recording.book(), tag) : std::vector<answers::StillOpen>{};
  const auto apart = answers::pieces_apart(recording.book(), entering);
  const auto other_cause = other_cause_of(recording, form, entering);
  const book::EntryId entry = book::record_event(recording, Table(event, "form", "the form"), "/nonexistent",
                                                 words::appraise_for_book(recording.book()));
  if (is_advert)
    for (const std::string& said :
         words::in_words(answers::made_ready(recording.book(), tag, open), recording.currency()))
      recording.remarks().push_back(said);
  if (other_cause) recording.remarks().push_back(words::in_words(*other_cause, recording.currency()));
  for (const answers::PiecesApart& each : apart)
    recording.remarks().push_back(words::in_words(each) +
                                  (each.may_be_all ? "; if these are all of them, its line is done"
                                                   : "; what is over can go to the shelf"));
  keep_what_decided(recording, form, entering.event, entry);
  return entry;
}

// What cannot be is said before anything is asked: it is recorded as where nobody is there to be asked, and not kept.
// What a question would settle is no reason.
void expect_possible(Visit& visit, const Form& form, answers::Entering entering) {
  try {
    answers::settle_unasked(visit.book, entering);
    book::Recording recording(visit.book, visit.now, visit.today);
    recording.strict_words = false;
    put_in(recording, form, entering);
  } catch (const Refusal& refusal) {
    const auto* more = dynamic_cast<const Hinted*>(&refusal);
    const bool may_be_asked = more && (more->hint().action == Action::allow_again ||
                                       more->hint().action == Action::allow_new_name ||
                                       more->hint().action == Action::replace_or_again);
    if (!may_be_asked) throw;
  }
}

// With what follows it: the photographs of the quick lines whose place it takes, and which entry it may be the same as.
// In the same recording: sent again after a power cut it would be there already, and never be asked about.
book::EntryId put_in_whole(book::Recording& recording, const Form& form, const answers::Entering& entering,
                           std::optional<book::EntryId> like = {}) {
  recording.new_words = entering.new_words;
  const book::EntryId entry = put_in(recording, form, entering);
  for (const book::EntryId other : entering.also_replaced) book::photos_follow(recording, other, entry);
  if (like) book::say_may_be(recording, form.get("kept"), like);
  return entry;
}

book::EntryId record_entering(Visit& visit, const Form& form, const answers::Entering& entering,
                              std::vector<std::string>& remarks) {
  return record_here(
      visit, [&](book::Recording& recording) { return put_in_whole(recording, form, entering); }, remarks,
      false);
}

// The clock is no event: it stands in the book until it is stopped, and is hours then.
std::optional<book::EntryId> clock_entry(Visit& visit, const Form& form, std::vector<std::string>& remarks) {
  const std::string what = form.get("do");
  if (what != "clock on" && what != "clock off") return std::nullopt;
  const std::string person = visit.request.person.empty() ? "me" : visit.request.person;
  const std::string id = kept_id(form);
  return record_here(
      visit,
      [&](book::Recording& recording) {
        if (!id.empty())
          recording.kept_as = book::KeptAs{id, sent_hash(form), what == "clock on" ? what : "hours"};
        if (what == "clock on") {
          book::start_clock(recording, person, form.get("vehicle"),
                            form.get("operation").empty() ? "work" : form.get("operation"));
          book::keep_id(recording, 0, what);
          return book::EntryId{0};
        }
        std::optional<Hours> hours;
        for (const char* said : {"other_hours", "hours"})  // what was typed stands above what was tapped
          if (!hours && !form.get(said).empty()) hours = typed_hours(form.get(said));
        const std::string day = form.get("day");
        std::string operation = form.get("operation");
        for (const book::Clock& clock : book::clocks(visit.book))
          if (clock.worker == person && !form.get("done").empty())
            recording.marks.push_back(
                {clock.vehicle, book::says::done, operation.empty() ? clock.operation : operation});
        return book::stop_clock(recording, person, day.empty() ? visit.today : Day::parse(day), hours,
                                operation);
      },
      remarks, false);
}

// A photograph for an entry that is there: nothing is entered, but the id belongs to that entry from here on, and the
// photograph that follows under it (photo.cpp) goes to it.
std::optional<book::EntryId> photo_of_entry(Visit& visit, const Form& form,
                                            std::vector<std::string>& remarks) {
  if (form.get("do") != "photo") return std::nullopt;
  const std::string typed = form.get("entry");
  const auto number = typed_entry(typed);
  if (!number) throw Refusal("photo: found the entry \"" + typed + "\", expected its number");
  const book::EntryId entry = book::load_entry(visit.book, *number).id;
  const std::string id = kept_id(form);
  record_here(
      visit,
      [&](book::Recording& recording) {
        if (!id.empty()) recording.kept_as = book::KeptAs{id, sent_hash(form), "photo"};
        book::keep_id(recording, entry, "photo");
        return entry;
      },
      remarks);
  return entry;
}

// What there is of this id already: there already, or a conflict.
std::optional<book::Kept> kept_before(const Visit& visit, const std::string& id) {
  return id.empty() ? std::nullopt : book::kept_as(visit.book, id);
}

std::string said_of_kept(const book::Kept& kept) {
  return std::string("in the book") + (kept.taken_back ? ", taken back since" : "");
}

std::string car_of(const Form& form) {
  for (const char* key : {"vehicle", "to", "from", "line.1.to"})
    if (const std::string tag = form.get(key); !tag.empty() && tag != "tools" && tag != "overhead")
      return tag;
  return "";
}

std::string way_after(const Form& form) {
  const std::string car = car_of(form);
  return way_of(form, car.empty() ? "/" : path_of("/car/", car));
}

std::vector<std::string> left_below_nothing(const book::Book& book, book::EntryId entry) {
  return words::below_nothing(answers::overdrawn(book, entry), book.currency());
}

Answer record_form(Visit& visit, const Form& form) {
  expect_on_page(form);
  std::vector<std::string> remarks;
  if (const auto entry = photo_of_entry(visit, form, remarks)) return see_other(way_of(form, "/tray"));
  if (const auto entry = clock_entry(visit, form, remarks))
    return entered(visit, *entry, way_of(form, "/hours"), remarks);
  answers::Entering entering = entering_of(visit.book, form, visit.today);
  const answers::Entering as_given = entering;
  if (const auto question = answers::to_ask(visit.book, entering, visit.today)) {
    expect_possible(visit, form, as_given);
    return asked(visit, form, *question);
  }
  try {
    const book::EntryId entry = record_entering(visit, form, entering, remarks);
    return entered(visit, entry, way_after(form), remarks);
  } catch (const Refusal& refusal) {
    const auto* more = dynamic_cast<const Hinted*>(&refusal);
    if (!more || more->hint().action != Action::allow_new_name) throw;
    const std::string& name = more->hint().with.at("name");
    if (entering.new_words.contains(name)) throw;
    return asked(visit, form, answers::is_it_new(without_place(refusal.what()), name));
  }
}

Answer as_json(int status, const std::string& state, book::EntryId entry, const std::string& message) {
  Answer answer;
  answer.status = status;
  answer.type = "application/json";
  answer.body = words::entered_as_json(state, entry, message);
  return answer;
}

}  // namespace

std::string way_of(const Form& form, const std::string& otherwise) {
  const std::string way = form.get("next");
  // A path of this house: "//other.house" would be another one.
  const bool ours = way.starts_with("/") && !way.starts_with("//") && way.find('\\') == std::string::npos &&
                    std::none_of(way.begin(), way.end(),
                                 [](char c) { return static_cast<unsigned char>(c) <= 0x20 || c == 0x7f; });
  return ours ? way : otherwise;
}

book::EntryId record_here(Visit& visit, const std::function<book::EntryId(book::Recording&)>& act,
                          std::vector<std::string>& remarks, bool names_are_new) {
  book::Recording recording(visit.book, visit.now, visit.today);
  recording.typed_by = visit.request.device;
  recording.strict_words = !names_are_new;
  const book::EntryId before = book::last_entry(visit.book);
  const book::EntryId entry = act(recording);
  book::remember_typed(recording, before);
  recording.keep();
  for (const std::string& remark : recording.remarks()) remarks.push_back(without_place(remark));
  return entry;
}

Answer entered(const Visit& visit, book::EntryId entry, const std::string& path,
               const std::vector<std::string>& remarks) {
  const std::string further = entry == 0 ? path
                                         : path + (path.find('?') == std::string::npos ? "?" : "&") +
                                               "entry=" + std::to_string(entry);
  if (remarks.empty()) return see_other(further);
  Html said;
  for (const std::string& remark : remarks) said += html("<p class=\"reason\">{}</p>\n", remark);
  if (entry != 0)
    for (const std::string& below : left_below_nothing(visit.book, entry))
      said += html("<p class=\"reason\">{}</p>\n", below);
  return page(visit, entry == 0 ? "Done" : fmt::format("In the book, entry {}", entry),
              said + html("<p><a href=\"{}\">Go on</a></p>\n", further));
}

std::string said_of(const book::Book& book, book::EntryId entry) {
  const book::Entry loaded = book::load_entry(book, entry);
  return fmt::format("entry {}, {} of {}: {}", entry, loaded.kind, words::shown_day(loaded.day),
                     book::words_for(loaded.event));
}

Html what_was_entered(const Visit& visit) {
  const std::string number = visit.request.query.get("entry");
  const auto entry = typed_entry(number);
  if (!entry || *entry > book::last_entry(visit.book)) return {};
  const book::Entry loaded = book::load_entry(visit.book, *entry);
  std::string more =
      words::amounts_in_words(answers::through_purses(visit.book, *entry), visit.book.currency());
  if (!more.empty()) more = "; " + more;
  if (loaded.day != visit.today) more += "; dated " + words::shown_day(loaded.day);
  for (const book::Waiting& each : book::tray(visit.book))
    if (each.entry == *entry) more += "; it waits in the tray for its paper";
  Html below;
  for (const std::string& said : left_below_nothing(visit.book, *entry)) below += html(" {}.", said);
  return html(
      "<p class=\"said\" role=\"status\">In the book: entry {}, {}: {}{}.{} "
      "<a href=\"{}\">Put it right</a></p>\n",
      number, loaded.kind, book::words_for(loaded.event), more, below, path_of("/correct/", number));
}

namespace rooms {

Answer enter(Visit& visit) {
  const Form& form = visit.request.form;
  if (form.get("do") == "receipt" && form.has("longer")) return paper_page(visit, form, "");
  if (const auto kept = kept_before(visit, kept_id(form))) {
    if (kept->sent == sent_hash(form) || kept->sent.empty()) return see_other(way_after(form));
    Answer answer = page(
        visit, "Sent already",
        html("<p class=\"reason\" role=\"alert\">This form was sent before and is {} as entry {}, with "
             "other content. What is another one starts from a fresh form; what is wrong is put right.</p>\n"
             "<p><a href=\"{}\">Put it right</a></p>\n",
             said_of_kept(*kept), std::to_string(kept->entry),
             path_of("/correct/", std::to_string(kept->entry))));
    answer.status = 409;
    return answer;
  }
  try {
    return record_form(visit, form);
  } catch (const Refusal& refusal) {
    const std::string said = said_of(form, refusal);
    if (visit.request.wants_json) return as_json(422, "refused", 0, said);
    if (form.get("do") == "receipt" && form.has("line.1.what")) return paper_page(visit, form, said);
    const auto* more = dynamic_cast<const Hinted*>(&refusal);
    return sent_back(visit, form, said, more ? way_on(more->hint()) : Html());
  }
}

Answer take_in(Visit& visit) {
  Form form = visit.request.form;
  const std::string& id = visit.stars.front();
  if (!book::is_kept_id(id)) throw Refusal("entry: found another id, expected 32 hexadecimal digits");
  if (kept_id(form) != id) form.fields.insert(form.fields.begin(), {"kept", id});
  if (const auto kept = kept_before(visit, id)) {
    if (kept->sent == sent_hash(form) || kept->sent.empty())
      return as_json(200, "there already", kept->entry, said_of_kept(*kept));
    return as_json(
        409, "refused", kept->entry,
        fmt::format("this id is {} as entry {}, with other content", said_of_kept(*kept), kept->entry));
  }
  std::vector<std::string> remarks;
  try {
    expect_on_page(form);
    if (const auto entry = photo_of_entry(visit, form, remarks))
      return as_json(201, "in the book", *entry, "");
    if (const auto entry = clock_entry(visit, form, remarks))
      return as_json(201, "in the book", *entry, remarks.empty() ? "" : remarks.front());
    answers::Entering entering = entering_of(visit.book, form, visit.today);
    // Until when it counted nobody can say for whoever took it back, and the money differs.
    if (const auto question =
            form.get("do") == "void" ? answers::to_ask(visit.book, entering, visit.today) : std::nullopt)
      throw Refusal(question->words + "? open the entry at home and say it there");
    std::optional<book::EntryId> like;
    std::vector<std::string> below;
    const book::EntryId entry = record_here(
        visit,
        [&](book::Recording& recording) {
          // In the recording itself: nothing like it comes in between, and it is looked for once.
          like = answers::settle_unasked(visit.book, entering);
          recording.likeness_is_settled = true;
          const book::EntryId made = put_in_whole(recording, form, entering, like);
          below = left_below_nothing(visit.book, made);
          return made;
        },
        remarks, true);
    if (like) remarks.insert(remarks.begin(), fmt::format("may be the same as entry {}", *like));
    remarks.insert(remarks.end(), below.begin(), below.end());
    return as_json(201, "in the book", entry, fmt::format("{}", fmt::join(remarks, "; ")));
  } catch (const Refusal& refusal) {
    return as_json(422, "refused", 0, said_of(form, refusal));
  }
}

Answer undo(Visit& visit) {
  const std::string last = visit.request.form.get("last");
  if (!last.empty() && last != std::to_string(book::last_entry(visit.book)))
    throw Refusal(
        "undo: something was entered since this page was shown; look at it again, and take back then");
  book::Undone undone;
  std::vector<std::string> said;
  {
    book::Recording recording(visit.book, visit.now, visit.today);
    recording.typed_by = visit.request.device;
    undone = book::undo_typed(recording);
    recording.keep();
  }
  const auto say = [&](const char* what, const std::vector<book::EntryId>& entries) {
    for (const book::EntryId entry : entries) {
      const book::Entry loaded = book::load_entry(visit.book, entry);
      said.push_back(fmt::format("{} entry {}, {} of {}: {}", what, entry, loaded.kind, loaded.day.iso(),
                                 book::words_for(loaded.event)));
    }
  };
  say("taken back:", undone.taken_back);
  say("as it was, now", undone.made_again);
  return entered(visit, 0, "/entries", said);
}

}  // namespace rooms

}  // namespace nonrunner::page
