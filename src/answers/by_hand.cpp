#include "answers/by_hand.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <sstream>

#include "answers/kept_job.h"
#include "exact/ends.h"
#include "text/made_value.h"
#include "text/toml.h"
#include "text/typed_numbers.h"

namespace nonrunner::answers {

namespace {

constexpr std::string_view kept_key = "by_hand";

// What stands at the place; nullptr where nothing does.
Value* at(Value& tree, std::string_view place) {
  Value* here = &tree;
  while (here && !place.empty()) {
    const std::string_view step = place.substr(0, place.find('.'));
    place.remove_prefix(std::min(step.size() + 1, place.size()));
    Value* next = nullptr;
    if (here->kind == Value::Kind::array) {
      std::size_t number = 0;
      const auto [end, error] = std::from_chars(step.data(), step.data() + step.size(), number);
      if (error == std::errc() && end == step.data() + step.size() && number < here->items.size())
        next = &here->items[number];
    } else {
      for (auto& [name, value] : here->entries)
        if (name == step) next = &value;
    }
    here = next;
  }
  return here;
}

std::string as_written(const Value& value) {
  if (is_number(value)) return value.text;
  if (value.kind != Value::Kind::array || value.items.empty() || value.items.size() > 3) return "";
  std::string text;
  for (const Value& item : value.items) {
    if (!is_number(item)) return "";
    text += (text.empty() ? "" : ", ") + item.text;
  }
  return text;
}

// "1300,50": the one comma of what stands between blanks, with one or two last digits behind it, is a decimal comma;
// one that parts the thousands of a number with a point, "1,450.00", is none.
std::string with_points(std::string text) {
  const auto is_digit = [&](std::size_t at) {
    return at < text.size() && text[at] >= '0' && text[at] <= '9';
  };
  for (std::size_t from = 0; from < text.size();) {
    std::size_t end = std::min(text.find_first_of(" ;", from), text.size());
    std::string one = text.substr(from, end - from);
    if (!one.empty() && one.back() == ',') one.pop_back();  // it parts this number from the next
    if (std::count(one.begin(), one.end(), ',') == 1)
      if (const auto whole = thousands_with_point(one)) {
        text.replace(from, one.size(), *whole);
        end -= one.size() - whole->size();
      }
    const std::string_view word = std::string_view(text).substr(from, end - from);
    const std::size_t comma = word.find(',');
    const std::size_t behind = comma == std::string_view::npos ? 0 : word.size() - comma - 1;
    if ((behind == 1 || behind == 2) && word.find_first_of(",.", comma + 1) == std::string_view::npos &&
        comma > 0 && word.find('.') == std::string_view::npos && is_digit(from + comma - 1) &&
        is_digit(from + comma + 1))
      text[from + comma] = '.';
    from = end + 1;
  }
  return text;
}

// One number, or three with commas or blanks between them.
// `label`: how it is called where it was typed.
std::vector<std::string> numbers_of(const ByHand& change, const std::string& label) {
  std::vector<std::string> numbers;
  std::string one;
  const auto end = [&] {
    if (!one.empty()) numbers.push_back(one);
    one.clear();
  };
  std::istringstream words(change.value);
  for (std::string word; words >> word;)
    if (std::count(word.begin(), word.end(), ',') > 1 && thousands_with_point(word))
      throw Refusal(fmt::format(
          "{}: found \"{}\", which may be {} or several numbers; put blanks between them, or write no "
          "commas",
          label, word, *thousands_with_point(word)));
  for (const char c : with_points(change.value)) {
    if (c == ',' || c == ' ' || c == ';')
      end();
    else
      one += c;
  }
  end();
  const auto is_plain = [](const std::string& text) {
    std::size_t digits = 0, points = 0;
    for (const char c : text) {
      digits += c >= '0' && c <= '9' ? 1u : 0u;
      points += c == '.' ? 1u : 0u;
    }
    return digits > 0 && digits <= 15 && points <= 1 && digits + points == text.size() &&
           text.back() != '.' && text.front() != '.';
  };
  if (!std::all_of(numbers.begin(), numbers.end(), is_plain)) numbers.clear();
  // "05" is no number in a file.
  for (std::string& each : numbers)
    while (each.size() > 1 && each[0] == '0' && each[1] != '.') each.erase(0, 1);
  if (numbers.size() != 1 && numbers.size() != 3)
    throw Refusal(
        fmt::format("{}: found \"{}\", expected a number, or low, likely and high", label, change.value));
  return numbers;
}

// Hours and chances are no money: 1.250 hours are an hour and a quarter.
bool is_money(std::string_view place) {
  return !place.ends_with(".hours") && !place.ends_with(".odds") && !place.ends_with(".chance");
}
void expect_money_of_one_reading(const ByHand& change, const std::string& label, const Currency& currency) {
  if (!is_money(change.place)) return;
  std::istringstream in(change.value);
  for (std::string each; in >> each;) {
    while (!each.empty() && (each.back() == ',' || each.back() == ';')) each.pop_back();
    try {
      expect_one_reading(each, each, currency.digits);
    } catch (const Refusal& refusal) {
      throw Refusal(label + ": " + refusal.what());
    }
  }
}

// 1450.00 is 1450.
bool same_numbers(const std::vector<std::string>& a, const std::vector<std::string>& b) {
  return std::equal(
      a.begin(), a.end(), b.begin(), b.end(),
      [](const std::string& one, const std::string& other) { return std::stod(one) == std::stod(other); });
}

// Walks the figures of a file that a person may want to change.
class Walking {
 public:
  Walking(Value& tree, std::vector<Changeable>& all) : tree_(tree), all_(all) {}

