#include "commands/appraise_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "commands/block_digits.h"
#include "commands/desk.h"
#include "commands/spread_picture.h"
#include "figures/opinion.h"
#include "words/offer_in_words.h"

namespace nonrunner::commands {

namespace {

using namespace appraisal;

constexpr std::size_t width = 80;
constexpr std::size_t costs_shown = 5;
constexpr std::size_t moves_shown = 12;

std::string percent(double chance) {
  if (chance > 0 && chance < 0.01) return "below 1 %";
  if (chance > 0.99 && chance < 1) return "above 99 %";
  return fmt::format("{:.0f} %", 100 * chance);
}

class Page {
 public:
  explicit Page(const Appraisal& a) : a_(a), job_(a.job) {}

  std::string first() const { return heading() + answer() + test_first(); }
  std::string further() const { return offers() + causes() + haggling() + risk() + comparables(); }
  std::string detail() const { return courses() + plan() + fixes() + moves() + cautions(); }
  // The answer once more: on a small screen the first lines have gone by when the last ones stand there.
  std::string in_one_line() const {
    const double price = a_.walk_away.price;
    const std::string better = words::better_in_short(a_);
    return "\n" + in_80(fmt::format("{}{}: {}{}", word(), better.empty() ? "" : " as it stands",
                                    price > 0 ? fmt::format("never pay more than {}; {} is asked",
                                                            money(price), money(a_.asking))
                                              : "not even as a gift",
                                    better.empty() ? "" : "; " + better),
                        0);
  }
  std::string notes() const {
    std::string text;
    for (const std::string& note : a_.notes) text += in_80("note: " + note, 6);
    return text.empty() ? "" : "\n" + text;
  }

 private:
  std::string money(double amount) const { return shown_units(amount, job_.currency); }
  std::string gain_or_loss(double amount) const {
    return amount < 0 ? "a loss of " + money(-amount) : "a profit of " + money(amount);
  }

  std::string heading() const {
    std::string text =
        cut_to(job_.vehicle.tag + (job_.vehicle.description.empty() ? "" : ": " + job_.vehicle.description),
               width) +
        "\n";
    if (!job_.vehicle.complaint.empty()) text += cut_to("complaint: " + job_.vehicle.complaint, width) + "\n";
    return text;
  }

  std::string aim() const {
    const std::string& binding = a_.walk_away.binding;
    const std::string at = a_.walk_away.price > 0 ? "at a higher price " : "even as a gift ";
    if (binding == "profit")
      return "The aim for profit sets it: " + at + "the profit aimed at is not to be expected.";
    if (binding == "per_hour")
      return "The aim per own hour sets it: " + at + "an hour is not expected to earn as much.";
    return "The aim for the chance of a loss sets it: " + at + "losing money is likelier than you accept.";
  }

  std::string word() const {
    switch (a_.verdict) {
      case Verdict::buy:
        return "BUY";
      case Verdict::test_first:
        return "TEST FIRST";
      case Verdict::offer_less:
        return "OFFER LESS";
      case Verdict::walk_away:
        return "WALK AWAY";
    }
    return "";
  }

  std::string answer() const {
    const double price = a_.walk_away.price;
    const std::string rule(width, '=');
    const std::string better = words::better_in_words(a_);
    std::string text = "\n" + rule + "\n  " + word();
    if (price > 0) {
      text += better.empty()
                  ? "        never pay more than (" + job_.currency.code + "), as things are known now:\n\n"
                  : "  as it stands: never pay more than (" + job_.currency.code +
                        "), as things are known now:\n\n";
      text += block_digits(money(price), 4);
    } else {
      text += better.empty() ? "        not even as a gift\n" : "  as it stands: not even as a gift\n";
    }
    text += rule + "\n";
    if (!better.empty()) text += in_80(better, 0) + "\n";
    text += in_80(aim(), 0);
    text += in_80(fmt::format("Bought {}at {}: {} is to be expected, and the chance of losing money is {}.",
                              better.empty() ? "" : "as it stands, ", money(a_.asking),
                              gain_or_loss(a_.expected.profit), percent(a_.risk.loss_chance)),
                  0);
    return text;
  }

