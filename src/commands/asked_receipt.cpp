#include "commands/asked_receipt.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <functional>
#include <istream>
#include <map>
#include <set>
#include <sstream>

#include "answers/line_kind.h"
#include "answers/paper_choices.h"
#include "answers/purse.h"
#include "answers/question.h"
#include "book/events/fields.h"
#include "book/ledger/asked_names.h"
#include "book/ledger/names.h"
#include "commands/ask.h"
#include "commands/desk.h"
#include "exact/ends.h"
#include "exact/nearest.h"
#include "text/lower_case.h"
#include "text/tag.h"
#include "text/unicode.h"

namespace nonrunner::commands {

namespace fs = std::filesystem;

namespace {

fs::path draft_of(const Terminal& terminal, const book::Book& book) {
  std::string login;
  for (const char c : terminal.login())
    if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_')
      login += c;
  return book.path().string() + ".draft" + (login.empty() ? "" : "-" + login);
}

struct Answer {
  std::string question, answer;
};

struct StepBack {};

// Turns what was typed into the answer as it is kept; throws Refusal for what it is not.
using Understand = std::function<std::string(const std::string&)>;

// Puts questions one after another; those that are answered already are passed over.
class Asking {
 public:
  Asking(Terminal& terminal, fs::path draft) : terminal_(terminal), draft_(std::move(draft)) { read(); }

  // What was said beside the command's name answers a question once; whoever goes back to it is asked.
  void said(const std::string& question, const std::string& answer) { said_[question] = answer; }
  bool begun() const { return !answers_.empty(); }
  const std::vector<Answer>& answers() const { return answers_; }
  void anew() {
    answers_.clear();
    keep();
  }
  void from_the_start() { at_ = 0; }
  bool is_new() const { return at_ >= answers_.size(); }  // the next question will be put

  // Enter gives `proposed`; what was answered before it was gone back behind stands above that.
  std::string ask(const std::string& question, const std::string& words, const std::string& proposed,
                  const Understand& understand) {
    if (at_ < answers_.size()) {
      if (const auto kept = kept_answer(question, understand)) return *kept;
      answers_.resize(at_);
    }
    const std::string usual = answered_before(question, proposed, understand);
    for (;;) {
      std::string typed;
      const auto said = said_.extract(question);
      if (said)
        typed = said.mapped();
      else
        put(words + (usual.empty() ? "" : " [" + usual + "]"));
      if (!said && !std::getline(*terminal_.in, typed))
        throw Refusal(
            "receipt: the input ended before the paper was whole; what was typed is kept: nonrunner receipt "
            "goes on "
            "with it");
      while (!typed.empty() && (typed.back() == ' ' || typed.back() == '\r')) typed.pop_back();
      if (typed == "<") {
        if (!answers_.empty()) take_back();
        throw StepBack{};
      }
      try {
        if (broken_utf8(typed) || unseen(typed)) throw Refusal("found what nobody can read, expected words");
        typed_here_ = !said && !typed.empty();
        return answered(question, understand(typed.empty() ? usual : typed));
      } catch (const Refusal& refusal) {
        terminal_.err << in_80("  " + printable(refusal.what()), 4);
      }
    }
  }
  void take_back() {
    if (answers_.back().question != "keep") before_[answers_.back().question] = answers_.back().answer;
    answers_.pop_back();
    keep();
  }
  // Whether what is to be understood was typed at its question, where a list with numbers stood above it: a draft and
  // an option hold the names themselves.
  bool typed_here() const { return typed_here_; }
  // Shown only beside a question that is put.
  void tell(const std::string& question, const std::string& text) {
    if (is_new() && !said_.contains(question)) terminal_.err << text;
  }