  void walk() {
    add("deal.asking", "the price", "price asked");
    add("deal.fees", "the price", "fees of the purchase");
    add("value.sound", "what it sells for", "a sound one");
    add("shop.hour", "the shop", "an own hour has to earn");
    add("shop.holding_per_day", "the shop", "a day costs");
    each("cause", [&](const std::string& place, const std::string& name) {
      add(place + ".odds", "odds before the tests", name);
    });
    each("trouble", [&](const std::string& place, const std::string& name) {
      add(place + ".chance", "chance of a trouble before the tests", name);
    });
    each("cause", [&](const std::string& place, const std::string& name) {
      add(place + ".found", "what it sells for as found", name);
    });
    each("correction", [&](const std::string& place, const std::string& name) { correction(place, name); });
  }

 private:
  void add(const std::string& place, const std::string& about, const std::string& what) {
    const Value* value = at(tree_, place);
    if (!value) return;
    if (const std::string written = as_written(*value); !written.empty())
      all_.push_back({place, about, what, written});
  }

  template <class Take>
  void each(const std::string& list, Take take) {
    Value* rows = at(tree_, list);
    if (!rows) return;
    for (std::size_t i = 0; i < rows->items.size(); ++i) {
      const Value* name = rows->items[i].find("name");
      take(fmt::format("{}.{}", list, i), name ? name->text : "");
    }
  }

  void correction(const std::string& place, const std::string& name) {
    each(place + ".operations", [&](const std::string& row, const std::string& what) {
      add(row + ".hours", name, what + ", hours");
    });
    each(place + ".parts", [&](const std::string& row, const std::string& what) {
      for (const char* source : {"new", "salvage", "reman"})
        add(row + "." + source, name, fmt::format("{}, {}, each", what, source));
    });
    each(place + ".consumables", [&](const std::string& row, const std::string& what) {
      add(row + ".price", name, what + ", each");
    });
    each(place + ".sublet",
         [&](const std::string& row, const std::string& what) { add(row + ".price", name, what); });
  }