  std::string test_first() const {
    if (a_.after_first_test.empty()) {
      if (a_.plan.tests.empty()) return "";
      return "\n" + in_80(
                        "No test that can still be made is worth its cost at this price: none would change "
                        "what to do.",
                        0);
    }
    const Test& test = job_.tests[a_.plan.steps.which];
    std::string text =
        "\n" + in_80("Test next: " + test.name +
                         (a_.verdict == Verdict::test_first || a_.verdict == Verdict::buy
                              ? "."
                              : ". It hardly pays at the price asked; what it shows changes what to offer."),
                     0);
    Columns columns("lrl");
    for (const AfterTest& after : a_.after_first_test)
      columns.row({"  " + test.outcomes[after.outcome],
                   after.walk_away.price > 0 ? "up to " + money(after.walk_away.price) : "walk away",
                   words::then_in_words(a_, after)});
    return text + columns.text(width);
  }

  std::string causes() const {
    std::string text = "\nWHAT IT MAY BE                       profit before price, fees and opening up\n";
    std::vector<std::size_t> order;
    for (std::size_t c = 0; c < a_.causes.size(); ++c)
      if (a_.causes[c].probability > 0) order.push_back(c);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t x, std::size_t y) {
      return a_.causes[x].probability > a_.causes[y].probability;
    });
    Columns columns("rllr");
    for (const std::size_t c : order) {
      const CauseFigures& cause = a_.causes[c];
      columns.row({percent(cause.probability), job_.causes[c].name, best_of(cause), money(cause.counted)});
    }
    text += columns.text(width);
    for (std::size_t j = 0; j < a_.troubles.size(); ++j)
      if (a_.troubles[j] > 0)
        text += in_80(fmt::format("and with a chance of {}, whatever the cause: {}", percent(a_.troubles[j]),
                                  job_.troubles[j].name),
                      2);
    return text;
  }

  // The courses that are best in some case of the troubles, the likeliest first.
  std::string best_of(const CauseFigures& cause) const {
    std::string names = name_of(cause.best);
    for (std::size_t k = 0; k < all_courses.size(); ++k)
      if (all_courses[k] != cause.best && cause.taken[k] > 0)
        names += std::string(" or ") + name_of(all_courses[k]);
    return names;
  }

  std::string haggling() const {
    std::string text = "\nTO NAME WHEN HAGGLING                             costs, own hours counted\n";
    bool all_counted = true;
    Columns columns("rll");
    for (std::size_t i = 0; i < a_.costs_to_name.size() && i < costs_shown; ++i) {
      const CostToName& cost = a_.costs_to_name[i];
      columns.row({(cost.counted ? "" : "*") + money(cost.amount), cost.what,
                   cost.chance < 1 ? percent(cost.chance) : ""});
      all_counted = all_counted && cost.counted;
    }
    text += columns.text(width);
    if (a_.costs_to_name.size() > costs_shown) {
      double rest = 0;
      for (std::size_t i = costs_shown; i < a_.costs_to_name.size(); ++i)
        rest += a_.costs_to_name[i].chance * a_.costs_to_name[i].amount;
      text += fmt::format("and {} smaller ones, {} together\n", a_.costs_to_name.size() - costs_shown,
                          money(rest));
    }
    if (!all_counted)
      text += in_80(
          "* only to put it right, which is not what pays here: a reason to ask for less, not a cost that is "
          "counted",
          2);
    return text;
  }

  std::string risk() const {
    const Risk& r = a_.risk;
    std::string text =
        "\nRISK                                              cash profit at " + money(a_.asking) + "\n";
    text += spread_picture(r, job_.currency);
    text += in_80(fmt::format("One time in twenty below {}, one in twenty above {}; half the time above {}.",
                              money(r.cash_profit[0]), money(r.cash_profit[4]), money(r.cash_profit[2])),
                  0);
    const Expected& e = a_.expected;
    text +=
        in_80(fmt::format("Expected: cash profit {}, own hours {:.1f}, so profit after own hours {}; days "
                          "{:.0f}; cash needed {}.",
                          money(e.cash_profit), e.own_hours, money(e.profit), e.days, money(e.cash_needed)),
              0);
    if (e.per_hour) text += fmt::format("Cash profit per own hour {}.\n", money(*e.per_hour));
    return text;
  }

