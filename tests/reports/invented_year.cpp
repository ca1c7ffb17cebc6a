#include "reports/invented_year.h"

#include "reports/invented.h"

namespace nonrunner::reports::invented {

YearFigures year() {
  YearFigures f;
  f.year = 2025;
  f.made_on = Day(2026, 1, 3);
  const auto vehicle = [&](const char* tag, const char* state, const char* opening, const char* added,
                           const char* recovered, const char* cost_of_sales, const char* closing,
                           const char* sales = "0", const char* selling = "0", const char* other = "0",
                           const char* late = "0", const char* own = "0") -> YearVehicle& {
    YearVehicle v;
    v.tag = tag;
    v.description = std::string("an invented car called ") + tag;
    v.state = state;
    v.opening = usd(opening), v.added = usd(added), v.recovered = usd(recovered),
    v.cost_of_sales = usd(cost_of_sales), v.closing = usd(closing);
    v.sales = usd(sales), v.selling_costs = usd(selling), v.other_income = usd(other),
    v.late_cost = usd(late);
    v.own_hours = hours(own);
    f.vehicles.push_back(v);
    return f.vehicles.back();
  };
  YearVehicle& sprat =
      vehicle("sprat", "sold", "0", "2368.75", "25", "2343.75", "0", "3250", "26.50", "22", "19.81", "38");
  sprat.bought_on = Day(2025, 3, 4);
  sprat.ended_on = Day(2025, 4, 15);
  vehicle("ox", "in pieces", "0", "895", "560", "0", "335", "0", "0", "0", "0", "9.5").still_brings =
      usd("290");
  vehicle("heron", "owned", "1210.40", "358.22", "40", "0", "1528.62", "0", "0", "0", "0", "14.25")
      .parts_sold_off = true;
  vehicle("=1+1", "finished", "412.07", "0", "150", "262.07", "0", "0", "0", "180");
  for (unsigned month = 1; month <= 12; ++month) {
    YearMonth m;
    m.first = Day(2025, month, 1);
    if (month == 4)
      m.sales = usd("3250"), m.cost_of_sales = usd("2343.75"), m.selling_costs = usd("26.50"),
      m.other_income = usd("22");
    if (month == 5) m.late_cost = usd("19.81");
    if (month == 6) m.cost_of_sales = usd("262.07"), m.other_income = usd("180");
    if (month == 3) m.tools = usd("23.42"), m.looking = usd("39.94");
    m.overhead = usd("31.15");
    f.months.push_back(m);
  }
  f.purses = {{"cash", "asset", usd("1500"), usd("4000"), usd("4489.13"), usd("1010.87")},
              {"card", "liability", usd("0"), usd("18"), usd("796.75"), usd("-778.75")}};
  f.stock = {{"coolant, gal", Quantity::parse("1.75"), usd("0"), usd("64.30"), usd("36.17"), usd("28.13")},
             {"gloves", Quantity::parse("74"), usd("3.20"), usd("17.03"), usd("7.63"), usd("12.60")}};
  f.trips = {{Day(2025, 3, 2), "sprat", "view and test", Distance::parse("34")},
             {Day(2025, 3, 8), "sprat 15.5, teal 31", "yard", Distance::parse("46.5")}};
  f.tools = {{Day(2025, 3, 11), 14, "Millgate Parts 40260", "hose clip pliers", "tools", usd("23.42")}};
  f.tools_kept = {{Day(2025, 1, 1), 0, "", "from the years before", "", usd("640")},
                  {Day(2025, 5, 9), 52, "Harrow Wholesale 77", "=press", "", usd("219.90")},
                  {Day(2025, 12, 30), 140, "", "worn out, tools", "", usd("-85.99")}};
  for (unsigned month = 1; month <= 12; ++month)
    f.overhead.push_back(
        {Day(2025, month, 1), 100 + month, "Bay Rents", "rent of the bay", "overhead", usd("31.15")});
  f.without_paper = {{Day(2025, 3, 22), 39, "", "cable ties, market stall", "sprat", usd("4")}};
  f.due = {{"core: starter", "Millgate Parts", Day(2026, 1, 15), usd("12")},
           {"=deposit", "+someone", std::nullopt, usd("60")}};
  using Owed = figures::YearOwed::Kind;
  f.owed = {{Owed::on_account, "Harrow Wholesale", usd("88.40")}, {Owed::card, "card", usd("778.75")}};
  f.sales = {{Day(2024, 4, 15), "older", usd("2100")},
             {Day(2024, 4, 16), "newer", usd("1900")},
             {Day(2024, 11, 2), "wren", usd("990")},
             {Day(2025, 4, 15), "sprat", usd("3250"), "2013 Kelmore Sprat", "", "=someone", "118,400"}};
  f.sales_limit = 4;
  using Group = YearAccount::Group;
  f.trial = {{"cash", "purse", usd("1010.87"), Group::there},
             {"card", "purse", usd("-778.75"), Group::owed},
             {"ox", "vehicle cost", usd("895"), Group::there},
             {"ox", "recovered", usd("-560"), Group::there},
             {"heron", "vehicle cost", usd("1568.62"), Group::there},
             {"heron", "recovered", usd("-40"), Group::there},
             {"coolant, gal", "stock", usd("28.13"), Group::there},
             {"gloves", "stock", usd("12.60"), Group::there},
             {"asset", "tools", usd("773.91"), Group::there},
             {"starter, line 14.2", "core deposit", usd("12"), Group::there},
             {"Harrow Wholesale", "payable", usd("-88.40"), Group::owed},
             {"", "owner", usd("-2471.27"), Group::owner},
             {"", "results of all years", usd("-362.71"), Group::result}};
  f.opening_capital = usd("-1278.73");
  f.carried_before = usd("1622.47");
  f.put_in = usd("4000");
  f.taken_out = usd("237.50");
  f.owner_on_papers = usd("12.50");
  using For = figures::BoughtFor;
  f.bought = {{For::cars, "", 3, usd("3100")},
              {For::fees, "", 3, usd("100")},
              {For::parts, "new", 9, usd("301.47")},
              {For::parts, "salvage", 5, usd("120.50")}};
  f.parts_sold = {{Day(2025, 6, 3), 151, "", "two doors", "ox", usd("600")},
                  {Day(2025, 6, 9), 154, "", "one of them given back", "ox", usd("-40")}};
  f.card_owed = usd("778.75");
  f.tax_paid = usd("61.18");
  f.entries = {{101, Day(2025, 1, 1), "receipt", "rent of the bay", usd("-31.15"), 0, 0},
               {102, Day(2025, 1, 2), "receipt", "=typed twice", usd("-31.15"), 0, 103},
               {103, Day(2025, 1, 2), "void", "entry 102", usd("31.15"), 102, 0}};
  f.result = usd("362.71");
  return f;
}

JobFigures job() {
  JobFigures f;
  f.tag = "sprat";
  f.description = "2013 Kelmore Sprat 1.4 hatchback, manual";
  f.complaint = "overheated on a hill, driven home, parked seven weeks";
  f.made_on = Day(2025, 3, 10);
  f.bought_on = Day(2025, 3, 4);
  f.cause = "coolant pump failed";
  f.budget_on = Day(2025, 3, 4);
  f.hour = usd("20");
  f.commission_rate = Rate::parse("0.035");
  f.selling_costs = usd("40");
  f.selling_costs_so_far = usd("15");
  f.recovered = usd("25");
  f.deposit_kept = usd("100");
  f.expected_price = usd("3241.50");
  f.holding_per_day = usd("2.50");
  const auto cost = [&](const char* part_of, const char* what, bool budgeted, const char* quantity,
                        const char* price, const char* bought, const char* actual, const char* left,
                        JobCost::Follows follows = JobCost::Follows::nothing) {
    JobCost c;
    c.part_of = part_of;
    c.price_paid = c.part_of == "purchase";
    c.what = what;
    c.budgeted = budgeted;
    c.budget_quantity = Quantity::parse(quantity);
    c.budget_price = Price::parse(price, Currency());
    if (*bought) c.quantity = Quantity::parse(bought);
    c.actual = usd(actual);
    c.to_complete = usd(left);
    c.follows = follows;
    f.costs.push_back(c);
    f.cost += c.actual;
  };
  constexpr auto pieces = JobCost::Follows::pieces, amount = JobCost::Follows::amount;
  cost("purchase", "price paid", true, "1", "1450", "1", "1050", "0");
  cost("fees", "title, tow", true, "1", "157", "", "157", "0");
  cost("correction", "coolant pump with gasket", true, "1", "46", "1", "48.99", "0", pieces);
  cost("correction", "hose clamp", true, "4", "1.35", "3", "4.31", "1.35", pieces);
  cost("correction", "radiator", true, "1", "62.105", "1", "51.12", "0", pieces);
  cost("correction", "coolant concentrate, gal", true, "2", "15.75", "", "0", "31.50", pieces);
  cost("fixes", "windscreen", true, "1", "195", "", "0", "195", amount);
  cost("discovery", "=heater matrix", false, "0", "0", "1", "93.72", "111.29");
  cost("yard", "entrance", false, "0", "0", "", "1.13", "2.25");
  f.hours = {{"opening up", true, hours("1.944"), hours("1.6"), hours("0"), hours("0")},
             {"strip the belt side, change the pump", true, hours("3.967"), hours("3.9"), hours("0.067"),
              hours("0"), true},
             {"dashboard out", false, hours("0"), hours("0"), hours("4"), hours("3.5")},
             {"fixes", true, hours("7.97"), hours("0"), hours("7.97"), hours("0"), true}};
  f.due = {{"core: coolant pump", "Millgate Parts", Day(2025, 4, 6), usd("18")},
           {"core: radiator", "Cleave Yard", std::nullopt, usd("8")}};
  f.may_go_back = {{"thermostat", "Harrow Wholesale", Day(2025, 4, 5), usd("19.40")},
                   {"=clamps", "Millgate Parts", Day(2025, 4, 6), usd("5.40")}};
  f.waiting = {{figures::Open::Kind::paper, "", "", {}, 12}};
  return f;
}

JobFigures job_in_pieces() {
  JobFigures f = job();
  f.in_pieces_since = Day(2025, 3, 9);
  for (JobCost& cost : f.costs) cost.to_complete = Money(), cost.follows = JobCost::Follows::nothing;
  for (JobHours& each : f.hours) each.to_complete = Hours(), each.follows = false;
  f.recovered = usd("1431.27");  // 50 more than the cost that there was, and 25 spent since
  f.not_yet_recovered = usd("25");
  f.still_brings = usd("310");
  return f;
}

ShoppingFigures shopping() {
  using Place = ShoppingLine::Place;
  ShoppingFigures f;
  f.made_on = Day(2025, 3, 7);
  const auto line = [&](Place place, const char* vehicle, const char* what, const char* quantity,
                        const char* price, const char* note = "", const char* core = "0",
                        const char* expected = "") {
    ShoppingLine& each = f.lines.emplace_back();
    each.place = place, each.vehicle = vehicle, each.what = what, each.note = note;
    each.quantity = Quantity::parse(quantity);
    each.price = Price::parse(price, Currency()), each.core = Price::parse(core, Currency());
    each.expected = Price::parse(*expected ? expected : price, Currency());
  };
  line(Place::yard, "teal", "door mirror, left", "1", "25");
  line(Place::yard, "sprat", "radiator", "1", "48", "with the fan if it turns", "8", "69.30");
  f.lines.back().bad = 0.15, f.lines.back().again_is_new = true, f.lines.back().again = usd("142");
  f.lines.back().source = "salvage", f.lines.back().most = Price::parse("114", Currency());
  line(Place::yard, "sprat", "hub cap", "2", "6");
  line(Place::counter, "sprat", "coolant pump with gasket", "1", "46", "", "18");
  f.lines.back().source = "reman";
  line(Place::counter, "sprat", "hose clamp", "4", "1.355");
  line(Place::ordered, "sprat", "floor mats", "1", "29");
  line(Place::ordered, "ox", "=SUM(A1)", "0.25", "13.10", "@note");
  f.vehicles = {{"sprat", "coolant pump failed", false, usd("18"), usd("179.72")},
                {"teal", "clutch worn out", true, usd("0"), usd("25")},
                {"wren", "key not known", true, usd("60"), usd("60")}};
  f.not_there = {{Day(2025, 3, 1), "Cleave Yard", "sprat", "driver's seat, grey"}};
  return f;
}

}  // namespace nonrunner::reports::invented