 private:
  // Where Enter alone is an answer already, it stays that one.
  std::string answered_before(const std::string& question, const std::string& proposed,
                              const Understand& understand) {
    const auto before = before_.find(question);
    if (before == before_.end() || !proposed.empty())
      return before == before_.end() ? proposed : before->second;
    typed_here_ = false;
    try {
      understand("");
      return proposed;
    } catch (const Refusal&) {
      return before->second;
    }
  }
  // The answer stands on the same line, or on the last of them.
  void put(const std::string& words) {
    std::string text = in_80(printable(words), words.find_first_not_of(' ') + 2);
    text.back() = ' ';
    terminal_.err << text << std::flush;
  }
  std::string answered(const std::string& question, const std::string& answer) {
    // What was answered behind a question that is answered otherwise now was about another thing.
    if (const auto before = before_.find(question); before != before_.end() && before->second != answer)
      before_.clear();
    answers_.push_back({question, answer});
    ++at_;
    keep();
    return answer;
  }
  // Nothing where it is of another question, or does not fit any more: the book may have changed since.
  std::optional<std::string> kept_answer(const std::string& question, const Understand& understand) {
    if (answers_[at_].question != question) return std::nullopt;
    try {
      typed_here_ = false;
      const std::string answer = understand(answers_[at_].answer);
      ++at_;
      return answer;
    } catch (const Refusal&) {
      return std::nullopt;
    }
  }
  void read() {
    std::ifstream in(draft_);
    for (std::string line; std::getline(in, line);) {
      const auto tab = line.find('\t');
      if (tab == std::string::npos || broken_utf8(line)) break;
      answers_.push_back({line.substr(0, tab), line.substr(tab + 1)});
    }
  }
  void keep() const {
    const fs::path arriving = draft_.string() + ".arriving";
    std::ofstream out(arriving, std::ios::trunc);
    for (const Answer& each : answers_) out << each.question << "\t" << each.answer << "\n";
    out.close();
    fs::permissions(arriving, fs::perms::owner_read | fs::perms::owner_write);
    fs::rename(arriving, draft_);
  }

  Terminal& terminal_;
  fs::path draft_;
  std::vector<Answer> answers_;
  std::map<std::string, std::string> said_, before_;
  std::size_t at_ = 0;
  bool typed_here_ = false;
};

std::string as_it_is(const std::string& typed) { return typed; }

Understand some_words(const char* what) {
  return [what](const std::string& typed) {
    if (typed.empty()) throw Refusal(fmt::format("found nothing, expected {}", what));
    return typed;
  };
}

Understand no_negative(const Currency& c) {
  return [c](const std::string& typed) {
    const Money amount = typed_money(typed, c);
    if (is_negative(amount)) throw Refusal("found " + amount.plain(c) + ", expected 0 or more");
    return amount.plain(c);
  };
}

Understand yes_or_no() {
  return [](const std::string& typed) -> std::string {
    const std::string small = lower_case(typed);
    if (small == "y" || small == "yes") return "yes";
    if (small == "n" || small == "no") return "no";
    throw Refusal("found \"" + typed + "\", expected y or n");
  };
}

// One of these words, or a beginning that only one has.
Understand one_of_these(std::vector<std::string> words) {
  return [words = std::move(words)](const std::string& typed) {
    std::vector<std::string> begun;
    for (const std::string& each : words) {
      if (each == typed) return each;
      if (!typed.empty() && each.starts_with(lower_case(typed))) begun.push_back(each);
    }
    if (begun.size() == 1) return begun.front();
    throw Refusal(
        fmt::format("found \"{}\", expected {}{}", typed, book::one_of(words), did_you_mean(typed, words)));
  };
}

// A number of the list that was shown, or the words themselves.
Understand from_list(const Asking& asking, std::vector<std::string> names, const char* what) {
  return [&asking, names = std::move(names), what](const std::string& typed) {
    if (typed.empty()) throw Refusal(fmt::format("found nothing, expected {}", what));
    const auto number = scaled(typed, 0);
    if (!number || names.empty() || !asking.typed_here()) return typed;
    if (*number < 1 || static_cast<std::size_t>(*number) > names.size())
      throw Refusal(
          fmt::format("found {}, expected a number from 1 to {}, or {}", typed, names.size(), what));
    return names[static_cast<std::size_t>(*number) - 1];
  };
}

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    // The number keeps its column where the name is broken.
    const std::string number = fmt::format("  {:>2}  ", i + 1);
    text += number +
            in_80(std::string(number.size(), ' ') + printable(names[i]), number.size()).substr(number.size());
  }
  return text;
}

// The paper as it grows.
class Paper {
 public:
  Paper(Asking& asking, const Terminal& terminal, const book::Book& book)
      : asking_(asking),
        terminal_(terminal),
        book_(book),
        c_(book.currency()),
        open_(answers::open_lines(book, terminal.today)),
        cars_(answers::cars_owned(book, terminal.today)),
        known_(book::all_tags(book)) {}