  // Where the sound value comes from similar cars: what they say, and how widely.
  std::string comparables() const {
    if (!a_.sound.fit) return "";
    const auto& fit = *a_.sound.fit;
    const std::size_t number = fit.rows.size();
    return in_80(
        fmt::format(
            "Sound it sells for {}, nine times in ten between {} and {}, by {} comparable{} and what is "
            "believed beside {}.",
            money(a_.sound.mean), money(a_.sound.quantile(0.05)), money(a_.sound.quantile(0.95)), number,
            number == 1 ? "" : "s", number == 1 ? "it" : "them"),
        0);
  }

  std::string offers() const {
    if (a_.offers.size() < 2) return "";
    std::string text = "\nOFFERS: the highest price at which every aim holds; * the one to take\n";
    Columns columns("llrrrr");
    columns.row({"", "", "price", "up to", "expected profit", "loss"});
    for (std::size_t k = 0; k < a_.offers.size(); ++k) {
      const OfferFigures& offer = a_.offers[k];
      const bool take = a_.better ? k == *a_.better : k == 0 && offer.all_aims_hold();
      columns.row({take ? "*" : "", offer.name, money(offer.price),
                   offer.walk_away.price > 0 ? money(offer.walk_away.price) : "no price",
                   money(offer.expected_profit), percent(offer.loss_chance)});
    }
    return text + columns.text(width);
  }

  std::string courses() const {
    std::string text = "\nCOURSES: profit before price, fees and opening up (its days are in); * the best\n";
    const bool by_troubles = std::ranges::any_of(a_.causes, [](const CauseFigures& cause) {
      return std::ranges::count_if(cause.taken, [](double chance) { return chance > 0; }) > 1;
    });
    Columns columns(by_troubles ? "lrrrrr" : "lrrrr");
    std::vector<std::string> head = {"", "put right", "as found", "part out", "scrap"};
    if (by_troubles) head.emplace_back("counted");
    columns.row(head);
    for (std::size_t c = 0; c < a_.causes.size(); ++c) {
      const CauseFigures& cause = a_.causes[c];
      std::vector<std::string> row = {job_.causes[c].name};
      for (std::size_t k = 0; k < all_courses.size(); ++k) {
        const std::string mark = cause.taken[k] > 1 - 1e-9 ? "*" : cause.taken[k] > 0 ? "+" : "";
        row.push_back(cause.profit[k] ? mark + money(*cause.profit[k]) : "-");
      }
      if (by_troubles) row.push_back(money(cause.counted));
      columns.row(row);
    }
    text += columns.text(width);
    if (by_troubles)
      text += in_80(
          "+ the best under some of the troubles and not under others; counted: the mean with the best one "
          "in "
          "each case, which the answer rests on",
          2);
    return text + where_barred();
  }

  // What the figure of "put right" is the mean over, where a trouble can bar the road.
  std::string where_barred() const {
    double free = 1;
    std::string names;
    for (std::size_t j = 0; j < a_.troubles.size(); ++j) {
      if (!job_.troubles[j].bars_road || a_.troubles[j] == 0) continue;
      free *= 1 - a_.troubles[j];
      names += (names.empty() ? "\"" : ", \"") + job_.troubles[j].name + "\"";
    }
    if (names.empty() || job_.road_barred) return "";
    if (free == 0)
      return in_80(fmt::format("put right: not possible, since {} bars the road for certain", names), 2);
    return in_80(fmt::format("put right: the mean of the {} of cases without {}, which bars the road; in the "
                             "others it cannot be put right",
                             percent(free), names),
                 2);
  }

  void add_step(const PlanStep& step, std::size_t indent, std::string& text) const {
    for (const PlanStep::Branch& branch : step.branches) {
      std::string line =
          fmt::format("{} ({}): ", job_.tests[step.which].outcomes[branch.outcome], percent(branch.chance));
      if (branch.step.empty()) {
        text += in_80(std::string(indent, ' ') + line + "go on", indent + 4);
        continue;
      }
      const PlanStep& next = branch.step.front();
      switch (next.act) {
        case Do::walk_away:
          line += "walk away";
          break;
        case Do::buy:
          line += fmt::format("buy {}, worth {}", a_.offers[next.which].name, money(next.worth));
          break;
        case Do::test:
          line += fmt::format("test: {}, worth {}", job_.tests[next.which].name, money(next.worth));
          break;
      }
      text += in_80(std::string(indent, ' ') + line, indent + 4);
      add_step(next, indent + 2, text);
    }
  }

