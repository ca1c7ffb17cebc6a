#include "page/form_event.h"

#include <algorithm>
#include <map>
#include <set>

#include "answers/line_kind.h"
#include "answers/links.h"
#include "book/events/attach.h"
#include "book/events/post.h"
#include "book/events/quick_line.h"
#include "book/ledger/kept.h"
#include "book/ledger/marks.h"
#include "book/ledger/names.h"
#include "exact/ends.h"
#include "exact/nearest.h"
#include "exact/rate.h"
#include "text/made_value.h"
#include "text/typed_numbers.h"

namespace nonrunner::page {

namespace {

// A number as it is written with digits and one point; what is none stays a text, for the event to refuse.
Value typed_number(std::string text) {
  text = number_as_in_file(text);
  std::string_view rest = text;
  const bool below = rest.starts_with("-");
  if (below) rest.remove_prefix(1);
  const std::string_view whole = rest.substr(0, rest.find('.'));
  const std::string_view part =
      whole.size() == rest.size() ? std::string_view() : rest.substr(whole.size() + 1);
  const bool fits = (all_digits(whole) || (whole.empty() && !part.empty())) &&
                    (part.empty() || all_digits(part)) && rest.size() <= 30;
  if (!fits) return text_value(std::move(text));
  Value value;
  value.kind = part.empty() ? Value::Kind::whole : Value::Kind::real;
  value.text = (below ? "-" : "") + (whole.empty() ? "0" : std::string(whole)) +
               (part.empty() ? "" : "." + std::string(part));
  value.real = std::stod(value.text);
  return value;
}

Value typed_day(const std::string& text) {
  Value value;
  try {
    value.day = Day::parse(text);
  } catch (const Refusal&) {
    return text_value(text);
  }
  value.kind = Value::Kind::day;
  value.text = text;
  return value;
}

Value typed_flag(const std::string& text) {
  const bool yes = text == "on" || text == "true" || text == "yes" || text == "1";
  if (!yes && text != "false" && text != "no" && text != "0") return text_value(text);
  Value value;
  value.kind = Value::Kind::flag;
  value.flag = yes;
  return value;
}

Value plain_value(const book::Described& field, const std::string& text) {
  using book::Holds;
  switch (field.holds) {
    case Holds::day:
      return typed_day(text);
    case Holds::flag:
      return typed_flag(text);
    case Holds::money:
    case Holds::price:
    case Holds::quantity:
    case Holds::hours:
    case Holds::distance:
    case Holds::entry:
      return typed_number(text);
    case Holds::fraction:  // "3%" as at the prompt
      return typed_number(text.ends_with('%') ? Rate::parse(text).plain() : text);
    case Holds::text:
    case Holds::texts:
    case Holds::amounts:
    case Holds::shares:
    case Holds::rows:
      break;
  }
  return text_value(text);
}

std::string label_of(const book::Described& field) {
  const std::string called = label_of_key(field.key);
  return called.empty() ? field.means : called;
}

// Numbers and days that cannot be read are refused by the label of their field: whoever typed them sees no keys.
void expect_readable(const book::Described& field, const Value& value, const std::string& where,
                     const Currency& currency) {
  Value alone;
  alone.kind = Value::Kind::table;
  alone.entries.emplace_back(field.key, value);
  const Table table(alone, "form", "the form");
  try {
    if (field.holds == book::Holds::money) {
      expect_money_of_one_reading(value.text, currency);
      table.money(field.key, currency);
    }
    if (field.holds == book::Holds::price) table.price(field.key, currency);
    if (field.holds == book::Holds::quantity) table.quantity(field.key);
    if (field.holds == book::Holds::hours) table.hours(field.key);
    if (field.holds == book::Holds::distance) table.distance(field.key);
  } catch (const Refusal& refusal) {
    const std::string said = refusal.what();
    std::size_t at = said.rfind(", expected ");
    if (at == std::string::npos) at = said.find(", which may be ");
    throw Refusal(where + label_of(field) + ": found \"" + value.text + "\"" +
                  (at == std::string::npos ? "" : said.substr(at)));
  }
  if (field.holds == book::Holds::day && value.kind != Value::Kind::day)
    throw Refusal(where + label_of(field) + ": found \"" + value.text +
                  "\", expected a day, such as 2026-05-02");
}

// Fields below a key: of "line" those of "line.1.what" as "1.what".
Form below(const Form& form, const std::string& key) {
  Form part;
  for (const auto& [name, value] : form.fields)
    if (name.starts_with(key + ".") && !value.empty())
      part.fields.emplace_back(name.substr(key.size() + 1), value);
  return part;
}

// Whether something was typed into the row, beside what it was filled in with before.
bool was_typed(const std::vector<book::Described>& fields, const Form& row) {
  return std::any_of(fields.begin(), fields.end(), [&](const book::Described& field) {
    using book::Holds, book::Text;
    const bool typed_kind =
        field.holds == Holds::money || field.holds == Holds::price ||
        (field.holds == Holds::text &&
         (field.text == Text::words || field.text == Text::name || field.text == Text::line));
    return typed_kind && field.key != "for" && !row.get(field.key).empty();
  });
}

// `where` stands before the label of a field in a refusal: "line 2, ".
Value table_value(const std::vector<book::Described>& fields, const Form&, const std::string& where,
                  const Currency&);

void expect_whole_line(const Value& line, const std::string& where) {
  if (!line.find("what")) throw Refusal(where + "what: nothing is said, expected a few words");
  const bool goes_back = line.find("core_of") || line.find("return_of");
  if (!goes_back && !line.find("to") && !line.find("share") && !line.find("stock"))
    throw Refusal(where +
                  "car: nothing is said, expected the car that it is for, or tools, overhead or owner");
  if (const Value* core = line.find("core"); core && core->real < 0)
    throw Refusal(where + "deposit: found " + core->text +
                  ", expected 0 or more; an old part that was handed in is entered where it is due");
  if (line.find("amount") || line.find("unit")) return;
  throw Refusal(where.empty() ? "amount: nothing is said, expected what was paid"
                              : where + "price of one: nothing is said, expected it, or the amount of all");
}

// Rows by their numbers, "1.what", "2.what".
Value rows_value(const book::Described& field, const Form& part, bool is_one, const Currency& currency) {
  std::map<int, Form> rows;
  for (const auto& [name, value] : part.fields) {
    const std::size_t dot = name.find('.');
    const std::string number = name.substr(0, dot);
    if (dot == std::string::npos || !all_digits(number) || number.size() > 6)
      throw Refusal("form: found the field \"" + field.key + "." + name + "\", expected " + field.key +
                    ".1.NAME");
    rows[std::stoi(number)].fields.emplace_back(name.substr(dot + 1), value);
  }
  Value list;
  list.kind = Value::Kind::array;
  for (const auto& [number, row] : rows) {
    if (!was_typed(field.rows, row)) continue;
    const std::string where =
        is_one ? "" : (field.key == "fees" ? "fee" : field.key) + " " + std::to_string(number) + ", ";
    list.items.push_back(table_value(field.rows, row, where, currency));
    if (field.key == "line") expect_whole_line(list.items.back(), where);
  }
  return list;
}

// { cash = 46.20 }; money where there is a currency.
Value numbers_value(const Form& part, const Currency* currency) {
  Value table;
  table.kind = Value::Kind::table;
  for (const auto& [name, value] : part.fields) {
    Value number = typed_number(value);
    if (currency) expect_money_of_one_reading(value, *currency, name);
    if (number.kind == Value::Kind::text)
      throw Refusal(name + ": found \"" + value + "\", expected a number");
    put(table, name, std::move(number));
  }
  return table;
}

Value texts_value(const Form& form, const std::string& key) {
  Value list;
  list.kind = Value::Kind::array;
  for (const auto& [name, value] : form.fields)
    if (name == key && !value.empty()) list.items.push_back(text_value(value));
  return list;
}

Value table_value(const std::vector<book::Described>& fields, const Form& form, const std::string& where,
                  const Currency& currency) {
  Value table;
  table.kind = Value::Kind::table;
  for (const book::Described& field : fields) {
    const Form part = below(form, field.key);
    const std::string text = form.get(field.key);
    if (field.holds == book::Holds::rows) {
      Value rows = rows_value(field, part, form.get("itemised") == "false", currency);
      if (!rows.items.empty()) put(table, field.key, std::move(rows));
    } else if (field.holds == book::Holds::texts) {
      Value texts = texts_value(form, field.key);
      if (!texts.items.empty()) put(table, field.key, std::move(texts));
    } else if (field.holds == book::Holds::amounts && !part.fields.empty()) {
      put(table, field.key, numbers_value(part, &currency));
    } else if (field.holds == book::Holds::shares && !part.fields.empty()) {
      put(table, field.key, numbers_value(part, nullptr));
    } else if (!text.empty()) {
      Value value = plain_value(field, text);
      expect_readable(field, value, where, currency);
      put(table, field.key, std::move(value));
    } else if (field.key == "for" && !part.fields.empty()) {
      Value each;
      each.kind = Value::Kind::table;
      for (const auto& [name, value] : part.fields) put(each, name, text_value(value));
      put(table, field.key, std::move(each));
    }
  }
  // What the event does not know is refused with the nearest that it does.
  for (const auto& [name, value] : form.fields) {
    const std::string key = name.substr(0, name.find('.'));
    const bool known = std::any_of(fields.begin(), fields.end(),
                                   [&](const book::Described& field) { return field.key == key; });
    if (!known && is_of_event(key) && !value.empty() && !table.find(key)) put(table, key, text_value(value));
  }
  return table;
}

// What a receipt cannot do without, by the labels of its form.
void expect_whole(const Value& event) {
  const auto says_no = [&](const char* key) {
    const Value* flag = event.find(key);
    return flag && flag->kind == Value::Kind::flag && !flag->flag;
  };
  if (!says_no("itemised") && !says_no("paper") && !event.find("supplier"))
    throw Refusal("supplier: nothing is said, expected who gave the paper");
  if (!event.find("total")) throw Refusal("total, as printed: nothing is said, expected an amount");
  const Value *lines = event.find("line"), *tax = event.find("tax");
  if (!lines) return;
  bool is_taxed = false;
  for (const Value& line : lines->items)
    for (const char* key : {"taxed", "tax_on_core"}) {
      const Value* flag = line.find(key);
      is_taxed = is_taxed || (flag && flag->flag);
    }
  if (tax && tax->real != 0 && !is_taxed)
    throw Refusal("there is a tax but no line is taxed; tick taxed on the lines that it lies on");
}

// A bare number where words are expected is the line of the car's budget (answers/links.h).
void name_lines(const book::Book& book, Value& table, const char* words_key, const char* tag_key,
                bool is_hours) {
  const Value* tag = table.find(tag_key);
  for (auto& [key, words] : table.entries)
    if (key == words_key && words.kind == Value::Kind::text && all_digits(words.text) && tag)
      words.text = answers::words_meant(book, label_of_key(words_key), tag->text, words.text, is_hours);
}

void name_as_planned(const book::Book& book, Value& table) {
  const Value* tag = table.find("vehicle");
  for (auto& [key, words] : table.entries)
    if (key == "name" && tag && book::has_vehicle(book, tag->text))
      words.text = answers::name_to_plan(book, tag->text, words.text);
}

// The words of a receipt's lines, and what they are where that was not said.
void complete_lines(const book::Book& book, Value& event) {
  for (auto& [key, lines] : event.entries) {
    if (key != "line" || lines.kind != Value::Kind::array) continue;
    for (Value& line : lines.items) {
      const Value* car = line.find("to");
      const std::string to = car ? car->text : "";
      const bool own = to == "tools" || to == "owner" || to == "overhead";
      if (!own) name_lines(book, line, "what", "to", false);
      const Value* what = line.find("what");
      const bool back = line.find("core_of") || line.find("return_of");
      if (!own && (line.find("kind") || back || !what)) continue;
      const Value* under = line.find("for");
      const bool said = under && under->kind == Value::Kind::text && under->text != book::under_none;
      put(line, "kind",
          text_value(answers::line_kind(book, to, what ? what->text : "", said ? under->text : "")));
    }
  }
}

// A quick line: the car, the amount, a word.
Form spelled_out(const book::Book& book, const Form& form) {
  if (form.get("do") != "receipt") return form;
  const bool has_lines = std::any_of(form.fields.begin(), form.fields.end(),
                                     [](const auto& each) { return each.first.starts_with("line."); });
  if (has_lines) return form;
  Form whole;
  for (const auto& [name, value] : form.fields) {
    const bool of_line = name == "amount" || name == "what" || name == "kind" || name == "source" ||
                         name == "core" || name == "core_by" || name == "for" || name == "id" ||
                         name == "more";
    if (name == "vehicle")
      whole.set("line.1.to", value);

    else if (of_line)
      whole.set("line.1." + name, value);
    else
      whole.set(name, value);
  }
  if (form.get("what").empty()) {
    whole.set("line.1.what", book::name_to_come);
    whole.set("line.1.unnamed", "true");
  }
  const auto amount = [&](const char* key) {
    const Value value = typed_number(form.get(key));
    expect_money_of_one_reading(value.text, book.currency(), label_of_key(key));
    if (value.kind == Value::Kind::text) return Money{};
    try {
      return Money::parse(value.text, book.currency());
    } catch (const Refusal& refusal) {
      throw Refusal(label_of_key(key) + ": " + refusal.what());
    }
  };
  if (!whole.has("total")) whole.set("total", (amount("amount") + amount("core")).plain(book.currency()));
  if (!whole.has("itemised")) whole.set("itemised", "false");
  return whole;
}

// A receipt says the one purse that paid all of it as `paid`; what is on account whole was paid by none.
Form with_payment(Form form) {
  if (form.get("do") != "receipt") return form;
  if (form.get("paid").empty() && !form.get("purse").empty()) form.set("paid", form.get("purse"));
  const bool on_account = form.get("on_account") == "on" || form.get("on_account") == "true";
  std::erase_if(form.fields, [&](const auto& each) {
    return each.first == "purse" || (on_account && each.first == "paid");
  });
  return form;
}

const std::vector<book::Described>& mark_fields() {
  static const std::vector<book::Described> all = [] {
    std::vector<book::Described> fields;
    for (const book::MarkKey& mark : book::mark_keys())
      fields.push_back({mark.key, mark.holds, mark.kind, mark.means, book::Need::may, {}, {}, {}});
    return fields;
  }();
  return all;
}

// What a form of each event may say: the event's own keys, and after them the marks.
const std::map<std::string, std::vector<book::Described>>& fields_by_event() {
  static const std::map<std::string, std::vector<book::Described>> all = [] {
    std::map<std::string, std::vector<book::Described>> by_name;
    for (const book::EventWord& word : book::events_described()) {
      std::vector<book::Described>& fields = by_name[word.name];
      fields = word.fields;
      for (const book::Described& mark : mark_fields())
        if (std::none_of(fields.begin(), fields.end(),
                         [&](const auto& each) { return each.key == mark.key; }))
          fields.push_back(mark);
    }
    return by_name;
  }();
  return all;
}

const std::vector<book::Described>& fields_of(const std::string& event) {
  const auto found = fields_by_event().find(event);
  if (found != fields_by_event().end()) return found->second;
  throw Refusal("form: found the event \"" + event + "\", expected one of the book" +
                did_you_mean(event, book::event_words()));
}

}  // namespace

void expect_on_page(const Form& form) {
  static const std::set<std::string> on_page{
      "buy",          "pass",          "receipt",  "return",   "core back",    "tool deposit back",
      "hours",        "draw",          "shelve",   "transfer", "recover",      "recover back",
      "advertised",   "buyer deposit", "sell",     "part out", "deposit kept", "deposit back",
      "write off",    "trip",          "finding",  "plan",     "done",         "void",
      "selling cost", "photo",         "clock on", "clock off"};
  const std::string name = form.get("do");
  const auto& all = book::event_words();
  if (!on_page.contains(name) && std::find(all.begin(), all.end(), name) != all.end())
    throw Refusal(name + ": it is entered at the prompt only, on the machine that holds the book");
}

void expect_money_of_one_reading(const std::string& typed, const Currency& currency,
                                 const std::string& label) {
  try {
    expect_one_reading(std::string_view(typed).substr(typed.starts_with('-') ? 1 : 0), typed,
                       currency.digits);
  } catch (const Refusal& refusal) {
    throw Refusal((label.empty() ? "" : label + ": ") + refusal.what());
  }
}

bool is_of_event(const std::string& key) {
  return key != "kept" && key != "next" && key != "day" && key != "long_day" && key != "never_was" &&
         key != "standing" && key != "new" && key != "tests_seen" && key != "decided_by" && key != "longer";
}

std::string label_of_key(const std::string& key) {
  static const std::map<std::string, std::string> labels{{"what", "what"},
                                                         {"qty", "pieces"},
                                                         {"unit", "price of one"},
                                                         {"amount", "amount"},
                                                         {"core", "deposit"},
                                                         {"core_by", "old part back by"},
                                                         {"tax", "tax"},
                                                         {"shipping", "shipping"},
                                                         {"discount", "discount"},
                                                         {"total", "total, as printed"},
                                                         {"date", "day"},
                                                         {"own", "own hours"},
                                                         {"day", "day"},
                                                         {"vehicle", "car"},
                                                         {"purse", "purse"},
                                                         {"paid", "purse"},
                                                         {"for", "line of the budget"},
                                                         {"paper", "paper"},
                                                         {"kind", "what it is to the shop"},
                                                         {"source", "where it comes from"},
                                                         {"done", "done"},
                                                         {"operation", "what was done"},
                                                         {"hours", "hours"},
                                                         {"other_hours", "hours"},
                                                         {"supplier", "supplier"},
                                                         {"commission", "commission"},
                                                         {"stock", "item of the shelf"}};
  const auto found = labels.find(key);
  return found == labels.end() ? "" : found->second;
}

namespace {
bool is_id(const std::pair<std::string, std::string>& field) {
  return field.first == "kept" && book::is_kept_id(field.second);
}
}  // namespace

std::string kept_id(const Form& form) {
  const auto found = std::find_if(form.fields.begin(), form.fields.end(), is_id);
  return found == form.fields.end() ? "" : found->second;
}

std::string sent_hash(const Form& form) {
  Form sent;
  for (const auto& field : form.fields)
    if (!is_id(field) && field.first != "next") sent.fields.push_back(field);
  return book::sha256_of(sent.encoded());
}

answers::Entering entering_of(const book::Book& book, const Form& given, Day today) {
  Form form = with_payment(spelled_out(book, given));
  std::erase_if(form.fields, is_id);
  const std::string name = form.get("do");
  const std::vector<book::Described>& fields = fields_of(name);
  const std::string replaces = form.get("replaces");
  Form single = form;
  if (replaces.find(',') != std::string::npos)
    std::erase_if(single.fields, [](const auto& each) { return each.first == "replaces"; });
  // Answers about the lines of a paper, by their order in it; rows of the form may be empty.
  std::erase_if(single.fields, [&](const auto& each) {
    return each.first == "do" || (name == "receipt" && each.first.starts_with("for."));
  });
  answers::Entering entering;
  entering.event = table_value(fields, single, "", book.currency());
  entering.event.entries.insert(entering.event.entries.begin(), {"do", text_value(name)});
  if (!entering.event.find("date")) {
    const std::string day = form.get("day");
    put(entering.event, "date", typed_day(day.empty() ? today.iso() : day));
  }
  for (const char* said : {"long_day", "never_was"})
    if (!form.get(said).empty()) entering.said[said] = form.get(said);
  if (const std::string standing = form.get("standing"); standing == "later" || standing == "never_was")
    answers::answer(entering, standing, "");
  for (const auto& [key, value] : given.fields)
    if (key == "new") answers::answer(entering, key, value);
  if (name == "receipt") expect_whole(entering.event);
  if (name == "plan") name_as_planned(book, entering.event);
  if (name == "hours") name_lines(book, entering.event, "operation", "vehicle", true);
  if (replaces.find(',') != std::string::npos) answers::answer(entering, "replaces", replaces);
  if (name == "receipt")
    for (const auto& [key, value] : form.fields)
      if (key.starts_with("for.")) answers::answer(entering, key, value);
  if (name == "receipt") complete_lines(book, entering.event);  // by their places, where these were answered
  return entering;
}

}  // namespace nonrunner::page