  book::Receipt asked() {
    head();
    while (line() && more_lines()) {
    }
    tax();
    total();
    paid();
    check();
    return receipt_;
  }

 private:
  void head() {
    const auto known = answers::suppliers_known(book_);
    auto last = known;
    if (last.size() > 9) last.resize(9);
    if (!last.empty()) asking_.tell("supplier", listed(last));
    receipt_.supplier =
        asking_.ask("supplier", last.empty() ? "supplier?" : "supplier? (a number, or its name)", "",
                    a_supplier(known, last));
    receipt_.number = asking_.ask("number", "number of the paper? (Enter: none)", "", as_it_is);
    const std::string day = asking_.ask("day", "day?", "today", [&](const std::string& typed) {
      const Day meant = typed_day(typed, terminal_.today, Looks::back);
      if (meant > terminal_.today)
        throw Refusal("found " + meant.iso() + ", which has not come yet, expected " + terminal_.today.iso() +
                      " at the latest");
      return meant.iso();
    });
    receipt_.day = Day::parse(day);
  }

  // One that is written nearly as a known one is taken where it is typed once more.
  Understand a_supplier(std::vector<std::string> known, std::vector<std::string> last) const {
    return [this, known = std::move(known), from_last = from_list(asking_, std::move(last), "who sold it"),
            before = std::string()](const std::string& typed) mutable {
      const std::string name = from_last(typed);
      const auto near = book::slip_of_name(name, known);
      if (!near || !asking_.is_new() || name == before) return name;
      before = name;
      throw Refusal(fmt::format(
          "found \"{}\", did you mean \"{}\"? if it is a new one type it once more, as it is", name, *near));
    };
  }

  // "radiator" of the open lines, with its car; or words of one's own.
  // False: behind the first, nothing was named, and there is no other line.
  bool line() {
    const std::string n = std::to_string(receipt_.lines.size() + 1);
    std::vector<std::string> names, shown;
    for (const answers::OpenLine& each : open_) {
      names.push_back(each.vehicle + ": " + each.name);
      shown.push_back(names.back() + (each.waits ? ", its paper is missing" : ""));
    }
    if (!shown.empty()) asking_.tell("line " + n + " what", "still to come:\n" + listed(shown));
    const std::string what = asking_.ask(
        "line " + n + " what",
        "line " + n + ": what?" + (shown.empty() ? "" : " (a number, or words)") +
            (receipt_.lines.empty() ? "" : " (Enter: no other line)"),
        "", [&, first = receipt_.lines.empty()](const std::string& typed) -> std::string {
          const std::string small = lower_case(typed);
          if (!first && (typed.empty() || small == "n" || small == "no")) return "";
          if (!first && (small == "y" || small == "yes"))
            throw Refusal("found \"" + typed + "\", expected what else was bought; Enter: no other line");
          return from_list(
              asking_, names,
              "what was bought; < goes back a step, Ctrl-C stops and keeps what was typed")(typed);
        });
    if (what.empty()) return false;
    book::ReceiptLine line;
    const auto chosen = std::find(names.begin(), names.end(), what);
    if (chosen != names.end())
      from_budget(line, n, open_[static_cast<std::size_t>(chosen - names.begin())]);
    else
      in_own_words(line, n, what);
    amounts(line, n);
    receipt_.lines.push_back(line);
    return true;
  }

  void from_budget(book::ReceiptLine& line, const std::string& n, const answers::OpenLine& open) {
    line.what = open.name;
    line.kind = open.kind;
    line.shares = {{open.vehicle, 1000}};
    line.under[open.vehicle] = open.name;
    if (!open.source.empty()) source(line, n, open.source);
  }

  // What was planned is not what was bought: it is only the usual answer.
  void source(book::ReceiptLine& line, const std::string& n, const std::string& planned) {
    const std::string source =
        asking_.ask("line " + n + " source", "  new, salvage or reman?", planned.empty() ? "unsaid" : planned,
                    one_of_these({"new", "salvage", "reman", "unsaid"}));
    if (source != "unsaid") line.source = source;
  }

  std::vector<std::string> places() const {
    std::vector<std::string> all = cars_.empty() ? known_ : cars_;
    for (const char* own : {"stock", "tool", "overhead", "private"}) all.emplace_back(own);
    return all;
  }

