#include "book/events/fields.h"

#include <algorithm>
#include <stdexcept>

#include "exact/nearest.h"
#include "text/tag.h"

namespace nonrunner::book {

namespace {

constexpr int most_entries = 2'000'000'000;

const char* kind_of(Holds holds) {
  switch (holds) {
    case Holds::day:
      return "a day";
    case Holds::money:
      return "an amount";
    case Holds::price:
      return "a price for one";
    case Holds::quantity:
      return "a number";
    case Holds::hours:
      return "hours";
    case Holds::distance:
      return "a distance";
    case Holds::flag:
      return "true or false";
    case Holds::entry:
      return "the number of an entry";
    case Holds::fraction:
      return "a share";
    case Holds::texts:
    case Holds::rows:
      return "a list";
    case Holds::amounts:
    case Holds::shares:
      return "{ NAME = number }";
    case Holds::text:
      return "words";
  }
  return "";
}

const char* kind_of(Text text) {
  switch (text) {
    case Text::words:
      return "words";
    case Text::tag:
      return "a car's tag";
    case Text::purse:
      return "a purse";
    case Text::line:
      return "the id of a receipt line";
    case Text::item:
      return "an item of the shelf";
    case Text::supplier:
      return "a supplier";
    case Text::name:
      return "a name";
    case Text::operation:
      return "an operation";
    case Text::file:
      return "a file, beside this one";
    case Text::choice:
      return "a word";
  }
  return "";
}

}  // namespace

std::string one_of(const std::vector<std::string>& choices) {
  std::string text;
  for (std::size_t i = 0; i < choices.size(); ++i)
    text += (i == 0 ? "" : i + 1 == choices.size() ? " or " : ", ") + choices[i];
  return text;
}

Described& Describing::add(const Field& field, Holds holds, std::string kind, Text text) {
  all_.push_back({field.key,
                  holds,
                  kind.empty() ? kind_of(holds) : std::move(kind),
                  field.means,
                  field.need,
                  field.choices ? *field.choices : std::vector<std::string>{},
                  text,
                  {}});
  return all_.back();
}

void Describing::text(const Field& field, Text text, std::string&) {
  add(field, Holds::text, text == Text::choice ? one_of(*field.choices) : kind_of(text), text);
}

void Describing::shares(const Field& one, const Field& several, std::vector<Share>&, const std::string&) {
  add(one, Holds::text, kind_of(Text::tag), Text::tag);
  add(several, Holds::shares, "{ TAG = weight }");
}

void Describing::each_row(const Field& field, const std::string&,
                          const std::function<std::string(std::size_t)>&, std::size_t,
                          const std::function<void(std::size_t, Fields&)>& row) {
  Describing of_row;
  row(0, of_row);
  add(field, Holds::rows).rows = of_row.all();
}

void only_these(const Table& table, const std::vector<Described>& known) {
  const auto is_known = [&](const auto& entry) {
    return entry.first == "do" || std::any_of(known.begin(), known.end(),
                                              [&](const Described& each) { return each.key == entry.first; });
  };
  const auto& entries = table.value().entries;
  if (std::all_of(entries.begin(), entries.end(), is_known)) return;
  std::vector<std::string> keys = {"do"};
  for (const Described& each : known) keys.push_back(each.key);
  table.only(keys);
}

void Reading::day(const Field& field, Day& day) {
  if (stands(field)) day = table_.day(field.key);
}
void Reading::day(const Field& field, std::optional<Day>& day) { day = table_.day_if(field.key); }

void Reading::text(const Field& field, Text kind, std::string& text) {
  text = field.need == Need::must ? table_.text(field.key) : table_.text_or(field.key, text);
  if (kind == Text::tag) text = as_tag(text);
  if (kind != Text::choice || text.empty()) return;
  if (std::find(field.choices->begin(), field.choices->end(), text) == field.choices->end())
    table_.refuse(field.key, one_of(*field.choices) + did_you_mean(text, *field.choices));
}

void Reading::money(const Field& field, Money& money) {
  if (stands(field)) money = table_.money(field.key, currency_);
}
void Reading::money(const Field& field, std::optional<Money>& money) {
  if (stands(field)) money = table_.money(field.key, currency_);
}
void Reading::price(const Field& field, Price& price) {
  if (stands(field)) price = table_.price(field.key, currency_);
}
void Reading::price(const Field& field, std::optional<Price>& price) {
  if (stands(field)) price = table_.price(field.key, currency_);
}
void Reading::quantity(const Field& field, Quantity& quantity, Quantity absent) {
  quantity = stands(field) ? table_.quantity(field.key) : absent;
}
void Reading::hours(const Field& field, Hours& hours) {
  if (stands(field)) hours = table_.hours(field.key);
}
void Reading::distance(const Field& field, Distance& distance) {
  if (stands(field)) distance = table_.distance(field.key);
}
void Reading::flag(const Field& field, bool& flag, bool absent) { flag = table_.flag_or(field.key, absent); }
void Reading::entry(const Field& field, EntryId& entry) {
  if (stands(field)) entry = table_.whole(field.key, 1, most_entries);
}

void Reading::shares(const Field& one, const Field& several, std::vector<Share>& shares,
                     const std::string& own) {
  if (table_.has(one.key) && table_.has(several.key))
    table_.refuse_whole(
        table_.name() + " has both \"" + one.key + "\" and \"" + several.key + "\", expected one of them",
        several.key);
  shares.clear();
  const std::string typed =
      one.need == Need::must && !table_.has(several.key) ? table_.text(one.key) : table_.text_or(one.key, "");
  if (!typed.empty() && typed != own) shares.push_back({as_tag(typed), 1000});
  const auto weights = table_.table(several.key, std::string(several.key) + " in " + table_.name());
  if (!weights) return;
  for (const auto& [vehicle, weight] : weights->value().entries) {
    const Quantity parsed = weights->quantity(vehicle);
    if (parsed <= Quantity{}) weights->refuse(vehicle, "a weight above 0");
    shares.push_back({as_tag(vehicle), parsed.thousandths()});
  }
  if (shares.empty()) table_.refuse(several.key, "at least one car with its weight, such as { pip = 1 }");
  if (shares.size() == 1) shares.front().weight = 1000;  // it bears all, and is written as the one car
}

void Reading::purses(const Field& field, std::vector<std::pair<std::string, Money>>& paid, std::string& all) {
  paid.clear();
  const Value* found = table_.find(field.key);
  if (found == nullptr) return;
  if (found->kind == Value::Kind::text) {
    all = table_.text(field.key);
    return;
  }
  const auto purses = table_.table(field.key, std::string(field.key) + " in " + table_.name());
  for (const auto& [purse, amount] : purses->value().entries)
    paid.emplace_back(purse, purses->money(purse, currency_));
}

void Reading::each_row(const Field& field, const std::string& of_rows,
                       const std::function<std::string(std::size_t)>& called, std::size_t,
                       const std::function<void(std::size_t, Fields&)>& row) {
  const auto of_rows_known = std::find_if(known_.begin(), known_.end(),
                                          [&](const Described& each) { return each.key == field.key; });
  if (of_rows_known == known_.end())
    throw std::logic_error("no rows are described under " + std::string(field.key));
  std::size_t at = 0;
  for (Table& each : table_.tables(field.key, of_rows)) {
    each.rename(called(at + 1));
    only_these(each, of_rows_known->rows);
    Reading of_row(each, currency_, of_rows_known->rows);
    row(at++, of_row);
  }
}

void Writing::money(const Field& field, Money& money) {
  if (field.need != Need::may || !is_zero(money)) text_.money(field.key, money);
}
void Writing::money(const Field& field, std::optional<Money>& money) {
  if (money) text_.money(field.key, *money);
}
void Writing::price(const Field& field, Price& price) {
  if (field.need != Need::may || price.fine() != 0) text_.price(field.key, price);
}
void Writing::price(const Field& field, std::optional<Price>& price) {
  if (price) text_.price(field.key, *price);
}
void Writing::quantity(const Field& field, Quantity& quantity, Quantity absent) {
  if (field.need != Need::may || quantity != absent) text_.number(field.key, quantity.shown());
}
void Writing::hours(const Field& field, Hours& hours) {
  if (field.need != Need::may || hours != Hours{}) text_.number(field.key, hours.shown());
}
void Writing::distance(const Field& field, Distance& distance) { text_.number(field.key, distance.shown()); }
void Writing::flag(const Field& field, bool& flag, bool absent) {
  if (flag != absent) text_.number(field.key, flag ? "true" : "false");
}
void Writing::entry(const Field& field, EntryId& entry) {
  if (entry != 0) text_.number(field.key, std::to_string(entry));
}

void Writing::shares(const Field& one, const Field& several, std::vector<Share>& shares, const std::string&) {
  if (shares.empty()) return;
  if (shares.size() == 1) {
    text_.text(one.key, shares.front().vehicle);
    return;
  }
  EventText weights(currency_);
  for (const Share& share : shares) weights.number(share.vehicle, Quantity::of(share.weight).shown());
  text_.table(several.key, weights);
}

void Writing::purses(const Field& field, std::vector<std::pair<std::string, Money>>& paid, std::string&) {
  EventText purses(currency_);
  for (const auto& [purse, amount] : paid) purses.money(purse, amount);
  text_.table(field.key, purses);
}

void Writing::each_row(const Field& field, const std::string&, const std::function<std::string(std::size_t)>&,
                       std::size_t count, const std::function<void(std::size_t, Fields&)>& row) {
  std::vector<EventText> all;
  for (std::size_t at = 0; at < count; ++at) {
    EventText text(currency_);
    Writing of_row(text, currency_);
    row(at, of_row);
    all.push_back(std::move(text));
  }
  if (count > 0 || field.need == Need::kept) text_.list(field.key, all);
}

}  // namespace nonrunner::book
