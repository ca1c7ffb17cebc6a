#include "answers/entering.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "answers/doubles.h"
#include "answers/paper_places.h"
#include "answers/placing.h"
#include "answers/purse.h"
#include "answers/taken_back.h"
#include "book/events/fields.h"
#include "book/events/post.h"
#include "book/events/void_entry.h"
#include "book/ledger/names.h"
#include "book/questions/alike.h"
#include "exact/ends.h"
#include "text/made_value.h"
#include "text/typed_numbers.h"

namespace nonrunner::answers {

namespace {

// The event without what it says of the budget and of its id, to be read.
template <class Event>
Event read_event(const book::Book& book, const Entering& entering) {
  Value bare = entering.event;
  const bool is_receipt = text_at(bare, "do") == "receipt";
  std::erase_if(bare.entries, [&](const auto& each) {
    const std::string& key = each.first;
    return key == "kept_as" || (!is_receipt && (key == "for" || key == "done" || key == "more"));
  });
  return book::read<Event>(Table(bare, "form", "the event"), book.currency());
}

// The key under which this event says its purse, where it has to say one and does not.
std::string missing_purse(const Entering& entering) {
  const std::string name = text_at(entering.event, "do");
  if (name == "receipt")
    return entering.event.find("paid") || flag_at(entering.event, "on_account") ? "" : "paid";
  if (entering.event.find("purse")) return "";
  if (name == "hours") return entering.event.find("paid") ? "purse" : "";
  for (const book::EventWord& word : book::events_described())
    if (word.name == name)
      for (const book::Described& field : word.fields)
        if (field.key == "purse" && field.text == book::Text::purse && field.need == book::Need::must)
          return "purse";
  return "";
}

// An even exchange moves no money.
bool moves_nothing(const Entering& entering) {
  const Value* total = entering.event.find("total");
  return text_at(entering.event, "do") == "receipt" && total && total->real == 0;
}

std::optional<std::string> purse_unasked(const book::Book& book, const Entering& entering) {
  if (auto only = only_purse(book)) return only;
  return last_purse(book, text_at(entering.event, "do"), text_at(entering.event, "supplier"));
}

std::optional<Question> ask_purse(const book::Book& book, Entering& entering) {
  const std::string key = missing_purse(entering);
  if (key.empty() || moves_nothing(entering)) return std::nullopt;
  if (const auto purse = purse_unasked(book, entering)) {
    put(entering.event, key, text_value(*purse));
    return std::nullopt;
  }
  return which_purse(book, text_at(entering.event, "do"));
}

// What of it says whether it is there already; nothing of what is never asked about.
book::Once once_of(const book::Book& book, const Entering& entering) {
  const std::string name = text_at(entering.event, "do");
  if (name == "recover") return book::once(read_event<book::Recover>(book, entering));
  if (name == "buyer deposit") return book::once(read_event<book::BuyerDeposit>(book, entering));
  if (name == "trip") return book::once(read_event<book::Trip>(book, entering));
  return {};
}

std::optional<Question> ask_doubles(const book::Book& book, const Entering& entering) {
  const std::string name = text_at(entering.event, "do");
  if (name == "receipt") {
    const auto receipt = read_event<book::Receipt>(book, entering);
    if (receipt.again) return std::nullopt;
    std::optional<Question> question;
    if (!receipt.replaces)
      question = receipt.itemised ? whose_place(book, receipt) : another_one(book, receipt);
    return question ? question : another_paper(book, receipt);
  }
  if (name != "hours") {
    const book::Once one = once_of(book, entering);
    return one.again ? std::nullopt : another_one(book, one);
  }
  const auto labour = read_event<book::Labour>(book, entering);
  if (labour.own > Hours{} && entering.said.count("long_day") == 0)
    if (auto question = so_many(book, labour.day, labour.own)) return question;
  return labour.again ? std::nullopt : another_one(book, labour);
}

// Of a receipt: whether it is one line whose paper is to come.
bool is_quick_line(const Entering& entering) {
  const Value* itemised = entering.event.find("itemised");
  return itemised && !itemised->flag;
}

// The quick lines whose place the paper takes.
std::vector<book::EntryId> replaced_by(const Entering& entering, const book::Receipt& receipt) {
  std::vector<book::EntryId> all = entering.also_replaced;
  if (receipt.replaces) all.push_back(*receipt.replaces);
  return all;
}

// The list of a receipt's lines in its event, or nothing.
std::vector<Value>* lines_of(Entering& entering) {
  for (auto& [key, lines] : entering.event.entries)
    if (key == "line") return &lines.items;
  return nullptr;
}

// As carry_place, written into the event.
void carry_place_of(const book::Book& book, Entering& entering) {
  if (text_at(entering.event, "do") != "receipt" || !entering.event.find("replaces")) return;
  auto receipt = read_event<book::Receipt>(book, entering);
  if (receipt.lines.size() != 1 || !receipt.lines.front().under.empty()) return;
  carry_place(book, receipt, replaced_by(entering, receipt));
  const auto& under = receipt.lines.front().under;
  if (auto* lines = lines_of(entering); lines && lines->size() == 1 && !under.empty())
    put(lines->front(), "for", text_value(under.begin()->second));
}

// Of a whole paper, its lines one by one. What only goes with the line before it is not asked about: its "no" says
// nothing, and would be asked again.
std::optional<Question> ask_paper(const book::Book& book, const Entering& entering) {
  const auto receipt = read_event<book::Receipt>(book, entering);
  for (const PaperPlace& place : places_to_ask(book, receipt, replaced_by(entering, receipt))) {
    if (!place.follows.empty()) continue;
    Question question = question_of(place, receipt);
    for (Choice& choice : question.choices) choice.option = fmt::format("for.{}", place.line + 1);
    question.choices.front().value = place.placing.close;  // an event names a line, not its number
    return question;
  }
  return std::nullopt;
}

// Of hours, and of a quick line for one car.
std::optional<Question> ask_line(const book::Book& book, const Entering& entering) {
  const std::string name = text_at(entering.event, "do");
  std::string words, tag;
  if (name == "hours") {
    if (entering.event.find("for")) return std::nullopt;
    words = text_at(entering.event, "operation");
    tag = text_at(entering.event, "vehicle");
  } else if (name == "receipt") {
    const Value* lines = entering.event.find("line");
    if (!lines || lines->items.size() != 1 || lines->items.front().find("for")) return std::nullopt;
    words = text_at(lines->items.front(), "what");
    tag = text_at(lines->items.front(), "to");
  }
  if (words.empty() || !book::has_vehicle(book, tag)) return std::nullopt;  // a new car has no budget
  const Placing placing = placing_of(book, name, tag, words, {}, name == "hours");
  if (placing.close.empty()) return std::nullopt;
  Question question = question_of(placing, name, words);
  question.choices.front().value = placing.close;  // an event names a line, not its number
  return question;
}

// Of a sale, a write-off or a pass that is taken back, and of an entry of an earlier year: until when it counts.
std::optional<Question> ask_standing(const book::Book& book, const Entering& entering, Day today) {
  if (text_at(entering.event, "do") != "void" || flag_at(entering.event, "later") ||
      entering.said.contains("never_was"))
    return std::nullopt;
  const Value* number = entering.event.find("entry");
  if (!number || number->kind == Value::Kind::text) return std::nullopt;  // for the event to refuse
  auto question = question_of_standing(book, static_cast<book::EntryId>(number->real), today);
  if (question)
    for (Choice& choice : question->choices) choice.value.clear();  // of an event both are flags
  return question;
}

}  // namespace

std::optional<Question> to_ask(const book::Book& book, Entering& entering, Day today) {
  if (auto question = ask_standing(book, entering, today)) return question;
  if (auto question = ask_purse(book, entering)) return question;
  if (auto question = ask_doubles(book, entering)) return question;
  carry_place_of(book, entering);
  const bool is_paper = text_at(entering.event, "do") == "receipt" && !is_quick_line(entering);
  return is_paper ? ask_paper(book, entering) : ask_line(book, entering);
}

void answer(Entering& entering, const std::string& option, const std::string& value) {
  if (option == "new") {
    entering.new_words.insert(value);
  } else if (option == "long_day" || option == "never_was") {
    entering.said[option] = value;
  } else if (option == "replaces") {
    std::istringstream in(value);
    std::vector<book::EntryId> all;
    for (std::string each; std::getline(in, each, ',');) {
      const auto number = typed_entry(each);
      if (!number)
        throw Refusal("receipt: found \"" + value +
                      "\", expected the number of the quick line whose place it takes, or several, 38,39");
      all.push_back(*number);
    }
    if (all.empty()) return;
    put(entering.event, option, number_value(all.front()));
    entering.also_replaced.assign(all.begin() + 1, all.end());
  } else if (option == "purse" && text_at(entering.event, "do") == "receipt") {
    put(entering.event, "paid", text_value(value));
  } else if (option == "for" && text_at(entering.event, "do") == "receipt") {
    if (auto* lines = lines_of(entering); lines && lines->size() == 1)
      put(lines->front(), "for", text_value(value));
  } else if (option.starts_with("for.")) {
    auto* lines = lines_of(entering);
    for (std::size_t i = 0; lines && i < lines->size(); ++i)
      if (option == fmt::format("for.{}", i + 1)) put((*lines)[i], "for", text_value(value));
  } else if (!option.empty()) {
    put(entering.event, option, value.empty() ? flag_value() : text_value(value));
  }
}

Question is_it_new(const std::string& refused, const std::string& name) {
  const std::string words = refused.substr(0, refused.rfind(" if it is"));
  return {
      "new car", words + " is it a new one", {{"y", "it is", "new", name}, {"n", "it is not", "", ""}}, 1};
}

std::optional<book::EntryId> settle_unasked(const book::Book& book, Entering& entering) {
  if (const std::string key = missing_purse(entering); !key.empty() && !moves_nothing(entering)) {
    const auto purses = book::names_of(book, book::account::purse);
    put(entering.event, key,
        text_value(purse_unasked(book, entering).value_or(purses.empty() ? "cash" : purses.front())));
  }
  const std::string name = text_at(entering.event, "do");
  std::optional<book::EntryId> like;
  if (name == "receipt") {
    const auto receipt = read_event<book::Receipt>(book, entering);
    if (receipt.replaces) carry_place_of(book, entering);
    if (receipt.again) return std::nullopt;
    if (receipt.replaces) {
      // Its quick line is known; another paper may still be the same.
    } else if (receipt.itemised) {
      const auto fitting = book::quick_lines_that_fit(book, receipt);
      if (!fitting.empty()) like = fitting.front().entries.front();
    } else {
      like = book::receipt_like(book, receipt);
    }
    if (!like) like = book::same_paper(book, receipt);
    if (like == receipt.replaces) like.reset();
  } else if (name == "hours") {
    const auto labour = read_event<book::Labour>(book, entering);
    if (!labour.again) like = book::hours_like(book, labour);
  } else if (const book::Once one = once_of(book, entering); !one.again) {
    like = book::entry_like(book, one);
  }
  if (like) put(entering.event, "again", flag_value());
  return like;
}

std::vector<PiecesApart> pieces_apart(const book::Book& book, const Entering& entering) {
  if (text_at(entering.event, "do") != "receipt" || is_quick_line(entering)) return {};
  return pieces_apart(book, read_event<book::Receipt>(book, entering));
}

void take_places(book::Recording& recording, Day day, const std::vector<book::EntryId>& others) {
  for (const book::EntryId other : others) give_place(recording, other, day);
}

}  // namespace nonrunner::answers