  void in_own_words(book::ReceiptLine& line, const std::string& n, const std::string& what) {
    line.what = what;
    const std::string last = last_car();
    const std::string place =
        asking_.ask("line " + n + " for", "  for which car? (or stock, tool, overhead, private)", last,
                    [&](const std::string& typed) -> std::string {
                      const std::string tag = as_tag(typed);
                      if (tag.empty())
                        throw Refusal("found nothing, expected a car, stock, tool, overhead or private");
                      for (const char* own : {"stock", "tool", "overhead", "private"})
                        if (tag == own) return tag;
                      if (!is_known(tag))
                        throw Refusal(fmt::format("found \"{}\", expected {}{}", typed,
                                                  book::one_of(places()), did_you_mean(tag, known_)));
                      return tag;
                    });
    if (!is_known(place)) {
      line.kind = place;
      if (place == "stock") stock(line, n);
      return;
    }
    line.shares = {{place, 1000}};
    line.kind = asking_.ask("line " + n + " kind", "  part, consumable, sublet or fee?",
                            answers::line_kind(book_, place, what),
                            one_of_these({"part", "consumable", "sublet", "fee"}));
    if (line.kind == "part") source(line, n, "");
  }

  void stock(book::ReceiptLine& line, const std::string& n) {
    line.stock =
        asking_.ask("line " + n + " item", "  which item of the shelf?", line.what, some_words("its name"));
    line.gives = Quantity::parse(
        asking_.ask("line " + n + " gives", "  how many are used units of each piece?", "1", pieces()));
  }

  static Understand pieces() {
    return [](const std::string& typed) {
      const Quantity quantity = Quantity::parse(plain_number(typed));
      if (quantity <= Quantity{}) throw Refusal("found " + typed + ", expected more than 0");
      return quantity.shown();
    };
  }

  void amounts(book::ReceiptLine& line, const std::string& n) {
    line.quantity = Quantity::parse(asking_.ask("line " + n + " pieces", "  pieces?", "1", pieces()));
    const bool several = line.quantity != Quantity::of(1000);
    const std::string amount = asking_.ask(
        "line " + n + " amount", several ? "  amount for all of them? (or each: @12.50)" : "  amount?", "",
        [&](const std::string& typed) -> std::string {
          if (typed.starts_with('@')) return "@" + typed_price(typed.substr(1), c_).plain(c_);
          return typed_money(typed, c_).plain(c_);
        });
    if (amount.starts_with('@'))
      line.unit = Price::parse(amount.substr(1), c_);
    else
      line.amount = Money::parse(amount, c_);
    if (line.kind != "part") return;
    line.core =
        Money::parse(asking_.ask("line " + n + " core", "  core deposit on one?", "0", no_negative(c_)), c_);
    if (is_zero(line.core)) return;
    const std::string by =
        asking_.ask("line " + n + " core by", "  its last day?", "none", [&](const std::string& typed) {
          return typed == "none" ? typed : typed_last_day(typed, terminal_.today, receipt_.day).iso();
        });
    if (by != "none") line.core_by = Day::parse(by);
  }

  bool more_lines() {
    return asking_.ask("more after " + std::to_string(receipt_.lines.size()),
                       fmt::format("another line? so far {}", sum().shown(c_)), "y", yes_or_no()) == "yes";
  }

  void tax() {
    receipt_.tax = Money::parse(asking_.ask("tax", "tax?", "0", no_negative(c_)), c_);
    if (!is_zero(receipt_.tax)) {
      const std::string which =
          asking_.ask("taxed", "which lines are taxed? (1,3)", "all", [&](const std::string& typed) {
            (void)taxed_lines(typed);
            return typed;
          });
      for (const std::size_t at : taxed_lines(which)) receipt_.lines[at].taxed = true;
    }
    receipt_.shipping = Money::parse(asking_.ask("shipping", "shipping?", "0", no_negative(c_)), c_);
    receipt_.discount = Money::parse(asking_.ask("discount", "discount?", "0", a_discount()), c_);
  }

  // Of what the paper comes to before it.
  Understand a_discount() const {
    return [this, most = sum()](const std::string& typed) {
      const std::string amount = no_negative(c_)(typed);
      if (Money::parse(amount, c_) > most)
        throw Refusal(fmt::format("found {}, expected at most {}, what the paper comes to without it", amount,
                                  most.shown(c_)));
      return amount;
    };
  }

