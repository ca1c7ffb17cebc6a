#include "commands/season.h"

namespace nonrunner::commands {

namespace {

constexpr const char* paper = R"(date = 2026-03-07
supplier = "Cleave Yard"
number = "3071"
paid = { yard-credit = 20.00, cash = 39.16 }
tax = 2.91
total = 59.16
line = [
  { id = "R05.1", what = "yard entrance", qty = 1, unit = 2.25, kind = "fee", share = { pip = 1, teal = 1 } },
  { id = "R05.2", what = "alternator", qty = 1, unit = 34.00, core = 8.00, core_by = 2026-05-30, kind = "part", source = "salvage", to = "pip", taxed = true },
  { id = "R05.3", what = "hub caps", qty = 4, unit = 3.00, kind = "part", source = "salvage", to = "pip", taxed = true },
]
)";

constexpr const char* csv =
    "date,supplier,number,purse,total,tax,what,qty,unit,kind,source,to,stock,gives,taxed\r\n"
    "2026-03-10,Harrow Wholesale,880,card,31.03,2.03,brake pads,1,19.00,part,new,pip,,,yes\r\n"
    "2026-03-10,Harrow Wholesale,880,card,,,nitrile gloves,1,10.00,stock,,,gloves,100,yes\r\n"
    "2026-03-12,Harrow Wholesale,884,card,14.50,,\"coolant, 5 l\",1,14.50,stock,,,coolant,5,no\r\n";

constexpr const char* events = R"(event = [
  { do = "receipt", date = 2026-03-18, supplier = "Millgate Parts", number = "A-17", on_account = true, total = 120.00, back_by = 2026-05-17, line = [
    { id = "clutch", what = "clutch kit", unit = 95.00, core = 25.00, core_by = 2026-06-01, kind = "part", source = "reman", to = "teal" } ] },
  { do = "hours", date = 2026-03-19, vehicle = "teal", operation = "clutch", paid = 2.5, rate = 18.00, purse = "cash" },
]
)";

}  // namespace

Season::Season() {
  file("paper.toml", paper);
  file("papers.csv", csv);
  file("events.toml", events);
  file("title.jpg", "a photograph of a title");
  story += dialogue({
      "start SHOP/shop.book --currency USD --distance mi",
      "set hour 20",
      "set dealer-limit 4",
      "owner in 2500 --purse cash --date 2026-02-27",
      "owner in 20 --purse yard-credit --date 2026-02-27",
      "move 300 cash bank --date 2026-02-27 --new",
      "trip pip 34 \"view and test\" --date 2026-02-28 --new",
      "receipt pip 6.50 \"block test fluid\" --kind consumable --supplier \"Harrow Wholesale\" --whole "
      "--purse cash --date 2026-02-28",
      "trip wren,gull=2 21 \"viewing\" --date 2026-03-01 --new",
      "hours wren 0.75 \"viewing\" --date 2026-03-01",
      "pass wren --why \"rust in both sills\" --date 2026-03-01",
      "buy pip 900 --fee title=62 --fee tow=80@bank --purse cash --date 2026-03-02",
      "buy gull 350 --purse cash --date 2026-03-03",
      "buy teal 1200 --purse bank --fee title=62 --date 2026-03-04",
      "note pip \"impeller gone, heater blocked\" --date 2026-03-05",
      "attach pip SHOP/title.jpg --date 2026-03-05",
      "receipt --file SHOP/paper.toml",
      "receipt --csv SHOP/papers.csv",
      "receipt --csv SHOP/papers.csv",
      "receipt pip 48 radiator --source salvage --purse cash --date 2026-03-11",
      "receipt teal 9.20 \"gear oil\" --kind consumable --supplier \"Harrow Wholesale\" --purse cash --date "
      "2026-03-12",
      "tool 60 \"pressure-fill tool\" --supplier \"Millgate Parts\" --back-by 2026-03-20 --purse cash --date "
      "2026-03-12",
      "hours pip 3.5 \"cooling system\" --date 2026-03-13",
      "hours pip 1.25 \"front brakes\" --date 2026-03-14",
      "draw pip coolant 4 --date 2026-03-14",
      "draw pip gloves 12 --date 2026-03-14",
      "count gloves 80 --date 2026-03-15",
      "return R05.3 --qty 2 --restocking 1.00 --date 2026-03-15",
      "shelve \"hub cap\" 1 --line R05.3 --date 2026-03-15",
      "tool 60 \"pressure-fill tool\" --back --purse cash --date 2026-03-16",
      "recover gull 180 \"gearbox\" --purse cash --date 2026-03-16",
      "transfer gull teal 40 \"driver's seat\" --date 2026-03-17",
      "post SHOP/events.toml",
      "pay 50 \"Millgate Parts\" --purse bank --date 2026-03-25",
      "core R05.2 --amount 6 --date 2026-03-20",
      "advertise pip 3490 --date 2026-03-21",
      "cost pip 20 advert --purse card --date 2026-03-21",
      "deposit pip 200 --purse cash --date 2026-03-28",
      "sell pip 2950 --cost \"inspection=45@card\" --commission 2% --purse cash --date 2026-04-02",
      "recover gull 95 scrap --purse cash --date 2026-04-05",
      "write-off gull --date 2026-04-06",
      "recover pip 25 \"old seat\" --purse cash --date 2026-04-10",
  });
  now = "2026-05-02T07:30:00Z";
  story += dialogue({"clock on teal clutch"});
  now = "2026-05-02T10:00:00Z";
  story += dialogue({
      "clock show",
      "clock off",
      "clock on teal \"road test\"",
      "owner out 100 --purse cash --date 2026-05-01",
      "void 41 --why \"typed twice\"",
      "close 2026-03-31",
  });
}

}  // namespace nonrunner::commands
