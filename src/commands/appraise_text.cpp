#include "commands/appraise_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "commands/block_digits.h"
#include "commands/desk.h"
#include "commands/screen.h"
#include "commands/spread_picture.h"
#include "text/counted.h"
#include "words/appraise.h"
#include "words/offer_in_words.h"

namespace nonrunner::commands {

namespace {

using namespace appraisal;

constexpr std::size_t lines_most = 40;  // of the answer without detail
constexpr std::size_t moves_shown = 12;

class Page {
 public:
  // Without detail so many causes, and costs to name when haggling.
  Page(const Appraisal& a, bool detail, std::size_t causes, std::size_t costs)
      : a_(a), job_(a.job), say_(a, detail), detail_(detail), causes_shown_(causes), costs_shown_(costs) {}

  std::string first() const { return heading() + answer() + test_next(); }
  std::string at_the_seller() const { return causes() + haggling(); }
  std::string detail() const {
    return offers() + risk() + comparables() + ways() + courses() + plan() + fixes() + moves() + cautions();
  }
  std::string notes() const {
    std::string text;
    for (const std::string& note : a_.notes) text += in_80("note: " + note, 6);
    return text.empty() ? "" : "\n" + text;
  }

  // What to do now, last: on a small screen the first lines have gone by when it stands there.
  std::string next() const {
    std::string text = say_.next();
    if (a_.verdict == Verdict::test_first)
      text += fmt::format("; then say what it showed, by its number above: --seen {}=OUTCOME",
                          a_.next_plan().steps.which + 1);
    return "\n" + in_80(say_.word() + ": " + text, 2);
  }

 private:
  std::string money(double amount) const { return say_.money(amount); }
  std::string roughly(double amount) const { return say_.roughly(amount); }

  std::string heading() const {
    const Vehicle& vehicle = job_.vehicle;
    std::string name = vehicle.tag;
    if (!vehicle.description.empty()) name += (name.empty() ? "" : ": ") + vehicle.description;
    std::string text = name.empty() ? "" : cut_to(name, screen_columns()) + "\n";
    if (!vehicle.complaint.empty())
      text += cut_to("complaint: " + vehicle.complaint, screen_columns()) + "\n";
    return text;
  }

  std::string answer() const {
    const std::string rule(std::min(screen_columns(), usual_columns), '=');
    // Where deciding now means another offer than the plain one the head names it.
    const std::string verdict = say_.verdict();
    std::string text = "\n" + rule + "\n  " + verdict + (verdict == say_.word() ? "" : "\n") + "        " +
                       say_.before_price() + "\n";
    if (!say_.never_more().empty()) text += "\n" + block_digits(say_.never_more(), 4);
    text += rule + "\n";
    for (const std::string& each : say_.reasons()) text += in_80(each, 0);
    return text;
  }

  std::string test_next() const {
    if (a_.after_first_test.empty()) return "";
    // With the option by which its outcomes, numbered below, are said.
    std::string next = say_.test_next();
    if (const auto at = next.find(", at "); at != std::string::npos) next.insert(at, " (--seen)");
    std::string text = "\n" + in_80(next, 2);
    const std::size_t test = a_.next_plan().steps.which;
    Columns columns("llrl");
    std::string barred;
    for (const AfterTest& after : a_.after_first_test) {
      columns.row({fmt::format("  {}={}", test + 1, after.outcome + 1),
                   job_.tests[test].outcomes[after.outcome], say_.up_to(after),
                   words::then_in_words(a_, after)});
      if (const std::string why = say_.barred(after); !why.empty()) barred += in_80(why, 4);
    }
    return text + columns.text() + barred;
  }

  std::string causes() const {
    std::string text = "\nWHAT IT MAY BE, BY NUMBER            profit before price, fees and opening up\n";
    std::vector<std::size_t> order;
    for (std::size_t c = 0; c < a_.causes.size(); ++c)
      if (a_.causes[c].probability > 0) order.push_back(c);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t x, std::size_t y) {
      return a_.causes[x].probability > a_.causes[y].probability;
    });
    Columns columns("rrllr");
    std::size_t shown = 0;
    for (const std::size_t c : order) {
      if (!detail_ && shown == causes_shown_ && order.size() > shown + 1) break;
      const CauseFigures& cause = a_.causes[c];
      columns.row({words::in_percent(cause.probability), std::to_string(c + 1), job_.causes[c].name,
                   say_.best_of(cause), roughly(cause.counted)});
      ++shown;
    }
    text += columns.text();
    if (shown < order.size()) text += fmt::format("and {} less likely ones\n", order.size() - shown);
    const std::string troubles = say_.troubles();
    return troubles.empty() ? text : text + in_80(troubles, 2);
  }

