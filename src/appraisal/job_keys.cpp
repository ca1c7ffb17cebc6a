#include "appraisal/job_keys.h"

#include <algorithm>
#include <stdexcept>

#include "figures/aim.h"
#include "resale/keys.h"

namespace nonrunner::appraisal {

namespace {

std::vector<FileKey> keys_of_the_aims() {
  std::vector<FileKey> keys;
  for (const figures::AimRow& row : figures::aims) keys.push_back({row.key, false, row.means});
  keys.push_back({"test_gain", false,
                  "what one more test must gain to be worth the trouble; else a quarter of hour; always more "
                  "than half the smallest coin"});
  return keys;
}

std::vector<FileTable> about_the_deal() {
  return {
      {"vehicle",
       "[vehicle]",
       "the car",
       {{"tag", true, "up to 24 of a-z, 0-9 and '-': what it is called in the book"},
        {"description", false, "words"},
        {"complaint", false, "what is wrong with it, as seen"},
        {"year", false, "of the model; needed with comparables"},
        {"odometer", false, "what it stands at; needed with comparables"},
        {"vin", false, "17 characters are checked against 49 CFR 565"},
        {"paper", false,
         "\"clean\" (else), \"lien\", \"salvage\", \"rebuilt\" or \"lost\". lost bars the road for certain: "
         "the "
         "car is not reckoned put right. Where a new title may be had, a [[trouble]] with bars_road = true "
         "and "
         "\"title\" or \"paper\" as a word of its name says how likely it is that there will be none, and "
         "stands "
         "in its place; no other trouble does"}}},
      {"deal",
       "[deal]",
       "what is asked",
       {{"asking", true, "the price asked"},
        {"fees", false, "an amount paid on purchase whatever the cause"},
        {"rate", false, "tax on the price, not on the fees, as a fraction; else 0"},
        {"fee_bands", false,
         "[[0, 150], [1000, 210]]: an auction's fee for the buyer from this price on, beside fees; the first "
         "from "
         "0, fees not falling"},
        {"gone", false, "chance that somebody else buys while one test is made; else 0"}}},
      {"offer",
       "[[offer]]",
       "another offer",
       {{"name", true, "what it is called"},
        {"price", true, "its price"},
        {"covers", false, "{ \"cause\" = share that the seller bears }; else 0 for each"}}},
      {"shop",
       "[shop]",
       "what your own work takes and must earn",
       {{"hour", true, "what an own hour must earn"},
        {"pace", true, "real hours for an estimated one, an amount; or \"own\""},
        {"hours_per_week", true, "own hours in a week"},
        {"wait_days", false, "an amount of days for parts and outside work"},
        {"holding_per_day", false, "storage, insurance"},
        {"money_rate", false,
         "what money could earn otherwise, a year, as a fraction of the price and what is paid with it; else "
         "0"},
        {"bay_per_day", false,
         "what a day of the place could earn otherwise: it counts in the profit and in what is chosen, as "
         "own "
         "hours do; not in cash profit, chance of a loss, per_hour or cash needed; or \"own\""}}},
      {"sale",
       "[sale]",
       "how it sells",
       {{"days", true, "an amount of days from ready to sold; or \"own\""},
        {"realised", false,
         "price got for 1 advertised, an amount; else 1; needed with asking prices among the comparables; or "
         "\"own\""},
        {"costs", false, "an amount: advert, cleaning, inspection"},
        {"rate", false, "commission, a share of the price; else 0"}}},
      {"aims", "[aims]", "what you want of it", keys_of_the_aims()},
      {"value",
       "[value]",
       "what a sound one sells for",
       {{"sound", false, "an amount; or [[comparable]] rows in its place"},
        {"branded", false, "the share that a salvage or rebuilt car keeps; needed for such a paper"},
        {"grade", false, "of this car when sound, 1 to 5; else 3"},
        {"from", false, "\"book\": also the comparables of the book that fit"},
        {"slopes", false, "what is believed before any row is seen; see [value.slopes]"}}}};
}

std::vector<FileTable> about_the_repair() {
  return {
      {"opening_up",
       "[opening_up]",
       "until the cause is known for certain",
       {{"hours", false, "an amount of own hours"}, {"cash", false, "an amount"}}},
      {"cause",
       "[[cause]]",
       "what it can be; one that may never be found is one like others, without a correction",
       {{"name", true, "what it is called"},
        {"odds", true, "relative to the other causes; or \"own\" in all of them"},
        {"found", false, "what it fetches as it stands once this is known; else it cannot be sold so"},
        {"correction", false, "the name of a [[correction]]; else it cannot be put right"},
        {"part_out", false, "a table as [part_out], for this cause"},
        {"scrap", false, "a table as [scrap], for this cause"},
        {"opening_up", false, "a table as [opening_up], for this cause; key by key, else those of the job"}}},
      {"correction",
       "[[correction]]",
       "how it is put right; where it does not cure, the next of its chain, or the best of the other "
       "courses, "
       "follows after its costs",
       {{"name", true, "what it is called"},
        {"hours", false, "a number, or a list of amounts, one for each operation: [[5, 7, 11], 1.5]"},
        {"operations", false, "in place of hours: the operations by name"},
        {"parts", false, "the parts"},
        {"consumables", false, "what is used up"},
        {"sublet", false, "work that is sent out"},
        {"works", false, "the chance that it cures; else 1"},
        {"takes_off", false, "an amount off the sale price of a car put right so"},
        {"otherwise", false, "the correction that follows where it does not cure; else nothing follows"}}},
      {"operation",
       "operations = [{ ... }]",
       "of a correction",
       {{"name", true, "what is done"},
        {"hours", true, "an amount of own hours by the estimate"},
        {"hazards", false, "a list of words: what can hurt on it"}}},
      {"part",
       "parts = [{ ... }]",
       "of a correction; one or more of new, salvage and reman",
       {{"name", true, "what it is"},
        {"qty", true, "pieces"},
        {"new", false, "an amount: the price of a new one"},
        {"salvage", false, "an amount: at the yard"},
        {"reman", false, "an amount: remanufactured"},
        {"core", false, "the deposit on the old part, which comes back"},
        {"pull_hours", false, "an amount of own hours: pulling it at the yard, once however many pieces"},
        {"bad", false,
         "the chance that a salvage part is bad: then the new one is bought too (the same again where no new "
         "price "
         "is given); else 0"},
        {"use", false,
         "\"new\", \"salvage\" or \"reman\"; else the cheapest, own hours and the chance of a bad one "
         "counted"}}},
      {"consumable",
       "consumables = [{ ... }]",
       "of a correction",
       {{"name", true, "what it is"}, {"qty", true, "how much of it"}, {"price", true, "an amount for one"}}},
      {"sublet",
       "sublet = [{ ... }]",
       "of a correction",
       {{"name", true, "what is sent out"}, {"price", true, "an amount"}}},
      {"part_out",
       "[part_out]",
       "taking it to pieces",
       {{"proceeds", true, "an amount: what the parts bring"},
        {"hours", false, "an amount of own hours"},
        {"costs", false, "an amount"}}},
      {"scrap", "[scrap]", "the scrap man", {{"value", true, "an amount"}, {"costs", false, "an amount"}}}};
}

std::vector<FileTable> about_looking() {
  return {{"test",
           "[[test]]",
           "what can be found out before buying",
           {{"name", true, "what it is called"},
            {"cash", false, "an amount"},
            {"hours", false, "an amount of own hours"},
            {"outcomes", true, "a list of two or more"},
            {"given", true, "{ \"cause\" = [chances] }: of each outcome under each cause, adding up to 1"},
            {"about", false, "a trouble: the rows of given are then present and absent; else the cause"},
            {"seen", false, "the outcome; else it is not made yet"},
            {"spoiled", false, "true: it can tell nothing any more; else false"},
            {"gone", false, "chance that somebody else buys meanwhile; else that of the deal"}}},
          {"trouble",
           "[[trouble]]",
           "something else that may be wrong, whatever the cause",
           {{"name", true, "what it is called"},
            {"chance", true, "how likely it is, whatever the cause and the other troubles"},
            {"cash", false, "an amount to mend it"},
            {"hours", false, "an amount of own hours"},
            {"takes_off", false, "an amount off the sale price"},
            {"found_less", false, "an amount less as it stands"},
            {"bars_road", false, "true: it cannot be put right for the road; else false"}}},
          {"fault",
           "[[fault]]",
           "what a buyer would hold against it when it runs",
           {{"name", true, "what it is called"},
            {"takes_off", true, "an amount off the sale price"},
            {"must", false, "true: it may not be sold running like this; else false"},
            {"fix", false, "a list: ways to mend it"}}},
          {"fix",
           "fix = [{ ... }]",
           "of a fault",
           {{"name", true, "what it is called"},
            {"source", true, "\"salvage\", \"new\" or \"repair\""},
            {"cash", false, "an amount"},
            {"hours", false, "an amount of own hours"},
            {"restores", true, "the share of takes_off that comes back"}}}};
}

}  // namespace

const std::vector<FileTable>& job_tables() {
  static const std::vector<FileTable> all = [] {
    std::vector<FileTable> tables = about_the_deal();
    tables.push_back(resale::slope_keys());
    tables.push_back(resale::comparable_keys());
    for (auto part : {about_the_repair(), about_looking()})
      tables.insert(tables.end(), part.begin(), part.end());
    return tables;
  }();
  return all;
}

std::vector<std::string> job_keys(std::string_view name) {
  for (const FileTable& table : job_tables())
    if (name == table.name) return names_of(table.keys);
  throw std::logic_error("no table of a job file is called " + std::string(name));
}

}  // namespace nonrunner::appraisal