  std::string plan() const {
    if (a_.plan.tests.empty()) return "";
    std::string text = "\nPLAN: worth above the profit aimed at, by that aim alone\n";
    text +=
        in_80(fmt::format("deciding now {}; the best plan {}; knowing everything would add {}",
                          money(a_.plan.decide_now), money(a_.plan.best), money(a_.plan.perfect_information)),
              2);
    Columns columns("lrrr");
    columns.row({"each test alone", "costs", "brings", "net"});
    for (const TestWorth& test : a_.plan.tests)
      columns.row({job_.tests[test.test].name, money(test.cost), money(test.gross), money(test.net)});
    text += columns.text(width);
    if (a_.plan.steps.act != Do::test) return text;
    text += in_80("begin with: " + job_.tests[a_.plan.steps.which].name, 2);
    add_step(a_.plan.steps, 2, text);
    return text;
  }

  std::string fixes() const {
    if (job_.faults.empty()) return "";
    std::string text = "\nFIXES: gain of each; * to be made\n";
    Columns columns("lllr");
    for (std::size_t i = 0; i < job_.faults.size(); ++i) {
      const FixChoice& choice = a_.fixes.choices[i];
      for (std::size_t k = 0; k < job_.faults[i].fixes.size(); ++k)
        columns.row({choice.fix == k ? "*" : "", job_.faults[i].name + (job_.faults[i].must ? " (must)" : ""),
                     job_.faults[i].fixes[k].name, money(choice.gains[k])});
      if (!choice.fix) columns.row({"", job_.faults[i].name, "left as it is", ""});
    }
    text += columns.text(width);
    return text + fmt::format("together {} and {:.1f} own hours; {} stays off the price\n",
                              money(a_.fixes.cash), a_.fixes.hours * job_.shop.pace.mean(),
                              money(a_.fixes.still_off));
  }

  std::string moves() const {
    if (a_.moves.empty()) return "";
    std::string text = "\nWHAT MOVES THE ANSWER: expected profit with it at its 10 % and its 90 % point\n";
    Columns columns("lrr");
    for (std::size_t i = 0; i < a_.moves.size() && i < moves_shown; ++i)
      columns.row({a_.moves[i].amount, money(a_.moves[i].profit_at_10), money(a_.moves[i].profit_at_90)});
    text += columns.text(width);
    if (a_.moves.size() > moves_shown)
      text += fmt::format("and {} that move it less\n", a_.moves.size() - moves_shown);
    return text;
  }

  std::string cautions() const {
    std::string text = "\nCAUTIONS: in general words; instructions of the maker and local rules come first\n";
    for (const Caution& caution : a_.cautions) {
      text += in_80(caution.about + ": " + caution.text, 2);
      std::string named;
      for (const std::string& operation : caution.operations)
        named += (named.empty() ? "at: " : "; ") + operation;
      if (!named.empty()) text += in_80("  " + named, 6);
    }
    return text + in_80(
                      "Titles, odometer statements, dealer rules and tax: local law decides. Nothing here is "
                      "advice.",
                      0);
  }

  const Appraisal& a_;
  const Job& job_;
};

}  // namespace

std::string as_text(const Appraisal& a, bool detail) {
  const Page page(a);
  std::string text = page.first() + page.further();
  if (detail) return text + page.detail() + page.notes() + page.in_one_line();
  text += page.notes();
  std::string hazards;
  for (const Caution& caution : a.cautions) hazards += (hazards.empty() ? "" : ", ") + caution.about;
  if (!hazards.empty())
    text += "\n" + in_80("cautions: " + hazards + "; what each asks for, and all figures: --detail", 2);
  return text + page.in_one_line();
}

}  // namespace nonrunner::commands