  std::string haggling() const {
    if (a_.costs_to_name.empty() && !a_.first_figure) return "";
    std::string text = "\nTO NAME WHEN HAGGLING                         costs, own hours counted\n";
    if (a_.first_figure)
      text = fmt::format("\nTO SAY FIRST {}, AND TO NAME                costs, own hours counted\n",
                         money(*a_.first_figure));
    bool all_counted = true;
    Columns columns("rll");
    const std::size_t most = detail_ ? a_.costs_to_name.size() : costs_shown_;
    for (std::size_t i = 0; i < a_.costs_to_name.size() && i < most; ++i) {
      const CostToName& cost = a_.costs_to_name[i];
      columns.row({(cost.counted ? "" : "*") + roughly(cost.amount), cost.what,
                   cost.chance < 1 ? words::in_percent(cost.chance) : ""});
      all_counted = all_counted && cost.counted;
    }
    text += columns.text();
    if (a_.costs_to_name.size() > most) {
      double rest = 0;
      for (std::size_t i = most; i < a_.costs_to_name.size(); ++i)
        rest += a_.costs_to_name[i].chance * a_.costs_to_name[i].amount;
      text +=
          fmt::format("and {} that weigh less, {} together\n", a_.costs_to_name.size() - most, roughly(rest));
    }
    if (!all_counted) text += in_80(words::only_to_put_right, 2);
    if (detail_ && a_.first_figure)
      text += in_80(
          "to say first: as far below what may be paid as the price asked is above it, half of it at least, "
          "in "
          "round figures; common practice, no source",
          2);
    return text;
  }

  std::string risk() const {
    const AtPrice& pay = a_.to_pay;
    const Risk& r = pay.risk;
    std::string text =
        "\nRISK                                              cash profit at " + money(pay.price) + "\n";
    text += spread_picture(r, job_.currency);
    text += in_80(say_.spread(), 0);
    text += all_expected(pay);
    if (pay.offer == 0 && pay.price != a_.asking) text += all_expected(a_.asked);
    return text;
  }

  std::string all_expected(const AtPrice& at) const {
    const Expected& e = at.expected;
    return in_80(
        fmt::format(
            "At {} to be expected: cash profit {}, own hours {:.1f}, so profit after own hours {}; days "
            "{:.0f}{}; cash needed {}, 19 times in 20 at most {}, in the dearest case that counts {} on an "
            "average.",
            money(at.price), money(e.cash_profit), e.own_hours, money(e.profit), e.days,
            e.per_hour ? "; cash profit per own hour " + money(*e.per_hour) : "",
            money(at.cash_needed.expected), money(at.cash_needed.p95), money(at.cash_needed.worst)),
        0);
  }

  // Which way each case goes at the price that is told to pay.
  std::string ways() const {
    std::string text =
        "\nWHICH WAY EACH GOES                                at " + money(a_.to_pay.price) + "\n";
    const std::size_t masks = std::size_t{1} << job_.troubles.size();
    Columns columns("ll");
    for (std::size_t c = 0; c < job_.causes.size(); ++c) {
      if (a_.causes[c].probability == 0) continue;
      std::string before;
      for (std::size_t m = 0; m < masks; ++m) {
        if (a_.to_pay.policy.paths.size() <= c * masks + m) continue;
        double chance = 1;
        std::string name = job_.causes[c].name;
        for (std::size_t j = 0; j < job_.troubles.size(); ++j) {
          chance *= m >> j & 1u ? a_.troubles[j] : 1 - a_.troubles[j];
          if (m >> j & 1u) name += ", " + job_.troubles[j].name;
        }
        if (chance == 0) continue;
        const std::string way = words::path_in_words(job_, c, a_.to_pay.policy.paths[c * masks + m]);
        if (way == before) continue;
        columns.row({name, way});
        before = way;
      }
    }
    return text + columns.text();
  }

