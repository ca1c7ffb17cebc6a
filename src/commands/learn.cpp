#include "answers/learn.h"

#include <cmath>
#include <map>

#include "commands/command.h"
#include "commands/desk.h"
#include "figures/opinion.h"
#include "text/counted.h"
#include "words/learn.h"

namespace nonrunner::commands {

namespace {

using answers::Learnt;
namespace practice = resale::common_practice;

std::string number(double value) { return fmt::format("{:.4g}", value); }
std::string cars(std::size_t count) { return counted(count, "car"); }

std::string figures_text(const Learnt& answer) {
  Columns columns("lrrrrr");
  columns.row({"figure", "stated", "own", "spread", "cars", "with both"});
  const auto amount = [&](const char* name, const resale::OwnAmount& each) {
    const auto& own = each.figures.own;
    columns.row({name, number(each.prior.points.mean()), own.number > 0 ? number(own.mean) : "",
                 own.sd ? number(*own.sd) : "", std::to_string(own.number), number(each.figures.mean)});
  };
  amount("pace: real hours / estimated", answer.pace);
  amount("realised: got / advertised", answer.realised);
  amount("days from advert to sale", answer.days);
  columns.row({"salvage parts that went back", fmt::format("{:.0f} %", practice::bad_salvage.share * 100),
               answer.salvage.own ? fmt::format("{:.0f} %", *answer.salvage.own * 100) : "", "",
               fmt::format("{} parts", answer.own.salvage_bought),
               fmt::format("{:.0f} %", answer.salvage.share * 100)});
  const auto mean = [&](const char* name, const resale::MeanAndSpread& each) {
    if (each.number > 0)
      columns.row({name, "", shown_units(each.mean, answer.currency),
                   each.sd ? shown_units(*each.sd, answer.currency) : "", std::to_string(each.number), ""});
  };
  if (const answers::OwnPlace place = answer.own.place(); place.cars > 0)
    columns.row({"earned by a day of the place", shown_units(0, answer.currency),
                 shown_units(place.a_day(), answer.currency), "", std::to_string(place.cars),
                 shown_units(place.with_stated(0), answer.currency)});
  mean("readying it for sale, and selling", answer.readying);
  mean("looking at one that was left", answer.looking);
  return columns.text();
}

std::string work_text(const Learnt& answer) {
  if (answer.own.work.empty()) return "";
  std::string text = "\npace by kind of work\n";
  Columns columns("lrrrr");
  columns.row({"  kind", "booked", "estimated", "pace", "cars"});
  for (const answers::KindOfWork& each : answer.own.work)
    columns.row({"  " + each.kind, fmt::format("{:.1f}", each.booked), fmt::format("{:.1f}", each.estimated),
                 fmt::format("{:.2f}", each.booked / each.estimated), std::to_string(each.cars)});
  text += columns.text();
  if (answer.own_hours > 0)
    text += fmt::format("  {:.0f} % of their own hours stand under no operation of an appraisal\n",
                        (1 - answer.booked_hours / answer.own_hours) * 100);
  return text;
}

std::string causes_text(const Learnt& answer) {
  if (answer.own.causes.empty()) return "";
  std::string text = "\ncauses found, of the cars whose appraisal named them\n";
  Columns columns("lrrr");
  columns.row({"  cause", "found", "cars", "expected"});
  for (const auto& [cause, count] : answer.own.causes)
    columns.row({"  " + cause, std::to_string(count.found), std::to_string(count.thought),
                 fmt::format("{:.1f}", count.stated)});
  return text + columns.text();
}

std::string tried_text(const Learnt& answer) {
  if (answer.tried.cars.empty()) return "";
  std::string text = "\nhow the appraisals did: cash profit, at the price paid\n";
  Columns columns("lrrrr");
  columns.row({"  vehicle", "expected", "came", "chance of so little", "chance of loss"});
  for (const answers::Tried& each : answer.tried.cars)
    columns.row({"  " + each.tag, shown_units(each.expected, answer.currency),
                 shown_units(each.actual, answer.currency) + (each.actual < 0 ? " loss" : ""),
                 fmt::format("{:.0f} %", each.chance_below * 100),
                 fmt::format("{:.0f} %", each.loss_chance * 100)});
  text += columns.text();
  const auto& off = answer.tried.off;
  text += fmt::format("  on average {} {} than expected{}\n",
                      shown_units(std::abs(off.mean), answer.currency), off.mean < 0 ? "less" : "more",
                      off.sd ? fmt::format(", give or take {}", shown_units(*off.sd, answer.currency)) : "");
  const auto& losses = answer.tried.losses;
  text += fmt::format("  losses: {:.1f} expected, {} came; so many or more had a chance of {:.0f} %\n",
                      losses.expected, losses.losses, losses.so_many * 100);
  return text;
}

// Where the points of the pace would lie lower than is believed of few operations.
std::string lifted_text(const Learnt& answer) {
  const double least = answer.own.least_pace();
  if (answer.own.pace().empty() || least <= 0.01 || answer.pace.points.low > least) return "";
  return "\n" +
         in_80(
             fmt::format("the low point of the pace was lifted to {:.2f}: so few operations are not believed "
                         "to say less",
                         least),
             2);
}

// Which cars say nothing of the pace, and why.
std::string left_out_text(const Learnt& answer, bool detail) {
  using NoPace = answers::OwnCar::NoPace;
  std::map<NoPace, std::string> by_reason;
  for (const answers::OwnCar& car : answer.own.cars)
    if (car.no_pace != NoPace::none) {
      std::string& tags = by_reason[car.no_pace];
      tags += (tags.empty() ? "" : ", ") + car.tag;
    }
  std::string text;
  for (const auto& [reason, tags] : by_reason) {
    text += in_80("pace leaves out " + tags + ": " + words::in_words(reason) +
                      (reason == NoPace::hours_elsewhere
                           ? "; put them there: nonrunner under TAG HEADING --operation \"...\""
                           : ""),
                  2);
  }
  for (const answers::OwnCar& car : answer.own.cars)
    if (detail && car.pace && !car.left_out.empty()) {
      std::vector<std::string> left_out;
      for (const answers::OwnCar::LeftOut& each : car.left_out) left_out.push_back(words::in_words(each));
      text += in_80(fmt::format("of {} the pace leaves out: {}", car.tag, fmt::join(left_out, "; ")), 2);
    }
  return text.empty() ? "" : "\n" + text;
}

// What a job file would take, in a line each: the figures and what they rest on stand under --detail.
std::string short_text(const Learnt& answer) {
  Columns columns("lrl");
  const auto rests_on = [](std::size_t number, const char* one) {
    return number == 0 ? std::string("stated; none of your own yet")
                       : counted(number, one) + " of your own, and what is stated";
  };
  const auto amount = [&](const char* name, const resale::OwnAmount& each) {
    columns.row({name, number(each.figures.mean), rests_on(each.figures.own.number, "car")});
  };
  amount("pace: real hours / estimated", answer.pace);
  amount("realised: got / advertised", answer.realised);
  amount("days from advert to sale", answer.days);
  columns.row({"salvage parts that went back", fmt::format("{:.0f} %", answer.salvage.share * 100),
               rests_on(answer.own.salvage_bought, "part")});
  if (const answers::OwnPlace place = answer.own.place(); place.cars > 0)
    columns.row({"earned by a day of the place", shown_units(place.with_stated(0), answer.currency),
                 rests_on(place.cars, "car")});
  std::string text = columns.text();
  const std::size_t tried = answer.tried.cars.size();
  if (tried > 0)
    text += fmt::format("\nthe appraisals expected {} {} than came, on average of {}; {} ended in a loss\n",
                        shown_units(std::abs(answer.tried.off.mean), answer.currency),
                        answer.tried.off.mean < 0 ? "more" : "less", cars(tried), answer.tried.losses.losses);
  return text + lifted_text(answer) + left_out_text(answer, false) + "\nmore: nonrunner learn --detail\n";
}

std::string as_text(const Learnt& answer, bool detail) {
  std::string text = fmt::format("{} sold or finished, {} left: what they say, beside what is stated\n\n",
                                 cars(answer.own.cars.size()), answer.own.looking.size());
  if (!detail) return text + short_text(answer);
  text += figures_text(answer) + work_text(answer) + causes_text(answer) + tried_text(answer) +
          lifted_text(answer) + left_out_text(answer, true);
  text +=
      "\nstated: common practice, no source; it counts as 4 cars, or 10 parts.\n"
      "\"with both\" is what a job file takes that says \"own\": pace, realised, days,\nbay_per_day.\n";
  return text;
}

int run_learn(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  const Learnt answer = answers::learnt(book, terminal.today.plus(1));
  if (given.json()) {
    terminal.out << words::to_json(answer);
  } else if (answer.own.cars.empty() && answer.own.looking.empty()) {
    terminal.out
        << "no car is sold, finished or left yet; what they say will stand here, beside common practice\n";
  } else {
    terminal.out << as_text(answer, given.flag("detail"));
  }
  return 0;
}

}  // namespace

extern const Command learn;
const Command learn{
    {"learn",
     "",
     "what your own cars say: pace, price got, days, bad parts, causes",
     "nonrunner learn",
     {{"detail", "", "stated and own figures with their spread, kinds of work, causes, each appraisal"}},
     true,
     "A car counts once it is sold, finished or left. Hours and causes need an appraisal kept with the "
     "purchase\n"
     "(buy --job) and the cause noted (note TAG TEXT --cause NAME); prices and days need advertise."},
    run_learn};

}  // namespace nonrunner::commands
