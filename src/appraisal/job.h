// What is known about a car before it is bought: a job file as plain checked values (appraisal/read_job.h
// reads one).
//
// Money is a double in the currency's units, since everything here is an opinion or an expected value; it is
// rounded where it is printed and nowhere before. Hours are own hours by the estimate; hours really taken are
// these times the one `pace` of the job. Names are resolved: causes, corrections and troubles point at each
// other by their place.
#pragma once
#include <array>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "chance/three_point.h"
#include "exact/currency.h"
#include "figures/aim.h"
#include "resale/read.h"

namespace nonrunner::appraisal {

using Amount = ThreePoint;

enum class Paper { clean, lien, salvage, rebuilt, lost };

struct Vehicle {
  std::string tag, description, complaint;
  std::optional<int> year;
  std::optional<double> odometer;
  std::string vin;  // checked, or empty
  Paper paper = Paper::clean;
};

constexpr const char* plain_offer = "as it stands";

// A deal on the table. `covers`: for each cause the share of the cost of putting it right that the seller
// bears.
struct Offer {
  std::string name;
  double price = 0;
  std::vector<double> covers;
};

// An auction's fee for the buyer, from this price on.
struct FeeBand {
  double from = 0, fee = 0;
};

struct Deal {
  double asking = 0;
  Amount fees;                     // paid on purchase whatever the cause
  double rate = 0;                 // tax on the price, not on any fee
  std::vector<FeeBand> fee_bands;  // beside `fees`; the first from 0, prices rising, fees not falling
  double gone = 0;                 // chance that somebody else buys while a test is made
  std::vector<Offer> others;
};

// What a price comes to with its tax and the fee of its band; rises with the price.
double paid_at(const Deal&, double price);

struct Shop {
  double hour = 0;
  Amount pace = Amount::constant(1);
  double hours_per_week = std::numeric_limits<double>::infinity();  // left out: own hours take no days
  Amount wait_days;
  double holding_per_day = 0;
  double money_rate = 0;  // a year, simple, on the price and what is paid with it
  // What a day of the place could earn otherwise: it counts in the profit and in what is chosen, as own hours
  // do; not in the cash profit, the chance of a loss, the cash profit per own hour or the cash needed.
  double bay_per_day = 0;
};

struct Sale {
  Amount days;
  Amount realised = Amount::constant(1);  // got / asked
  Amount costs;
  double rate = 0;
};

// What is asked, aim by aim; absent: no such aim. The profit is asked unless it is taken out.
using figures::Aim;
struct Aims : figures::ByAim<std::optional<double>> {
  std::optional<double> test_gain = {};  // absent: a quarter of [shop] hour

  Aims() { (*this)[Aim::profit] = 0; }
  double profit() const { return (*this)[Aim::profit].value_or(0); }
  bool is_profit_alone() const {
    for (const figures::AimRow& row : figures::aims)
      if (row.aim != Aim::profit && (*this)[row.aim]) return false;
    return true;
  }
  Aims without(Aim aim) const {
    Aims others = *this;
    others[aim].reset();
    return others;
  }
};

struct Work {
  Amount hours;
  Amount cash;
};

struct Operation {
  std::string name;
  Amount hours;
  std::vector<std::string> hazards;
};

enum class Source { fresh, salvage, reman };
constexpr std::array<Source, 3> all_sources = {Source::fresh, Source::salvage, Source::reman};
std::string name_of(Source);  // "new", "salvage", "reman"

struct Part {
  std::string name;
  double qty = 1;
  std::array<std::optional<Amount>, 3> price;  // of one, by Source
  Amount core;                                 // deposit on one
  Amount pull_hours;                           // once, where it comes from a yard
  double bad = 0;                              // chance that the one from a yard is
  std::optional<Source> use;
};

struct Consumable {
  std::string name;
  double qty = 1;
  Amount price;
};

struct Sublet {
  std::string name;
  Amount price;
};

struct Correction {
  std::string name;
  std::vector<Operation> operations;
  std::vector<Part> parts;
  std::vector<Consumable> consumables;
  std::vector<Sublet> sublets;
  double works = 1;
  Amount takes_off;
  std::optional<std::size_t> otherwise;  // never leads back to itself
};

struct PartOut {
  Amount proceeds, hours, costs;
};

struct Scrap {
  Amount value, costs;
};

struct Cause {
  std::string name;
  double odds = 0;
  std::optional<Amount> found;  // absent: it cannot be sold as found
  std::optional<std::size_t> correction;
  std::optional<PartOut> part_out;  // in place of the job's
  std::optional<Scrap> scrap;
  std::optional<Amount> opening_hours = {}, opening_cash = {};  // in place of the job's, each for itself
};

struct Test {
  std::string name;
  Amount cash, hours;
  std::vector<std::string> outcomes;
  std::optional<std::size_t> trouble;  // absent: it is about the cause
  // Chance of each outcome: given[c] for cause c, or given[0] where the trouble is present and given[1] where
  // not.
  std::vector<std::vector<double>> given;
  std::optional<std::size_t> seen;
  bool spoiled = false;
  std::optional<double> gone = {};  // in place of the deal's
};

struct Trouble {
  std::string name;
  double chance = 0;
  Amount cash, hours, takes_off, found_less;
  bool bars_road = false;
};

struct Fix {
  std::string name, source;  // salvage, new or repair
  Amount cash, hours;
  double restores = 1;
};

struct Fault {
  std::string name;
  Amount takes_off;
  bool must = false;
  std::vector<Fix> fixes;
};

constexpr std::size_t troubles_max = 8;
constexpr std::size_t causes_max = 1000;
constexpr std::size_t cases_max = 25'600;  // causes by sets of troubles: each is weighed in every figure
constexpr std::size_t chain_max = 30;      // corrections, one after the other
constexpr std::size_t offers_max = 20;
constexpr double days_max = 3650;
constexpr std::size_t file_max = 1u << 20;  // bytes

struct Job {
  Currency currency;
  Vehicle vehicle;
  Deal deal;
  Shop shop;
  Sale sale;
  Aims aims;
  std::optional<Amount> sound;         // what a sound one sells for, or
  std::optional<resale::Basis> basis;  // the comparables that say it: one of the two
  double keeps = 1;                    // share of the sound value that a branded paper leaves
  Work opening_up;
  std::vector<Cause> causes;  // at least one, odds not all zero
  std::vector<Correction> corrections;
  std::optional<PartOut> part_out;
  std::optional<Scrap> scrap;
  std::vector<Test> tests;
  std::vector<Trouble> troubles;             // at most troubles_max
  bool road_barred = false;                  // for certain, whatever the troubles: there is no title document
  std::optional<std::size_t> paper_trouble;  // where the paper is lost: the trouble that says how likely that
                                             // is to bar the road
  std::vector<Fault> faults;
};

const std::optional<PartOut>& part_out_of(const Job&, const Cause&);
const std::optional<Scrap>& scrap_of(const Job&, const Cause&);
const Amount& opening_hours_of(const Job&, const Cause&);
const Amount& opening_cash_of(const Job&, const Cause&);
double gone_of(const Job&, const Test&);
// What one more test must gain to be worth the trouble; always more than half the smallest coin.
double least_gain_of_a_test(const Job&);
// The worth of the smallest coin, in units: 0.01 where the currency has two digits.
double smallest_coin(const Currency&);

}  // namespace nonrunner::appraisal
