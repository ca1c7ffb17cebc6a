// An invented car whose tests point to one of two causes, in a book of its own, and what is said of it.
#pragma once
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

#include "commands/counter.h"

namespace nonrunner::answers {

inline const std::string brindle_job = R"(
[vehicle]
tag = "brindle"
description = "2011 Marlow Brindle"
complaint = "overheats"
[deal]
asking = 900
fees = 160
[shop]
hour = 20
pace = 1
hours_per_week = 10
[sale]
days = 14
costs = 45
[aims]
profit = 0
[value]
sound = 3000
[opening_up]
hours = 1.5
[[cause]]
name = "water pump or radiator"
odds = 50
found = 700
correction = "pump and thermostat"
[[cause]]
name = "head gasket leaks"
odds = 50
found = 400
correction = "head off"
[[correction]]
name = "pump and thermostat"
operations = [{ name = "strip and change the pump", hours = 3 }, { name = "fill, bleed, road test", hours = 2 }]
parts = [{ name = "water pump with gasket", qty = 1, new = 70 }, { name = "thermostat", qty = 1, new = 18 }]
consumables = [{ name = "coolant", qty = 2, price = 15 }]
[[correction]]
name = "head off"
operations = [{ name = "head off and on", hours = 12 }, { name = "fill, bleed, road test", hours = 2 }]
parts = [{ name = "head gasket set", qty = 1, new = 140 }]
sublet = [{ name = "pressure-test and skim the head", price = 110 }]
works = 0.85
otherwise = "engine from the yard"
[[correction]]
name = "engine from the yard"
operations = [{ name = "engine in and out", hours = 14 }, { name = "fill, bleed, road test", hours = 2 }]
parts = [{ name = "engine, complete", qty = 1, salvage = 566 }]
[[test]]
name = "bubbles in the header tank"
outcomes = ["none", "steady"]
given = { "water pump or radiator" = [0.9, 0.1], "head gasket leaks" = [0.2, 0.8] }
[[trouble]]
name = "rot that does not show"
chance = 0.1
cash = 150
hours = 6
takes_off = 50
found_less = 100
[[fault]]
name = "tyres at the wear bars"
takes_off = 150
must = true
fix = [{ name = "part-worn pair, fitted", source = "salvage", cash = 95, hours = 1, restores = 1 }]
[[fault]]
name = "headlamps clouded"
takes_off = 80
fix = [{ name = "polished", source = "repair", cash = 20, hours = 1, restores = 1 }]
)";

class Brindle : public commands::Counter {
 public:
  explicit Brindle(const std::string& name) : Counter("forward-" + name) {
    run({"owner", "in", "5000", "--purse", "cash", "--date", "2026-04-01"});
    job_file = file("brindle.toml", brindle_job);
  }
  void buy() {
    run({"buy", "brindle", "900", "--fee", "title=62", "--fee", "tow=95", "--purse", "cash", "--date",
         "2026-04-04", "--job", job_file});
    REQUIRE(status == 0);
  }
  // What is printed, without its line breaks: a sentence may be folded anywhere.
  std::string said(const commands::Words& words) {
    std::string flat;
    for (const char c : run(words))
      if (c != '\n' && c != ' ')
        flat += c;
      else if (!flat.empty() && flat.back() != ' ')
        flat += ' ';
    return flat;
  }
  // The same with somebody at the terminal, who types this.
  std::string answered(commands::Words words, const std::string& typed) {
    std::istringstream in(typed);
    std::ostringstream out, err;
    commands::Terminal terminal{out, err, false, false, today, "2026-05-02T12:00:00Z", {}, &in};
    words.insert(words.end(), {"--book", book().string()});
    status = commands::run(words, terminal);
    std::string flat;
    for (const char c : err.str() + out.str())
      if (c != '\n' && c != ' ')
        flat += c;
      else if (!flat.empty() && flat.back() != ' ')
        flat += ' ';
    return flat;
  }
  nlohmann::json shown() { return nlohmann::json::parse(run({"show", "brindle", "--json"})); }
  std::string break_even() { return shown()["break_even_price"]; }
  std::string to_come() { return shown()["budget"]["cash_to_come"]; }
  nlohmann::json line(const std::string& what) {
    const auto json = shown();
    for (const auto& each : json["budget"]["lines"])
      if (each["what"] == what) return each;
    return {};
  }
  std::string job_file;
};

}  // namespace nonrunner::answers