  Value& tree_;
  std::vector<Changeable>& all_;
};

std::string label_of(const Changeable& each) {
  return each.place.starts_with("deal.") ? each.what : each.about + ", " + each.what;
}

std::string as_toml(const std::vector<ByHand>& changes) {
  std::string text;
  for (const ByHand& each : changes) {
    std::string numbers;
    for (const std::string& number : numbers_of(each, each.place))
      numbers += (numbers.empty() ? "" : ", ") + number;
    text += fmt::format("{}{{ at = \"{}\", is = [{}] }}", text.empty() ? "" : ", ", each.place, numbers);
  }
  return text.empty() ? "" : fmt::format("{} = [{}]\n", kept_key, text);
}

std::string with_changes(const std::vector<Changeable>& known, const std::string& whose,
                         const std::string& settled, const std::vector<ByHand>& changes,
                         const Currency& currency);

std::vector<ByHand> changes_in(const std::string& settled) {
  std::vector<ByHand> all;
  const Value tree = parse_toml(settled, "the settled figures");
  if (const Value* rows = tree.find(kept_key))
    for (const Value& row : rows->items)
      if (row.find("at") && row.find("is"))
        all.push_back({row.find("at")->text, as_written(*row.find("is"))});
  return all;
}

}  // namespace

std::vector<Changeable> changeable(const book::Book& book, const std::string& tag) {
  std::vector<Changeable> all;
  auto tree = kept_tree(book, tag);
  if (tree) Walking(*tree, all).walk();
  return all;
}

std::string settled_with(const book::Book& book, const std::string& tag, const std::string& settled,
                         const std::vector<ByHand>& changes) {
  return with_changes(changeable(book, tag), "the appraisal of " + tag, settled, changes, book.currency());
}

std::string settled_with(Value job, const std::string& name, const std::string& settled,
                         const std::vector<ByHand>& changes, const Currency& currency) {
  std::vector<Changeable> known;
  Walking(job, known).walk();
  return with_changes(known, name, settled, changes, currency);
}

namespace {

std::string with_changes(const std::vector<Changeable>& known, const std::string& whose,
                         const std::string& settled, const std::vector<ByHand>& changes,
                         const Currency& currency) {
  std::vector<ByHand> all = changes_in(settled);
  for (const ByHand& change : changes) {
    const auto found = std::find_if(known.begin(), known.end(),
                                    [&](const Changeable& each) { return each.place == change.place; });
    if (found == known.end())
      throw Refusal(fmt::format(
          "changed by hand: found a figure ({}) that {} does not have, or has no more; look at it again",
          change.place, whose));
    expect_money_of_one_reading(change, label_of(*found), currency);
    if (same_numbers(numbers_of(change, label_of(*found)),
                     numbers_of({change.place, found->value}, change.place)))
      continue;
    const auto same =
        std::find_if(all.begin(), all.end(), [&](const ByHand& each) { return each.place == change.place; });
    if (same == all.end())
      all.push_back(change);
    else
      *same = change;
  }
  std::string rest;
  for (std::size_t from = 0; from < settled.size();) {
    const std::size_t end = std::min(settled.find('\n', from), settled.size() - 1) + 1;
    const std::string line = settled.substr(from, end - from);
    if (!line.starts_with(kept_key)) rest += line;
    from = end;
  }
  return rest + as_toml(all);
}

}  // namespace

std::string by_hand_of(const std::string& settled) { return as_toml(changes_in(settled)); }

void put_by_hand(Value& job, const Value& rows) {
  for (const Value& row : rows.items) {
    const Value *place = row.find("at"), *is = row.find("is");
    Value* there = place && is ? at(job, place->text) : nullptr;
    if (!there || is->items.empty()) continue;
    Value value = is->items.size() == 1 ? is->items.front() : *is;
    value.line = there->line;
    for (Value& item : value.items) item.line = there->line;
    *there = value;
  }
}

}  // namespace nonrunner::answers
