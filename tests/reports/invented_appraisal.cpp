#include "reports/invented_appraisal.h"

#include <algorithm>
#include <cmath>

#include "reports/invented.h"
#include "words/aims.h"

namespace nonrunner::reports::invented {

namespace {

using Kind = CorrectionLine::Kind;

double sum(const CorrectionFigures& c, double (*of)(const CorrectionLine&)) {
  double total = 0;
  for (const CorrectionLine& line : c.lines) total += of(line);
  return total;
}
double cash_of(const CorrectionLine& line) {
  return line.kind == Kind::operation ? 0 : line.quantity * line.price;
}
double hours_of(const CorrectionLine& line) { return line.hours; }

}  // namespace

AppraisalFigures appraised(const Asked& asked) {
  AppraisalFigures f;
  f.tag = "sprat";
  f.description = "2013 Kelmore Sprat 1.4 hatchback, manual";
  f.complaint = "overheated on a hill, driven home, parked seven weeks";
  f.made_on = Day(2025, 3, 1);
  f.asking = asked.asking;
  f.fees = 157;
  f.purchase_rate = 0.01;
  f.sound = asked.sound;
  f.pace = asked.pace;
  f.hour = asked.hour;
  f.hours_per_week = 12;
  f.holding_per_day = 2.5;
  f.money_rate = 0.05;
  f.sale_rate = 0.02;
  f.opening_cash = 6;
  f.opening_hours = asked.opening_hours;
  f.bay_per_day = 1.5;
  f.fee_bands = {{0, 50}, {1000, 80}, {1300, 140}};
  using figures::Aim;
  f.aims[Aim::profit] = asked.aim_profit;
  f.aims[Aim::loss_chance] = 0.15;
  f.aims[Aim::per_hour] = 22;
  for (const words::AimWords& each : words::all_aim_words) f.aim_words[each.aim] = {each.by, each.asks};
  f.causes = {
      {"coolant pump failed", 0.4, 0.45}, {"head gasket leaking", 0.4, 0.35}, {"engine seized", 0.2, 0.2}};
  f.corrections = {
      {"pump and radiator",
       0.45,
       {{Kind::operation, "strip the belt side, change the pump", "", 1, 0, asked.pump_hours, 0},
        {Kind::operation, "change the radiator", "", 1, 0, 1.37, 0},
        {Kind::part, "coolant pump with gasket", "reman", 1, 46, 0, 18},
        {Kind::part, "radiator", "salvage", 1, asked.radiator, 0.8, 0},
        {Kind::part, "hose clamp", "new", 4, 1.35, 0, 0},
        {Kind::consumable, "coolant concentrate, gal", "", 2, 15.75, 0, 0}}},
      {"reseal the head",
       0.35,
       {{Kind::operation, "strip to the head", "", 1, 0, 5.25, 0},
        {Kind::operation, "rebuild and time", "", 1, 0, 7.5, 0},
        {Kind::part, "head gasket set", "new", 1, 128, 0, 0},
        {Kind::sublet, "pressure-test and skim the head", "", 1, 111.67, 0, 0}}},
      {"another head", 0.05, {{Kind::part, "head from the yard, complete", "salvage", 1, 210, 1.5, 25}}}};
  f.way = {
      {2, 40, "2 fixes to begin with"}, {3.5, 120, "a door: from the yard"}, {5, 150, "lamps: polished"}};
  f.faults = {
      {"windscreen cracked across", 260, true, {{"new glass, fitted", "new", 1, 195, 0, true}}},
      {"rear bumper cover split",
       200,
       false,
       {{"plastic weld and touch up", "repair", 0.6, 18, 3.9, false},
        {"cover from the yard, same colour", "salvage", 0.95, 47, 1.9, true}}},
      {"dent in the rear quarter", 120, false, {{"fill and spray at home", "repair", 0.6, 35, 7.8, false}}}};
  // What a buyer still holds against it, and what the fixes take.
  const double off = 260 * 0 + 200 * 0.05 + 120, fix_cash = 242, fix_hours = 1.9, days_per_hour = 7.0 / 12;
  const double masks[] = {0.8, 0.2};
  double brought = 0, hours = 0, days = 0;
  const auto band_fee = [&](double price) { return price < 1000 ? 50.0 : price < 1300 ? 80.0 : 140.0; };
  const double payment = f.asking * 1.01 + f.fees + band_fee(f.asking);
  const double day_cost = f.bay_per_day + f.money_rate / 365 * payment;
  for (std::size_t cause = 0; cause < 3; ++cause)
    for (int rot = 0; rot < 2; ++rot) {
      StateFigures state;
      state.cause = f.causes[cause].name;
      state.troubles = rot ? "rot in the sills" : "";
      state.chance = f.causes[cause].probability * masks[rot];
      if (cause == 2) state.opening_cash = 20, state.opening_hours = 3.1;
      const double opening = state.opening_hours.value_or(f.opening_hours);
      const auto course = [&](double brings, double spends, double work, double wait, bool commission) {
        CourseRow row;
        row.brings = brings;
        row.own_hours = work + f.pace * opening;
        row.days = row.own_hours * days_per_hour + wait;
        row.cash = brings - spends - (commission ? f.sale_rate * brings : 0) - row.days * f.holding_per_day;
        row.commission = commission;
        return row;
      };
      if (cause < 2) {
        const double running = cause == 0 ? 1 : 0.9775;  // 0.85, and 0.85 again of the rest
        const std::vector<std::pair<std::size_t, double>> made =
            cause == 0 ? std::vector<std::pair<std::size_t, double>>{{0, 1}}
                       : std::vector<std::pair<std::size_t, double>>{{1, 1}, {2, 0.15}};
        double cash = rot * 170.0, work = rot * 7.67;
        for (const auto& [which, reached] : made) {
          cash += reached * sum(f.corrections[which], cash_of);
          work += reached * sum(f.corrections[which], hours_of);
        }
        cash += running * fix_cash + 40;
        work += running * fix_hours;
        CourseRow row = course(running * (f.sound - off) + (1 - running) * 700 - rot * 50, cash,
                               f.pace * work, 5 + 17.7, true);
        row.sold_running = running;
        row.corrections = made;
        state.courses[0] = row;
      }
      state.courses[1] = course(cause == 0 ? 1200 : cause == 1 ? 700 : 420 - rot * 100, 40, 0, 17.7, true);
      state.courses[2] = course(908.33, 60, f.pace * 15.7, 0, false);
      state.courses[3] = course(340, 0, 0, 0, false);
      const CourseRow* best = nullptr;
      const auto profit = [&](const CourseRow& row) {
        return row.cash - (row.own_hours - f.pace * opening) * f.hour - row.days * day_cost;
      };
      for (const auto& row : state.courses)
        if (row && (!best || profit(*row) > profit(*best))) best = &*row;
      brought += state.chance * (best->cash - state.opening_cash.value_or(f.opening_cash));
      hours += state.chance * best->own_hours;
      days += state.chance * best->days;
      f.states.push_back(state);
    }
  const double factor = 1 + f.money_rate * days / 365, paid = payment * factor;
  f.expected_cash_profit = brought - paid;
  f.expected_own_hours = hours;
  f.expected_days = days;
  f.expected_profit = f.expected_cash_profit - hours * f.hour - days * f.bay_per_day;
  // Coin by coin downwards: price, tax and the fee of its band come to no more than may be paid.
  const auto limit = [&](double may_be_paid) {
    double coins = std::ceil(may_be_paid * 100);
    while (coins / 100 * 1.01 + band_fee(coins / 100) + f.fees > may_be_paid + 1e-9) --coins;
    return coins / 100;
  };
  f.limit_by[Aim::profit] =
      limit((brought - hours * f.hour - days * f.bay_per_day - asked.aim_profit) / factor);
  f.limit_by[Aim::per_hour] = limit((brought - 22 * hours) / factor);
  f.limit_by[Aim::loss_chance] = 1691;
  f.walk_away = std::min({*f.limit_by[Aim::profit], *f.limit_by[Aim::per_hour], 1691.0});

  f.offers = {{"as it stands", f.asking, f.expected_profit, f.walk_away, 0.059, false},
              {"=with the seller's promise", 1600, 598.7, 1704.3, 0.02, true}};
  f.better = "BETTER: =with the seller's promise, at 1,600.00: a profit of 598.70 is to be expected.";
  f.tests = {{"turn the crankshaft by hand", 4.67, 55.5}, {"combustion gas in the coolant", 20.67, 79.33}};
  f.tests_seen = {{"compression, dry", "even"}};
  f.decide_now = 0;
  f.best_plan = 0.43;
  f.perfect_information = 132.03;
  f.plan_begins_with_test = true;
  f.plan = {{0, "test: combustion gas in the coolant", 0.43},
            {1, "colour changes (chance 0.40): walk away", 0},
            {1, "no change (chance 0.60): buy", 0.72}};
  f.limit_plan_price = f.walk_away;
  f.limit_plan = {{0, "buy as it stands", 0}};
  for (const StateFigures& state : f.states)
    f.ways.push_back({state.cause, state.troubles, state.chance,
                      "put right: =the part, then another head, else part out", "part out"});
  f.cash_needed = 2270;
  f.cash_worst = 4861;
  f.cash_p95 = 3905.5;
  f.dearest = "engine seized with rot in the sills";
  f.with_tests = 1700;
  f.test_from = 700;
  f.first_test = "combustion gas in the coolant";
  f.after_first_test = {{"colour changes", 0.4048, 873.5, "at the price asked: walk away"},
                        {"no change", 0.5952, 1451.2, "then buy"}};
  f.comparables = {{3650, true, 98000, 2013, 3, ""},
                   {3300, false, 121000, 2012, 3, ""},
                   {3990, true, 88000, 2014, 4, "far off the line; kept"},
                   {2900, false, 139000, 2012, 2, ""}};
  f.fitted = FittedLine{3400, -0.0207, 202.17, 191.51, 118400, 2013, 3, 0.941667, 85.94, 3633.33};
  f.loss_chance = 0.059;
  f.quantiles = {{0.05, -34}, {0.25, 409}, {0.5, 673}, {0.75, 872}, {0.95, 1095}};
  f.spread_from = -400;
  f.spread_to = 1400;
  f.spread = {0.01, 0.02, 0.03, 0.05, 0.07, 0.1, 0.15, 0.2, 0.15, 0.1, 0.07, 0.05};
  f.points = 65536;
  f.moves = {{"sound value", 3380, 3870, -99, 371},
             {"hours: rebuild and time", 5.5, 9.9, 190, 95, MoveRow::Unit::time},
             {"pace", 0.95, 1.4, 201, 78, MoveRow::Unit::factor}};
  using Of = HagglingRow::Of;
  f.haggling = {{Of::cause, "head gasket leaking", "reseal the head", {2, 3}, 0, {{1, 1}, {2, 0.15}}},
                {Of::cause, "coolant pump failed", "pump and radiator", {0, 1}, 0, {{0, 1}}},
                {Of::trouble, "rot in the sills", "", {1, 3, 5}, 0, {}, 220, 7.67},
                {Of::fault, "windscreen cracked across", "", {}, 0},
                {Of::fault, "rear bumper cover split", "", {}, 1},
                {Of::fault, "dent in the rear quarter", "", {}, 2},
                {Of::fees, "fees on purchase", ""},
                {Of::opening_up, "opening up to find the cause", ""},
                {Of::holding, "storage and insurance until it is sold", ""},
                {Of::selling, "costs of the sale", "", {}, 0, {}, 40}};
  f.hardly_possible = 0.03;
  f.cautions = {{"hot coolant",
                 "Let the engine cool before the cap is opened; coolant is poisonous and goes to those who "
                 "take it back."},
                {"fuel", "No flame, no spark, air moving; depressurise first. =1+1 stays text."}};
  f.notes = {"the odds were scaled to add up to 1"};
  return f;
}

}  // namespace nonrunner::reports::invented
