#include "reports/invented_strange.h"

#include <string>
#include <vector>

namespace nonrunner::reports::invented {

using namespace figures;

namespace {

// As long as the book takes a name.
constexpr std::size_t longest = 200;

std::string again_and_again(const std::string& text) {
  std::string all;
  while (all.size() + text.size() <= longest) all += text;
  return all;
}

// One after the other, each with its number, so that no two are alike.
class Names {
 public:
  void give(std::string& name) {
    static const std::vector<std::string> names = {
        "=1+1; =cmd|' /C calc'!A0",
        again_and_again("overhauled fan motor, left, for the older model "),
        "-12.5 % off \"oil pan\"",
        "@SUM(A1:A9)",
        "\xE6\xB0\xB4\xE6\xB3\xB5\xE4\xB8\x8E\xE5\xAF\x86\xE5\xB0\x81\xE5\x9E\xAB\xEF\xBC\x88\xE5\x8E\x9F\xE5"
        "\x8E\x82\xEF\xBC\x89",
        again_and_again("K\xC3\xBChlerl\xC3\xBC"
                        "ftermotorhalterung"),
        "'quoted' \"both\" & <b>tags</b>",
        "+49 30 \xE2\x80\x93 Z\xC3\xBCndkerzen, Gr\xC3\xB6\xC3\x9F"
        "e \xC3\x84",
        "00123",
        "TRUE",
        "_x0041_"};
    name = names[at_ % names.size()] + " " + std::to_string(at_ + 1);
    ++at_;
  }

 private:
  std::size_t at_ = 0;
};

}  // namespace

AppraisalFigures strangely_named(AppraisalFigures f) {
  Names names;
  names.give(f.complaint), names.give(f.description), names.give(f.dearest);
  for (CorrectionFigures& each : f.corrections) {
    names.give(each.name);
    for (CorrectionLine& line : each.lines) names.give(line.name);
  }
  for (StateFigures& each : f.states) names.give(each.cause);
  for (FaultFigures& each : f.faults) {
    names.give(each.name);
    for (FixFigures& fix : each.fixes) names.give(fix.name);
  }
  for (WayStep& each : f.way) names.give(each.next);
  for (TestFigures& each : f.tests) names.give(each.name);
  for (PlanLine& each : f.plan) names.give(each.text);
  for (WayRow& each : f.ways) names.give(each.cause), names.give(each.at_asking);
  for (MoveRow& each : f.moves) names.give(each.amount);
  for (HagglingRow& each : f.haggling) names.give(each.what);
  for (ComparableRow& each : f.comparables) names.give(each.note);
  return f;
}

JobFigures strangely_named(JobFigures f) {
  Names names;
  names.give(f.complaint), names.give(f.description);
  for (JobCost& each : f.costs) names.give(each.what);
  for (JobHours& each : f.hours) names.give(each.operation);
  for (Due& each : f.due) names.give(each.what), names.give(each.from);
  for (JobFinding& each : f.findings) names.give(each.text);
  for (figures::Open& each : f.waiting) names.give(each.what), names.give(each.from);
  return f;
}

ShoppingFigures strangely_named(ShoppingFigures f) {
  Names names;
  for (ShoppingLine& each : f.lines) names.give(each.what), names.give(each.after), names.give(each.note);
  for (LookedFor& each : f.not_there) names.give(each.what), names.give(each.place);
  for (ShoppingVehicle& each : f.vehicles) names.give(each.cause);
  for (figures::WaitingReceipt& each : f.waiting) names.give(each.what);
  return f;
}

YearFigures in_pesos(YearFigures f) {
  f.currency = Currency::of("COP");
  Names names;
  constexpr std::int64_t times = 38'461;
  const auto more = [](auto&... money) { ((money = Money::of_minor(money.minor() * times)), ...); };
  for (YearVehicle& v : f.vehicles) {
    names.give(v.description);
    more(v.opening, v.added, v.recovered, v.cost_of_sales, v.closing, v.sales, v.selling_costs,
         v.other_income, v.late_cost);
    if (v.still_brings) more(*v.still_brings);
  }
  for (YearMonth& m : f.months)
    more(m.sales, m.cost_of_sales, m.selling_costs, m.other_income, m.late_cost, m.overhead, m.tools,
         m.looking);
  for (YearPurse& each : f.purses) more(each.opening, each.in, each.out, each.closing);
  for (YearStock& each : f.stock) more(each.opening, each.added, each.used, each.closing);
  for (auto* lines : {&f.tools, &f.overhead, &f.without_paper, &f.parts_sold, &f.tools_kept})
    for (YearLine& each : *lines) names.give(each.what), names.give(each.paper), more(each.amount);
  for (Due& each : f.due) names.give(each.from), more(each.amount);
  for (figures::YearOwed& each : f.owed) names.give(each.name), more(each.amount);
  for (Trip& each : f.trips) names.give(each.why);
  for (Sale& each : f.sales) names.give(each.buyer), names.give(each.description), more(each.price);
  for (YearAccount& each : f.trial) more(each.balance);
  for (YearEntry& each : f.entries) names.give(each.what), more(each.amount);
  for (YearBought& each : f.bought) more(each.amount);
  for (YearHelper& each : f.helpers) names.give(each.name), more(each.amount);
  more(f.credit_due, f.card_owed, f.carried_before, f.opening_capital, f.put_in, f.taken_out,
       f.owner_on_papers, f.tax_collected, f.tax_passed_on, f.tax_paid, f.sales_returned, f.result);
  return f;
}

}  // namespace nonrunner::reports::invented