  std::set<std::size_t> taxed_lines(const std::string& typed) const {
    std::set<std::size_t> all;
    if (typed == "all") {
      for (std::size_t i = 0; i < receipt_.lines.size(); ++i) all.insert(i);
      return all;
    }
    std::istringstream in(typed);
    for (std::string each; std::getline(in, each, ',');) {
      each.erase(0, each.find_first_not_of(' '));
      const auto number = scaled(each, 0);
      if (!number || *number < 1 || static_cast<std::size_t>(*number) > receipt_.lines.size())
        throw Refusal(fmt::format("found \"{}\", expected all, or numbers of lines from 1 to {}", typed,
                                  receipt_.lines.size()));
      all.insert(static_cast<std::size_t>(*number) - 1);
    }
    if (all.empty()) throw Refusal("found nothing, expected all, or numbers of lines");
    return all;
  }

  Money sum() const {
    Money sum = receipt_.tax + receipt_.shipping - receipt_.discount;
    for (const book::ReceiptLine& line : receipt_.lines)
      sum += (line.amount ? *line.amount : line.unit->times(line.quantity)) +
             Price::of(line.core).times(line.quantity);
    return sum;
  }

  void total() {
    const Money ours = sum();
    const auto understand = [&](const std::string& typed) {
      const Money total = typed_money(typed, c_);
      if (total == ours) return total.plain(c_);
      const Money apart = total - ours;
      throw Refusal(
          fmt::format("the lines come to {}, the paper says {}: {} {}; < goes back to what is wrong",
                      ours.shown(c_), total.shown(c_), (is_negative(apart) ? -apart : apart).shown(c_),
                      is_negative(apart) ? "too much is typed" : "is missing"));
    };
    receipt_.total = Money::parse(asking_.ask("total", "total, as printed?", ours.plain(c_), understand), c_);
  }

  void paid() {
    std::vector<std::string> purses;
    for (const answers::Choice& choice : answers::which_purse(book_, "receipt").choices)
      purses.push_back(choice.value);
    const auto only = answers::only_purse(book_);
    const auto last = only ? only : answers::last_purse(book_, "receipt", receipt_.supplier);
    if (last && std::find(purses.begin(), purses.end(), *last) == purses.end()) purses.push_back(*last);
    purses.push_back("on account");
    asking_.tell("purse", listed(purses));
    const std::string purse =
        asking_.ask("purse", "paid from which purse?", last.value_or(""), [&](const std::string& typed) {
          const std::string name = from_list(asking_, purses, "a purse")(typed);
          if (std::find(purses.begin(), purses.end(), name) == purses.end())
            throw Refusal(fmt::format("found \"{}\", expected {}{}", name, book::one_of(purses),
                                      did_you_mean(name, purses)));
          return name;
        });
    receipt_.on_account = purse == "on account";
    if (!receipt_.on_account) receipt_.paid = {{purse, receipt_.total}};
  }

  void check() {
    std::string text =
        fmt::format("{} {}{}, {} {}\n", receipt_.day.iso(), receipt_.supplier,
                    receipt_.number.empty() ? "" : " " + receipt_.number, receipt_.total.shown(c_),
                    receipt_.on_account ? "on account" : "from " + receipt_.paid[0].first);
    for (const book::ReceiptLine& line : receipt_.lines)
      text += fmt::format("  {} {}{}\n", line.quantity.shown(), line.what,
                          line.shares.empty() ? "" : " for " + line.shares[0].vehicle);
    asking_.tell("keep", printable_lines(text));
    if (asking_.ask("keep", "keep it?", "y", yes_or_no()) == "yes") return;
    asking_.take_back();
    throw Refusal("receipt: not kept; what was typed waits: nonrunner receipt goes on with it");
  }

  static std::string printable_lines(const std::string& text) {
    std::string all;
    std::istringstream in(text);
    for (std::string each; std::getline(in, each);) all += in_80(printable(each), 4);
    return all;
  }

  bool is_known(const std::string& tag) const {
    return std::find(known_.begin(), known_.end(), tag) != known_.end();
  }

  std::string last_car() const {
    for (auto line = receipt_.lines.rbegin(); line != receipt_.lines.rend(); ++line)
      if (!line->shares.empty()) return line->shares.front().vehicle;
    return cars_.size() == 1 ? cars_.front() : "";
  }

