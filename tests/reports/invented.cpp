#include "reports/invented.h"

namespace nonrunner::reports::invented {

Money usd(const char* text) { return Money::parse(text, Currency()); }
Hours hours(const char* text) { return Hours::parse(text); }

namespace {

using Kind = ProfitKind;

// The place of the first of this name.
template <class List, class Name>
std::optional<std::size_t> place_in(const List& list, const std::string& name, Name name_of) {
  for (std::size_t i = 0; i < list.size(); ++i)
    if (name_of(list[i]) == name) return i;
  return std::nullopt;
}

// What `name` is in the estimate: a line of it, else a heading of one's own.
figures::UnderEstimate under(ProfitFigures& f, const std::string& name) {
  if (name.empty() || !f.estimate) return {};
  if (const auto cost =
          place_in(f.estimate->costs, name, [](const EstimatedCost& each) { return each.name; }))
    return {cost};
  auto& headings = f.estimate->cost_headings;
  if (const auto heading = place_in(headings, name, [](const std::string& each) { return each; }))
    return {{}, heading};
  headings.push_back(name);
  return {{}, headings.size() - 1};
}

void line(ProfitFigures& f, const char* day, std::int64_t entry, const char* paper, const char* what,
          Kind kind, const char* amount, const char* source = "", const char* quantity = "",
          const char* estimate = "", bool after = false) {
  ProfitLine each;
  each.day = Day::parse(day);
  each.entry = entry;
  each.paper = paper;
  each.what = what;
  each.kind = kind;
  each.source = source;
  if (*quantity) each.quantity = Quantity::parse(quantity);
  each.amount = usd(amount);
  each.after_sale = after;
  each.under = under(f, estimate);
  f.lines.push_back(each);
}

void work(ProfitFigures& f, const char* day, const char* operation, const char* own, const char* paid = "0",
          const char* estimate = "", bool after = false) {
  figures::UnderEstimate under;
  if (*estimate)
    under.line =
        place_in(f.estimate->hours, estimate, [](const EstimatedHours& each) { return each.operation; });
  f.hours.push_back({Day::parse(day), operation, hours(own), hours(paid), after, under});
}

ProfitEstimate estimate() {
  ProfitEstimate e;
  e.kept_on = Day(2025, 3, 4);
  e.cause = "coolant pump failed";
  const auto cost = [&](const char* name, const char* quantity, const char* price, const char* note = "",
                        bool by_piece = true) {
    e.costs.push_back({name, Quantity::parse(quantity), Price::parse(price, Currency()), note, by_piece});
  };
  cost("purchase", "1", "1450", "asked; the tests brought it down");
  cost("fees", "1", "157", "title 62, tow 95", false);
  cost("coolant pump", "1", "46");
  cost("thermostat", "1", "17.25");
  cost("accessory belt", "1", "24.80");
  cost("hose clamp", "4", "1.35");
  cost("radiator", "1", "62.10", "a bad one counted");
  cost("coolant", "2", "15.75");
  cost("glass, fitted", "1", "190", "", false);
  cost("front tyres", "1", "98", "with fitting", false);
  cost("front brakes", "1", "102", "", false);
  cost("bumper cover", "1", "45");
  cost("seat", "1", "40");
  e.hours = {{"opening up", hours("1.944")},
             {"pump", hours("3.967")},
             {"radiator", hours("1.594")},
             {"flush", hours("2.022")},
             {"fixes", hours("7.97")}};
  e.hour = usd("20");
  e.sale_price = usd("3241.50");
  e.holding_per_day = usd("2.50");
  e.days = 41.25;
  return e;
}

}  // namespace

ProfitFigures not_sold_yet() {
  ProfitFigures f;
  f.tag = "sprat";
  f.description = "2013 Kelmore Sprat 1.4 hatchback, manual";
  f.complaint = "overheated on a hill, driven home, parked seven weeks";
  f.made_on = Day(2025, 4, 10);
  f.bought_on = Day(2025, 3, 4);
  f.advertised = {{Day(2025, 3, 29), usd("3490")}, {Day(2025, 4, 5), usd("3390")}};
  f.hour = usd("20");
  f.distance = "126 mi";
  f.commission_rate = Rate::parse("0.035");
  f.expected_price = usd("3241.50");
  f.to_come = {usd("120.50"), usd("26.50")};
  f.estimate = estimate();
  line(f, "2025-03-02", 4, "", "gas test, from the shelf", Kind::consumable, "-9.56", "", "1");
  line(f, "2025-03-02", 5, "", "gloves, from the shelf", Kind::consumable, "-0.68", "", "4");
  line(f, "2025-03-04", 6, "", "the car", Kind::purchase, "-1050", "", "1", "purchase");
  line(f, "2025-03-04", 6, "", "title and registration", Kind::fee, "-62", "", "", "fees");
  line(f, "2025-03-04", 7, "Bexley Recovery T-882", "tow, 17 miles", Kind::fee, "-95", "", "", "fees");
  line(f, "2025-03-06", 8, "Millgate Parts 40188", "coolant pump with gasket", Kind::part, "-48.99", "reman",
       "1", "coolant pump");
  line(f, "2025-03-06", 8, "Millgate Parts 40188", "core: coolant pump", Kind::due_back, "-18");
  line(f, "2025-03-06", 8, "Millgate Parts 40188", "thermostat with housing seal", Kind::part, "-18.37",
       "new", "1", "thermostat");
  line(f, "2025-03-06", 8, "Millgate Parts 40188", "accessory belt", Kind::part, "-26.41", "new", "1",
       "accessory belt");
  line(f, "2025-03-06", 8, "Millgate Parts 40188", "hose clamp", Kind::part, "-5.75", "new", "4",
       "hose clamp");
  line(f, "2025-03-08", 10, "Cleave Yard 3071", "yard entrance, half of it", Kind::fee, "-1.13", "", "",
       "yard and readying");
  line(f, "2025-03-08", 10, "Cleave Yard 3071", "radiator", Kind::part, "-51.12", "salvage", "1", "radiator");
  line(f, "2025-03-08", 10, "Cleave Yard 3071", "core: radiator", Kind::due_back, "-8");
  line(f, "2025-03-08", 10, "Cleave Yard 3071", "fan assembly", Kind::part, "-34.08", "salvage", "1",
       "yard and readying");
  line(f, "2025-03-08", 10, "Cleave Yard 3071", "hub cap", Kind::part, "-12.78", "salvage", "2",
       "yard and readying");
  line(f, "2025-03-11", 14, "Millgate Parts 40260", "cooling flush, bottle", Kind::consumable, "-27.67", "",
       "2", "discovery");
  line(f, "2025-03-11", 14, "Millgate Parts 40260", "heater matrix, outlet left", Kind::part, "-93.72", "new",
       "1", "discovery");
  line(f, "2025-03-11", 14, "Millgate Parts 40260", "heater hose", Kind::part, "-24.28", "new", "2",
       "discovery");
  line(f, "2025-03-13", 15, "Millgate Parts 40260", "returned: heater matrix, outlet left", Kind::part,
       "93.72", "new", "-1", "discovery");
  line(f, "2025-03-13", 16, "Millgate Parts 40281", "heater matrix, outlet right", Kind::part, "-111.29",
       "new", "1", "discovery");
  line(f, "2025-03-13", 16, "Millgate Parts 40281", "o-ring", Kind::part, "-3.62", "new", "4", "discovery");
  line(f, "2025-03-14", 18, "", "helper, dashboard out", Kind::paid_hours, "-56", "", "3.5", "discovery");
  line(f, "2025-03-15", 19, "Fenbank Radiator Works 118", "back-flush block and heater circuit", Kind::sublet,
       "-73.52", "", "", "discovery");
  line(f, "2025-03-17", 23, "Millgate Parts 40188", "core back: coolant pump", Kind::due_back, "18");
  line(f, "2025-03-17", 25, "", "coolant, from the shelf", Kind::consumable, "-36.17", "", "2.25", "coolant");
  line(f, "2025-03-17", 26, "", "distilled water, from the shelf", Kind::consumable, "-6.58", "", "5");
  line(f, "2025-03-17", 27, "", "brake cleaner and gloves, from the shelf", Kind::consumable, "-13.24");
  line(f, "2025-03-18", 29, "Cleave Yard 3071", "returned: fan assembly, less restocking", Kind::part,
       "29.28", "salvage", "-1", "yard and readying");
  line(f, "2025-03-19", 30, "Corran Tyres 5512", "tyre, part-worn, fitted", Kind::part, "-98.94", "salvage",
       "2", "front tyres");
  line(f, "2025-03-19", 30, "Corran Tyres 5512", "disposal of old tyre", Kind::fee, "-6", "", "2",
       "front tyres");
  line(f, "2025-03-20", 31, "Latchet Glass G204", "windscreen", Kind::part, "-159.75", "new", "1",
       "glass, fitted");
  line(f, "2025-03-20", 31, "Latchet Glass G204", "fitting", Kind::sublet, "-45", "", "", "glass, fitted");
  line(f, "2025-03-21", 32, "Cleave Yard 3140", "yard entrance", Kind::fee, "-2.25", "", "",
       "yard and readying");
  line(f, "2025-03-21", 32, "Cleave Yard 3140", "rear bumper cover, same colour", Kind::part, "-47.93",
       "salvage", "1", "bumper cover");
  line(f, "2025-03-21", 32, "Cleave Yard 3140", "driver's seat", Kind::part, "-42.60", "salvage", "1",
       "seat");
  line(f, "2025-03-21", 33, "Cleave Yard 3071", "core back: radiator", Kind::due_back, "8");
  line(f, "2025-03-22", 36, "Millgate Parts 40355", "front brake pads, set", Kind::part, "-36.74", "new", "1",
       "front brakes");
  line(f, "2025-03-22", 36, "Millgate Parts 40355", "front brake disc", Kind::part, "-63.36", "new", "2",
       "front brakes");
  line(f, "2025-03-22", 36, "Millgate Parts 40355", "brake fluid", Kind::consumable, "-7.98", "", "1",
       "front brakes");
  line(f, "2025-03-23", 39, "", "brake cleaner, from the shelf", Kind::consumable, "-6.33", "", "2");
  line(f, "2025-03-25", 40, "Northline Mail Order 778120", "headlamp polish, clips, floor mats", Kind::part,
       "-63.84", "new", "", "yard and readying");
  line(f, "2025-03-28", 42, "Town Test Lane 8841", "inspection, free retest", Kind::fee, "-38", "", "",
       "yard and readying");
  line(f, "2025-03-28", 43, "Millgate Parts 40410", "bulbs and number plate lamp", Kind::part, "-11.07",
       "new", "", "yard and readying");
  line(f, "2025-03-30", 46, "", "old driver's seat, to an upholsterer", Kind::recovered, "25");
  work(f, "2025-03-02", "tests before buying", "1.3");
  work(f, "2025-03-05", "opening up", "1.6", "0", "opening up");
  work(f, "2025-03-08", "pulling parts at the yard", "2.5");
  work(f, "2025-03-09", "strip the belt side, change the pump", "3.9", "0", "pump");
  work(f, "2025-03-14", "dashboard out", "4");
  work(f, "2025-03-14", "dashboard out", "0", "3.5");
  work(f, "2025-03-16", "matrix in, dashboard back", "4.6");
  work(f, "2025-03-16", "strip the belt side, change the pump", "2.6", "0", "pump");
  work(f, "2025-03-16", "change the radiator", "1.4", "0", "radiator");
  work(f, "2025-03-18", "flush, fill, bleed, road test", "2.2", "0", "flush");
  work(f, "2025-03-21", "pulling parts at the yard", "2.3");
  work(f, "2025-03-23", "front brakes", "2.1", "0", "fixes");
  work(f, "2025-03-23", "bumper cover, seat, wheels", "3.5", "0", "fixes");
  work(f, "2025-03-27", "headlamps and cleaning", "4");
  work(f, "2025-03-28", "inspection and retest", "1.2");
  return f;
}

ProfitFigures sold_hatchback() {
  ProfitFigures f = not_sold_yet();
  f.state = ProfitFigures::State::sold;
  f.made_on = Day(2025, 5, 4);
  f.sold_on = Day(2025, 4, 15);
  f.commission_rate = Rate();
  f.expected_price.reset();
  f.to_come.reset();
  line(f, "2025-04-13", 48, "", "buyer's deposit", Kind::due_back, "200");
  line(f, "2025-04-15", 49, "", "the car, sold", Kind::sale, "3250");
  line(f, "2025-04-15", 49, "", "buyer's deposit, used up", Kind::due_back, "-200");
  line(f, "2025-04-15", 49, "", "advert", Kind::selling_cost, "-20");
  line(f, "2025-04-15", 49, "", "notary and forms", Kind::selling_cost, "-6.50");
  line(f, "2025-04-19", 50, "", "one heater hose and two hub caps left over", Kind::recovered, "22", "", "",
       "", true);
  line(f, "2025-05-03", 51, "Millgate Parts 40501", "belt idler", Kind::part, "-19.81", "new", "1", "", true);
  work(f, "2025-05-03", "after the sale", "0.8", "0", "", true);
  f.cash_profit = usd("881.94");
  return f;
}

ProfitFigures in_pieces() {
  ProfitFigures f;
  f.tag = "ox";
  f.description = "2006 Harl Ox pickup, rusted through";
  f.state = ProfitFigures::State::in_pieces;
  f.made_on = Day(2025, 12, 31);
  f.bought_on = Day(2025, 10, 2);
  f.hour = usd("18");
  f.open = {{figures::Open::Kind::due, "core of the starter", "Millgate Parts", usd("12"), 0}};
  line(f, "2025-10-02", 60, "", "the pickup, at auction", Kind::purchase, "-700");
  line(f, "2025-10-02", 60, "", "buyer's fee", Kind::fee, "-85");
  line(f, "2025-10-03", 61, "Bexley Recovery T-990", "tow", Kind::fee, "-110");
  line(f, "2025-11-08", 65, "", "tailgate and bed", Kind::recovered, "320");
  line(f, "2025-11-20", 66, "", "gearbox", Kind::recovered, "240");
  work(f, "2025-11-02", "taking it apart", "9.5");
  f.cash_profit = usd("-335");
  return f;
}

std::vector<std::string> strange_texts() {
  return {"=1+1",
          "+1",
          "-1",
          "@SUM(A1)",
          "=HYPERLINK(\"x\",\"y\")",
          "\t=1",
          "'quoted",
          "emoji \xF0\x9F\x9A\x97\xF0\x9F\x94\xA7",
          "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xD9\x85\xD8\xB1\xD8\xAD\xD8\xA8\xD8\xA7",
          std::string("control \x01\x02\x1F\x7F\x00 end", 18),
          "not UTF-8 \xC3\x28 \xED\xA0\x80 \xF8\x88\x80\x80\x80 \xFF",
          "_x0041_ stays as typed",
          "<b>&amp;</b> ]]> \"quotes\"",
          "two\r\nlines\rthree",
          std::string(40'000, 'x'),
          std::string(32'767, 'y'),
          [] {
            std::string cars;
            for (int i = 0; i < 20'000; ++i) cars += "\xF0\x9F\x9A\x97";
            return cars;
          }(),
          [] {
            std::string escapes;
            for (int i = 0; i < 5'000; ++i) escapes += "_x0041_";
            return escapes;
          }(),
          " ",
          "",
          "100%",
          "1e5",
          "2025-03-01",
          "TRUE",
          "#REF!"};
}

ProfitFigures finished() {
  ProfitFigures f = in_pieces();
  f.state = ProfitFigures::State::finished;
  f.sold_on = Day(2025, 12, 20);
  f.open.clear();
  line(f, "2025-12-28", 71, "", "radio, found in the shed", Kind::recovered, "15", "", "", "", true);
  f.cash_profit = usd("-320");
  return f;
}

ProfitFigures sold_by_agent() {
  ProfitFigures f;
  f.tag = "heron";
  f.description = "=cmd|' /C calc'!A0";
  f.complaint =
      "\xE2\x80\xAE"
      "override and \x07 a bell";
  f.currency = Currency::of("JPY");
  f.state = ProfitFigures::State::sold;
  f.made_on = Day(2026, 2, 1);
  f.bought_on = Day(2026, 1, 3);
  f.sold_on = Day(2026, 1, 30);
  f.hour = Money::of_minor(2'150);
  f.commission_rate = Rate::parse("0.0725");
  f.open = {{figures::Open::Kind::due, "=HYPERLINK(\"http://invented.example\",\"a paper\")", "", {}, 0}};
  const auto yen = [&](const char* day, const std::string& what, Kind kind, std::int64_t amount) {
    f.lines.push_back(
        {Day::parse(day), 7, what, what, kind, "", std::nullopt, Money::of_minor(amount), false});
  };
  yen("2026-01-03", "the van", Kind::purchase, -180'000);
  for (const std::string& text : strange_texts()) yen("2026-01-04", text, Kind::part, -1'357);
  yen("2026-01-12", "belt", Kind::part, -41'219);
  yen("2026-01-30", "sold", Kind::sale, 233'333);
  yen("2026-01-30", "agent", Kind::commission, -16'917);  // 233,333 x 0.0725 = 16,916.6
  for (const std::string& text : strange_texts())
    f.hours.push_back({Day(2026, 1, 5), text, hours("0.35"), hours("0.1"), false});
  return f;
}

ProfitFigures in_pesos(ProfitFigures f) {
  constexpr std::int64_t times = 38'461;
  const auto more = [](Money& money) { money = Money::of_minor(money.minor() * times); };
  f.currency = Currency::of("COP");
  for (ProfitLine& line : f.lines) more(line.amount);
  for (auto& [day, price] : f.advertised) more(price);
  more(f.hour);
  if (f.cash_profit) more(*f.cash_profit);
  if (f.expected_price) more(*f.expected_price);
  if (f.to_come) more(f.to_come->cost), more(f.to_come->selling_costs);
  if (f.estimate) {
    for (EstimatedCost& cost : f.estimate->costs) cost.price = Price::of_fine(cost.price.fine() * times);
    more(f.estimate->hour);
    if (f.estimate->sale_price) more(*f.estimate->sale_price);
    if (f.estimate->holding_per_day) more(*f.estimate->holding_per_day);
  }
  return f;
}

ProfitFigures of_many_entries() {
  ProfitFigures f = not_sold_yet();
  for (int i = 0; i < 360; ++i)
    line(f, "2025-04-09", 100 + i, "Millgate Parts 40500",
         "clips, trim and small screws, of which nobody counted how many there were", Kind::part, "-1.37",
         "new", "1");
  return f;
}

}  // namespace nonrunner::reports::invented
