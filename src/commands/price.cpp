#include "answers/price.h"

#include <cmath>

#include "commands/command.h"
#include "commands/desk.h"
#include "figures/opinion.h"
#include "words/price.h"

namespace nonrunner::commands {

namespace {

using answers::AskingPrice;
using words::shown_round;

// The plan in a line or two: what to ask now, and when to ask less.
std::string headline(const AskingPrice& answer) {
  const auto& stages = answer.plan.stages;
  const Currency& c = answer.currency;
  if (answer.is_best_offer())
    return in_80(fmt::format("{}: no single price: ask {} to draw offers, and take the best by {}",
                             answer.tag, shown_round(stages[0].ask, c), answer.best_offer_by().iso()),
                 2);
  std::string text = fmt::format("{}: advertise at {}", answer.tag, shown_round(stages[0].ask, c));
  for (std::size_t i = 1; i < stages.size(); ++i)
    text += fmt::format("{} {} on {}", i == 1 ? "\nunsold, drop to" : ", to", shown_round(stages[i].ask, c),
                        answer.first.plus(stages[i].from_day).iso());
  return text + "\n";
}

std::string where_it_stands(const AskingPrice& answer) {
  if (!answer.advertised) return "";
  const Currency& c = answer.currency;
  const double first = answer.plan.stages[0].ask;
  int days = 0;
  for (const auto& each : answer.stood) days += each.days;
  const double now = in_units(*answer.advertised, c);
  std::string text = fmt::format("it has stood {} days, {} now, and did not sell: that is counted in\n", days,
                                 shown_round(now, c));
  if (answer.loss_at(now) > 0)
    text +=
        in_80(fmt::format("{} is BELOW THE FLOOR: sold there it LOSES {}; raise it to {} at least",
                          shown_round(now, c), shown_units(answer.loss_at(now), c), answer.floor.shown(c)),
              2);
  else if (first > now && !answer.is_best_offer())
    text += fmt::format(
        "{} is MORE than it stands at: by the appraisal {} is low yet; leave it there, or raise it\n",
        shown_round(first, c), shown_round(now, c));
  return text;
}

std::string warnings(const AskingPrice& answer) {
  std::string text;
  if (answer.hours_to_come > 0.05)
    text += fmt::format("as if it were ready today: {:.1f} own hours of work are still to come\n",
                        answer.hours_to_come);
  if (!answer.likeliest.empty())
    text += in_80(
        fmt::format("no cause is noted, so the likeliest ({:.0f} %) is taken: {}{}; else say --cause NAME",
                    100 * answer.likeliest_chance, answer.likeliest,
                    answer.dearest.empty() ? std::string()
                                           : fmt::format("; if it is {} ({:.0f} %) the floor is {}",
                                                         answer.dearest, 100 * answer.dearest_chance,
                                                         answer.dearest_floor.shown(answer.currency))),
        2);
  if (answer.part_out && answer.part_out_day)
    text +=
        *answer.part_out_day == 0
            ? "PARTING OUT would leave more than selling it whole, today already\n"
            : fmt::format("from {} on parting out would leave more than what is left of selling it whole\n",
                          answer.first.plus(*answer.part_out_day).iso());
  if (answer.is_best_offer()) {
    if (answer.plan.expected_got < answer.floor_units())
      text += "the best offer is expected below the floor: a LOSS\n";
  } else if (answer.floor_units() > answer.plan.stages.back().got)
    text += "the last price lies below the floor: a LOSS, if it comes to that\n";
  return text;
}

std::string details(const AskingPrice& answer) {
  const auto& stages = answer.plan.stages;
  const Currency& c = answer.currency;
  Columns columns("lrrrrl");
  columns.row({"from", "price", "chance", "brings", "take from", "against the floor"});
  for (const resale::PriceStage& stage : stages) {
    const double over = stage.got - answer.floor_units();
    columns.row({answer.first.plus(stage.from_day).iso(), shown_round(stage.ask, c),
                 fmt::format("{:.0f} %", stage.chance * 100), shown_round(stage.got, c),
                 shown_round(stage.take_from, c),
                 fmt::format("{} {}", shown_round(std::abs(over), c), over < 0 ? "below: a loss" : "above")});
  }
  std::string text = "\n" + columns.text();
  text += fmt::format("unsold on {} (chance {:.0f} %): take the best offer\n",
                      answer.first.plus(stages.back().until_day).iso(), answer.plan.best_offer_chance * 100);
  text += fmt::format("of the {} expected, commission and days leave {}\n",
                      shown_round(answer.plan.expected_got, c), shown_round(answer.plan.expected_net, c));
  if (answer.part_out)
    text += fmt::format("parting out would leave {}{}\n", shown_round(*answer.part_out, c),
                        answer.part_out_day ? "" : ": less than selling it whole, to the end of this plan");
  return text + fmt::format("brings: price x {:.3f}, as buyers haggle; take from: better than going on\n",
                            answer.realised);
}

std::string as_text(const AskingPrice& answer, bool detail) {
  std::string text;
  for (const answers::Doubt& doubt : answer.doubts)
    text += in_80(answer.tag + ": " + words::in_words(doubt), 2);
  text += headline(answer);
  text += fmt::format("take from {} on: below it {} is better from here\n",
                      shown_round(answer.take_from, answer.currency),
                      answer.better_below ? std::string("to ") + name_of(*answer.better_below)
                                          : std::string("to wait for another buyer"));
  text += fmt::format("floor {}: brings back all that went in, and {} still to come\n",
                      answer.floor.shown(answer.currency), answer.to_come.shown(answer.currency));
  text += where_it_stands(answer);
  text += fmt::format("expected: {} after {:.0f} days\n",
                      shown_round(answer.plan.expected_got, answer.currency), answer.plan.expected_days);
  text += warnings(answer);
  return text + (detail ? details(answer) : fmt::format("\nmore: nonrunner price {} --detail\n", answer.tag));
}

int run_price(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  const AskingPrice answer =
      answers::asking_price(book, given.word(0), given.text_or("cause", ""), terminal.today);
  terminal.out << (given.json() ? words::to_json(answer) : as_text(answer, given.flag("detail")));
  return 0;
}

}  // namespace

extern const Command price;
const Command price{{"price",
                     "TAG",
                     "what to advertise it at, when to drop the price, and the floor",
                     "nonrunner price pip",
                     {{"cause", "NAME", "the cause that was found, where it is not noted in the book"},
                      {"detail", "", "chance, offer to take and distance from the floor at each price"}},
                     true,
                     "From the appraisal in force: what a sound one sells for less what stays on this car, "
                     "what buyers get off, the days a\n"
                     "sale takes and what a day costs. A price stands for whole weeks; at a price above what "
                     "it would fetch nobody buys."},
                    run_price};

}  // namespace nonrunner::commands