  // Where the sound value comes from similar cars: what they say, and how widely.
  std::string comparables() const {
    if (!a_.sound.fit) return "";
    const auto& fit = *a_.sound.fit;
    const std::size_t number = fit.rows.size();
    return in_80(
        fmt::format("Sound it sells for {}, nine times in ten between {} and {}, by {} and what is "
                    "believed beside {}.",
                    money(a_.sound.mean), money(a_.sound.quantile(0.05)), money(a_.sound.quantile(0.95)),
                    counted(number, "comparable"), number == 1 ? "it" : "them"),
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
                   money(offer.expected_profit), words::in_percent(offer.loss_chance)});
    }
    return text + columns.text();
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
        const bool is_course = !appraisal::is_nothing(job_.causes[c], all_courses[k]);
        row.push_back(cause.profit[k] && is_course ? mark + money(*cause.profit[k]) : "-");
      }
      if (by_troubles) row.push_back(money(cause.counted));
      columns.row(row);
    }
    text += columns.text();
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
                             words::in_percent(free), names),
                 2);
  }

  void add_step(const PlanStep& step, std::size_t indent, std::string& text) const {
    for (const PlanStep::Branch& branch : step.branches) {
      std::string line = fmt::format("{} ({}): ", job_.tests[step.which].outcomes[branch.outcome],
                                     words::in_percent(branch.chance));
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
    return plan_text(a_.plan) +
           (a_.plan_at_walk_away.price == a_.plan.price ? "" : plan_text(a_.plan_at_walk_away));
  }

  std::string plan_text(const Plan& plan) const {
    std::string text =
        fmt::format("\nPLAN AT {}: worth above the profit aimed at, all aims held\n", money(plan.price));
    text += in_80(
        fmt::format("deciding now {}; the best plan {}{}; knowing everything would add {} by the aim for "
                    "profit alone",
                    money(plan.decide_now), plan.exact ? "" : "at least ", money(plan.best),
                    money(plan.perfect_information)),
        2);
    Columns columns("lrrr");
    columns.row({"each test alone", "costs", "brings", "net"});
    for (const TestWorth& test : plan.tests)
      columns.row({job_.tests[test.test].name, money(test.cost),
                   test.gross < 0 ? "would bar the purchase" : money(test.gross), money(test.net)});
    text += columns.text();
    if (!plan.begins_with_test())
      return text + in_80(fmt::format("a test must gain {} to be worth the trouble",
                                      money(least_gain_of_a_test(job_))),
                          2);
    text += in_80("begin with: " + job_.tests[plan.steps.which].name, 2);
    add_step(plan.steps, 2, text);
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
    text += columns.text();
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
    text += columns.text();
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
  words::AppraisalInWords say_;
  bool detail_;
  std::size_t causes_shown_, costs_shown_;
};

}  // namespace

namespace {

std::string screen(const Appraisal& a, std::size_t causes, std::size_t costs) {
  const Page page(a, false, causes, costs);
  std::string hazards;
  for (const Caution& caution : a.cautions) hazards += (hazards.empty() ? "" : ", ") + caution.about;
  std::string more = hazards.empty() ? "all figures" : "cautions (" + hazards + "), all figures";
  if (!a.notes.empty()) more += ", " + counted(a.notes.size(), "note");
  return page.first() + page.at_the_seller() + page.next() + in_80(more + ": --detail", 2);
}

}  // namespace

std::string as_text(const Appraisal& a, bool detail) {
  if (detail) {
    const Page page(a, true, 0, 0);
    return page.first() + page.at_the_seller() + page.detail() + page.notes() + page.next();
  }
  std::string text;
  for (const auto& [causes, costs] : {std::pair{5, 4}, {4, 3}, {4, 2}, {3, 2}, {3, 1}, {2, 1}, {1, 1}}) {
    text = screen(a, static_cast<std::size_t>(causes), static_cast<std::size_t>(costs));
    if (static_cast<std::size_t>(std::ranges::count(text, '\n')) <= lines_most) break;
  }
  return text;
}

}  // namespace nonrunner::commands