  Asking& asking_;
  const Terminal& terminal_;
  const book::Book& book_;
  const Currency& c_;
  std::vector<answers::OpenLine> open_;
  std::vector<std::string> cars_;   // owned
  std::vector<std::string> known_;  // these, those that are gone, as a paper may be late, and those looked at
  book::Receipt receipt_;
};

// What was typed so far: the head, then a line for each line of the paper.
std::string typed_so_far(const std::vector<Answer>& answers) {
  std::vector<std::string> lines(1);
  for (const auto& [question, answer] : answers) {
    const std::string part = question.starts_with("line ") ? question.substr(question.find(' ', 5) + 1) : "";
    if (part == "what") {
      if (!answer.empty()) lines.push_back(fmt::format("  {}  {}", lines.size(), answer));
    } else if (part == "for") {
      lines.back() += ", for " + answer;
    } else if (part == "pieces") {
      if (answer != "1") lines.back() += ", " + answer + " pieces";
    } else if (part == "amount") {
      lines.back() += ", " + (answer.starts_with('@') ? answer.substr(1) + " each" : answer);
    } else if (part == "core" || question == "tax" || question == "shipping" || question == "discount") {
      const bool is_core = part == "core";
      if (answer.find_first_of("123456789") == std::string::npos) continue;
      if (is_core)
        lines.back() += ", core " + answer;
      else
        lines.push_back("  " + question + " " + answer);
    } else if (question == "supplier" || question == "number" || question == "day") {
      if (!answer.empty()) lines.front() += (question == "supplier" ? "" : ", ") + answer;
    } else if (question == "purse") {
      lines.push_back("  " + (answer == "on account" ? answer : "from " + answer));
    }
  }
  std::string text;
  for (const std::string& line : lines) text += in_80(printable(line), 5);
  return text;
}

// A draft that is there may be of a paper that nobody wants any more. One that was whole, and that the book then refused,
// is gone on with at its last question, from where one goes back to what is wrong.
void go_on_or_begin_anew(Asking& asking, Terminal& terminal, bool beside_words) {
  if (!asking.begun()) return;
  const std::string& supplier = asking.answers().front().answer;
  const answers::Question question{"receipt",
                                   "a paper of " + supplier + " was begun: go on with it",
                                   {{"y", "yes", "", ""}, {"n", "no", "", ""}},
                                   0};
  if (ask(question, terminal) == 1) {
    asking.anew();
    return;
  }
  if (beside_words)
    throw WrongUsage(
        "receipt: found options beside a paper that was begun, expected none: its questions go on; see: "
        "nonrunner receipt --help");
  if (asking.answers().back().question == "keep") asking.take_back();
  terminal.err << typed_so_far(asking.answers());
}

// The options that answer a question; any other one would be lost. Gives whether there were any.
bool take_said(const Given& given, Asking& asking) {
  bool any = false;
  const auto take = [&](const char* option, const char* question) {
    const auto text = given.text(option);
    if (text) asking.said(question, *text);
    any = any || text;
  };
  take("supplier", "supplier");
  take("number", "number");
  take("date", "day");
  take("purse", "purse");
  if (given.flag("on-account")) {
    if (given.flag("purse")) given.wrong("found --on-account and --purse, expected one of them");
    asking.said("purse", "on account");
    any = true;
  }
  for (const char* of_a_line :
       {"kind", "source", "gives", "core", "core-by", "id", "for", "more", "whole", "no-paper"})
    if (given.flag(of_a_line))
      given.wrong(fmt::format(
          "found --{} without words, expected TAG AMOUNT WHAT beside it; without words it is asked "
          "for line by line",
          of_a_line));
  return any;
}

}  // namespace

book::Receipt asked_receipt(const Given& given, Terminal& terminal, const book::Book& book) {
  if (terminal.in == nullptr)
    given.wrong(
        "found no words, expected TAG AMOUNT WHAT, or --file or --csv; questions are asked at a terminal "
        "only");
  Asking asking(terminal, draft_of(terminal, book));
  go_on_or_begin_anew(asking, terminal, take_said(given, asking));
  terminal.err << in_80("< goes back a step, Ctrl-C stops and keeps what was typed", 2);
  for (;;) {
    try {
      asking.from_the_start();
      return Paper(asking, terminal, book).asked();
    } catch (const StepBack&) {
    }
  }
}

void forget_draft(const Terminal& terminal, const book::Book& book) {
  std::error_code ignored;
  fs::remove(draft_of(terminal, book), ignored);
}

}  // namespace nonrunner::commands
