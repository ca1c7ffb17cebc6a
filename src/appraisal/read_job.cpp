#include "appraisal/read_job.h"

#include <fmt/format.h>

#include <algorithm>

#include "appraisal/evidence.h"
#include "appraisal/job_keys.h"
#include "appraisal/names.h"
#include "appraisal/read_amount.h"
#include "appraisal/read_correction.h"
#include "appraisal/read_test.h"
#include "exact/ends.h"
#include "exact/nearest.h"
#include "exact/vin.h"
#include "figures/every_budget.h"
#include "text/same_name.h"
#include "text/table.h"
#include "text/tag.h"
#include "text/toml.h"
#include "text/unicode.h"

namespace nonrunner::appraisal {

namespace {

Table section(const Table& root, const std::string& key) {
  const auto found = root.table(key, "[" + key + "]");
  if (!found) root.refuse_whole(fmt::format("the file has no [{}], expected that table", key));
  return *found;
}

Paper paper_of(const Table& vehicle) {
  const std::string paper = vehicle.text_or("paper", "clean");
  if (paper == "clean") return Paper::clean;
  if (paper == "lien") return Paper::lien;
  if (paper == "salvage") return Paper::salvage;
  if (paper == "rebuilt") return Paper::rebuilt;
  if (paper == "lost") return Paper::lost;
  vehicle.refuse("paper", "\"clean\", \"lien\", \"salvage\", \"rebuilt\" or \"lost\"");
}

// What may be left out: then the table is empty, and each key has its own default.
std::optional<Table> may_have(const Table& root, const std::string& key) {
  return root.table(key, "[" + key + "]");
}

void at_most_days(const Table& table, std::string_view key, const Amount& days) {
  if (days.high > days_max) table.refuse(key, fmt::format("at most {:.0f} days", days_max));
}

double chance_or(const Table& table, std::string_view key, double fallback) {
  if (!table.has(key)) return fallback;
  const double chance = number_from(table, key, 0, "a chance of 0 or more and at most 1");
  if (chance > 1) table.refuse(key, "a chance of 0 or more and at most 1");
  return chance;
}

Vehicle vehicle_of(const Table& root) {
  const auto given = may_have(root, "vehicle");
  if (!given) return {};
  const Table& table = *given;
  table.only(job_keys("vehicle"));
  Vehicle vehicle;
  vehicle.tag = as_tag(table.text("tag"));
  if (!is_tag(vehicle.tag)) table.refuse("tag", "up to 24 of a-z, 0-9 and '-'");
  vehicle.description = table.text_or("description", "");
  vehicle.complaint = table.text_or("complaint", "");
  if (table.has("year")) vehicle.year = table.whole("year", 1886, 2200);
  if (table.has("odometer")) vehicle.odometer = number_from(table, "odometer", 0, "a distance of 0 or more");
  const std::string vin = table.text_or("vin", "");
  if (!vin.empty()) {
    try {
      vehicle.vin = checked_vin(vin);
    } catch (const Refusal& refusal) {
      table.refuse_whole(fmt::format("\"vin\" in [vehicle]: {}", refusal.what()), "vin");
    }
  }
  vehicle.paper = paper_of(table);
  return vehicle;
}

std::vector<FeeBand> fee_bands_of(const Table& table, const Currency& currency) {
  constexpr auto expected =
      "a list of [price, fee] pairs such as [[0, 150], [1000, 210]], the first from 0, prices rising, fees "
      "not "
      "falling";
  std::vector<FeeBand> bands;
  if (!table.has("fee_bands")) return bands;
  const Value& list = *table.find("fee_bands");
  if (list.kind != Value::Kind::array || list.items.empty()) table.refuse("fee_bands", expected);
  for (const Value& item : list.items) {
    const bool pair = item.kind == Value::Kind::array && item.items.size() == 2;
    if (!pair || !is_money(item.items[0], currency) || !is_money(item.items[1], currency))
      table.refuse("fee_bands", expected);
    const FeeBand band{item.items[0].real, item.items[1].real};
    const bool fits =
        bands.empty() ? band.from == 0 : band.from > bands.back().from && band.fee >= bands.back().fee;
    if (!fits) table.refuse("fee_bands", expected);
    bands.push_back(band);
  }
  return bands;
}

Deal deal_of(const Table& root, const Currency& currency, const Names& causes, const std::vector<Cause>& of) {
  const Table table = section(root, "deal");
  table.only(job_keys("deal"));
  Deal deal;
  deal.asking = money_number(table, "asking", currency);
  deal.fees = money_amount_or_zero(table, "fees", currency);
  deal.rate = rate_or_zero(table, "rate");
  deal.fee_bands = fee_bands_of(table, currency);
  deal.gone = chance_or(table, "gone", 0);
  Names names("[[offer]]");
  for (Table& each : root.tables("offer", "[[offer]]")) {
    Offer offer;
    offer.name = names.add(each);
    each.only(job_keys("offer"));
    if (offer.name == plain_offer)
      each.refuse("name", fmt::format("another name; \"{}\" is [deal] asking", plain_offer));
    offer.price = money_number(each, "price", currency);
    offer.covers.assign(causes.all().size(), 0.0);
    if (const auto covers = each.table("covers", fmt::format("\"covers\" of {}", each.name())))
      for (const auto& [cause, value] : covers->value().entries) {
        const std::size_t at = causes.find(*covers, cause, cause);
        if (!of[at].correction)
          covers->refuse_whole(fmt::format("{} has a share for \"{}\", which has no correction, expected a "
                                           "cause that can be put right",
                                           covers->name(), cause),
                               cause);
        offer.covers[at] = share(*covers, cause);
      }
    if (deal.others.size() == offers_max)
      each.refuse_whole(fmt::format("more than {} [[offer]]s, expected at most so many", offers_max));
    deal.others.push_back(std::move(offer));
  }
  return deal;
}

Shop shop_of(const Table& root, const Currency& currency) {
  Shop shop;
  const auto given = may_have(root, "shop");
  if (!given) return shop;
  const Table& table = *given;
  table.only(job_keys("shop"));
  shop.hour = money_number(table, "hour", currency);
  shop.pace = amount_of(table, "pace", "real hours for an estimated one");
  if (shop.pace.low <= 0) table.refuse("pace", "real hours / estimated hours above 0");
  shop.hours_per_week = number_above(table, "hours_per_week", 0, "a number of hours above 0");
  if (shop.hours_per_week > 168) table.refuse("hours_per_week", "at most the 168 hours of a week");
  shop.wait_days = amount_of_or_zero(table, "wait_days", "days");
  at_most_days(table, "wait_days", shop.wait_days);
  if (table.has("holding_per_day")) shop.holding_per_day = money_number(table, "holding_per_day", currency);
  shop.money_rate = rate_or_zero(table, "money_rate");
  if (table.has("bay_per_day")) shop.bay_per_day = money_number(table, "bay_per_day", currency);
  return shop;
}

Sale sale_of(const Table& root, const Currency& currency) {
  Sale sale;
  const auto given = may_have(root, "sale");
  if (!given) return sale;
  const Table& table = *given;
  table.only(job_keys("sale"));
  sale.days = amount_of(table, "days", "days");
  at_most_days(table, "days", sale.days);
  if (table.has("realised")) {
    sale.realised = amount_of(table, "realised", "price got for 1 advertised");
    if (sale.realised.low <= 0 || sale.realised.high > 2)
      table.refuse("realised", "price got / price advertised, above 0 and at most 2");
  }
  sale.costs = money_amount_or_zero(table, "costs", currency);
  sale.rate = rate_or_zero(table, "rate");
  return sale;
}

Aims aims_of(const Table& root, const Currency& currency) {
  Aims aims;
  const auto given = may_have(root, "aims");
  if (!given) return aims;
  const Table& table = *given;
  table.only(job_keys("aims"));
  for (const figures::AimRow& row : figures::aims)
    if (table.has(row.key))
      aims[row.aim] = row.is_share ? share(table, row.key) : money_number(table, row.key, currency);
  if (table.has("test_gain")) aims.test_gain = money_number(table, "test_gain", currency);
  return aims;
}

void read_value(const Table& root, const Currency& currency, Job& job) {
  job.basis = resale::read_basis(root, currency);
  const bool branded = job.vehicle.paper == Paper::salvage || job.vehicle.paper == Paper::rebuilt;
  const auto table = root.table("value", "[value]");
  if (table) {
    table->only(job_keys("value"));
    if (!job.basis) job.sound = money_amount(*table, "sound", currency);
    if (table->has("branded")) job.keeps = share(*table, "branded");
  }
  if (branded && !(table && table->has("branded"))) {
    const Table place = table ? *table : root;
    place.refuse_whole(
        "[value] has no \"branded\", expected the share of the sound value that a car with such a paper "
        "keeps, such as 0.7");
  }
  if (!branded) job.keeps = 1;
  const auto sale = root.table("sale", "[sale]");
  if (!job.basis || (sale && sale->has("realised"))) return;
  bool any_asking = job.basis->from_book;
  for (const resale::Comparable& comparable : job.basis->comparables)
    any_asking = any_asking || comparable.kind == resale::Kind::asking;
  if (!any_asking) return;
  constexpr auto expected = "price got / price advertised, since there are comparables with an asking price";
  if (sale) sale->refuse("realised", expected);
  root.refuse_whole(fmt::format("the file has no [sale] realised, expected {}", expected));
}

PartOut part_out_in(const Table& table, const Currency& currency) {
  table.only(job_keys("part_out"));
  return {money_amount(table, "proceeds", currency), amount_of_or_zero(table, "hours", "hours"),
          money_amount_or_zero(table, "costs", currency)};
}

Scrap scrap_in(const Table& table, const Currency& currency) {
  table.only(job_keys("scrap"));
  return {money_amount(table, "value", currency), money_amount_or_zero(table, "costs", currency)};
}

std::vector<Cause> causes_of(const Table& root, const Currency& currency, Names& names,
                             const Names& corrections) {
  std::vector<Cause> all;
  double odds = 0;
  std::vector<Table> tables = root.tables("cause", "[[cause]]");
  if (tables.empty()) root.refuse_whole("the file has no [[cause]], expected at least one");
  for (Table& table : tables) {
    Cause cause;
    cause.name = names.add(table);
    table.only(job_keys("cause"));
    cause.odds = number_from(table, "odds", 0, "a number of 0 or more, relative to the other causes");
    odds += cause.odds;
    if (table.has("found")) cause.found = money_amount(table, "found", currency);
    if (table.has("correction"))
      cause.correction = corrections.find(table, "correction", table.text("correction"));
    if (const auto pieces = table.table("part_out", fmt::format("[cause.part_out] of {}", table.name())))
      cause.part_out = part_out_in(*pieces, currency);
    if (const auto scrap = table.table("scrap", fmt::format("[cause.scrap] of {}", table.name())))
      cause.scrap = scrap_in(*scrap, currency);
    if (const auto opening =
            table.table("opening_up", fmt::format("[cause.opening_up] of {}", table.name()))) {
      opening->only(job_keys("opening_up"));
      if (opening->has("hours")) cause.opening_hours = amount_of(*opening, "hours", "hours");
      if (opening->has("cash")) cause.opening_cash = money_amount(*opening, "cash", currency);
    }
    if (all.size() == causes_max)
      table.refuse_whole(fmt::format("more than {} [[cause]]s, expected at most so many", causes_max));
    all.push_back(std::move(cause));
  }
  if (odds <= 0)
    tables.front().refuse_whole("the odds of all causes are 0, expected at least one above 0", "odds");
  return all;
}

std::vector<Trouble> troubles_of(const Table& root, const Currency& currency, Names& names) {
  std::vector<Trouble> all;
  for (Table& table : root.tables("trouble", "[[trouble]]")) {
    Trouble trouble;
    trouble.name = names.add(table);
    table.only(job_keys("trouble"));
    trouble.chance = share(table, "chance");
    trouble.cash = money_amount_or_zero(table, "cash", currency);
    trouble.hours = amount_of_or_zero(table, "hours", "hours");
    trouble.takes_off = money_amount_or_zero(table, "takes_off", currency);
    trouble.found_less = money_amount_or_zero(table, "found_less", currency);
    trouble.bars_road = table.flag_or("bars_road", false);
    if (all.size() == troubles_max)
      table.refuse_whole(fmt::format(
          "a ninth [[trouble]], expected at most {}; put those that matter least together", troubles_max));
    all.push_back(std::move(trouble));
  }
  return all;
}

// "title" or "paper", one or more of them, as a word of the name.
bool is_about_the_paper(const Trouble& trouble) {
  std::string word;
  for (const char c : trouble.name + " ") {
    const bool small = c >= 'a' && c <= 'z', large = c >= 'A' && c <= 'Z';
    if (small || large) {
      word += large ? static_cast<char>(c - 'A' + 'a') : c;
      continue;
    }
    if (word == "title" || word == "titles" || word == "paper" || word == "papers") return true;
    word.clear();
  }
  return false;
}

// A car without its title document cannot be sold for the road until there is another. Only a trouble about
// the paper itself says how likely it is that there will be none: one about anything else, such as rot, is a
// danger more, and must not make the lost paper go away.
void bar_the_road_without_paper(Job& job) {
  if (job.vehicle.paper != Paper::lost) return;
  for (std::size_t j = 0; j < job.troubles.size() && !job.paper_trouble; ++j)
    if (job.troubles[j].bars_road && is_about_the_paper(job.troubles[j])) job.paper_trouble = j;
  job.road_barred = !job.paper_trouble;
}

std::vector<Fault> faults_of(const Table& root, const Currency& currency) {
  std::vector<Fault> all;
  Names names("[[fault]]");
  for (Table& table : root.tables("fault", "[[fault]]")) {
    Fault fault;
    fault.name = names.add(table);
    table.only(job_keys("fault"));
    fault.takes_off = money_amount(table, "takes_off", currency);
    fault.must = table.flag_or("must", false);
    Names fixes("[[fault.fix]]");
    for (Table& each : table.tables("fix", "[[fault.fix]]")) {
      Fix fix;
      fix.name = fixes.add(each);
      each.only(job_keys("fix"));
      fix.source = each.text("source");
      if (fix.source != "salvage" && fix.source != "new" && fix.source != "repair")
        each.refuse("source", "\"salvage\", \"new\" or \"repair\"");
      fix.cash = money_amount_or_zero(each, "cash", currency);
      fix.hours = amount_of_or_zero(each, "hours", "hours");
      fix.restores = share(each, "restores");
      fault.fixes.push_back(std::move(fix));
    }
    if (fault.must && fault.fixes.empty())
      table.refuse_whole(
          fmt::format("{} must be put right and has no fix, expected at least one [[fault.fix]]",
                      table.name()),
          "must");
    all.push_back(std::move(fault));
  }
  return all;
}

// Where the text stands, in a message.
struct Place {
  const std::string& file;
  int line;
  std::string key;
};

void refuse_unseen_text(const Place& at, const std::string& text, Lines lines) {
  auto hidden = unseen(text, lines);
  if (!hidden) hidden = filler(text);
  const auto refuse = [&](const std::string& why) {
    throw Refusal(fmt::format("{}:{}: {} \"{}\" {}, expected one that can be read; type it anew", at.file,
                              at.line, printable(at.key), cut_to(text, 60), why));
  };
  if (hidden) refuse(fmt::format("holds a character that nobody sees ({})", code_point(*hidden)));
  if (!text.empty() && is_blank(text)) refuse("is nothing but blanks");
}

void refuse_unseen_in(const Value& value, const std::string& file, const std::string& key) {
  const bool may_have_lines = key == "description" || key == "complaint" || key == "note";
  if (value.kind == Value::Kind::text)
    refuse_unseen_text({file, value.line, key}, value.text, may_have_lines ? Lines::many : Lines::one);
  for (const Value& item : value.items) refuse_unseen_in(item, file, key);
  for (const auto& [name, item] : value.entries) {
    refuse_unseen_text({file, item.line, "the key"}, name, Lines::one);
    refuse_unseen_in(item, file, name);
  }
}

}  // namespace

void refuse_unfit_names(const Value& tree, const std::string& file) {
  refuse_unseen_in(tree, file, "the file");
  const auto each_of = [&](const Value& table, const char* key, auto look) {
    if (const Value* all = table.find(key))
      for (const Value& item : all->items) look(item);
  };
  const auto refuse = [&](const Value& name, const std::string& why) {
    throw Refusal(fmt::format("{}:{}: name {} {}", file, name.line, name.shown(), why));
  };
  const auto expect_own = [&](const Value& item, std::vector<std::string>& before) {
    const Value* name = item.find("name");
    if (!name || name->kind != Value::Kind::text) return;  // said where it is read
    const auto is_it = [&](const std::string& other) { return same_name(name->text, other); };
    if (std::ranges::any_of(figures::names_in_every_budget, is_it))
      refuse(*name, "is that of a line that every car has, expected another one");
    if (const auto other = std::ranges::find_if(before, is_it); other != before.end())
      refuse(*name, fmt::format(
                        "is there already in this correction{}, expected one line for each name; add them up",
                        *other == name->text ? "" : " as \"" + *other + "\""));
    before.push_back(name->text);
  };
  each_of(tree, "correction", [&](const Value& correction) {
    std::vector<std::string> money, hours;
    for (const char* key : {"parts", "consumables", "sublet"})
      each_of(correction, key, [&](const Value& item) { expect_own(item, money); });
    each_of(correction, "operations", [&](const Value& item) { expect_own(item, hours); });
  });
  for (const char* key : {"fault", "trouble"})
    each_of(tree, key, [&](const Value& item) {
      std::vector<std::string> none;
      expect_own(item, none);
    });
}

void refuse_too_long(std::string_view text, const std::string& file) {
  if (text.size() <= file_max) return;
  throw Refusal(fmt::format(
      "{}: {} bytes, expected a job file of at most {}; leave out what does not belong to this car", file,
      text.size(), file_max));
}

Job read_job(std::string_view text, const std::string& file, const Currency& currency) {
  refuse_too_long(text, file);
  return read_job(parse_toml(text, file), file, currency);
}

Job read_job(const Value& tree, const std::string& file, const Currency& currency) {
  const Table root(tree, file, "the file");
  root.only({"vehicle", "deal", "offer", "shop", "sale", "aims", "value", "opening_up", "cause", "correction",
             "part_out", "scrap", "test", "trouble", "fault", "comparable"});
  Job job;
  job.currency = currency;
  job.vehicle = vehicle_of(root);
  job.shop = shop_of(root, currency);
  job.sale = sale_of(root, currency);
  job.aims = aims_of(root, currency);
  read_value(root, currency, job);
  if (const auto opening = root.table("opening_up", "[opening_up]")) {
    opening->only(job_keys("opening_up"));
    job.opening_up = {amount_of_or_zero(*opening, "hours", "hours"),
                      money_amount_or_zero(*opening, "cash", currency)};
  }
  Names corrections("[[correction]]"), causes("[[cause]]"), troubles("[[trouble]]");
  job.corrections = read_corrections(root, currency, corrections);
  job.causes = causes_of(root, currency, causes, corrections);
  job.deal = deal_of(root, currency, causes, job.causes);
  if (const auto pieces = root.table("part_out", "[part_out]")) job.part_out = part_out_in(*pieces, currency);
  if (const auto scrap = root.table("scrap", "[scrap]")) job.scrap = scrap_in(*scrap, currency);
  job.troubles = troubles_of(root, currency, troubles);
  if (const std::size_t cases = job.causes.size() << job.troubles.size(); cases > cases_max)
    root.refuse_whole(
        fmt::format("{} [[cause]]s and {} [[trouble]]s make {} cases, expected at most {}; put those that "
                    "matter least together",
                    job.causes.size(), job.troubles.size(), cases, cases_max));
  job.tests = read_tests(root, currency, causes, troubles);
  job.faults = faults_of(root, currency);
  bar_the_road_without_paper(job);
  if (!can_be(job))
    root.refuse_whole(
        "the outcomes seen cannot come together under any cause, expected chances above 0 for what was seen; "
        "correct \"given\" or \"seen\"");
  return job;
}

void see(Job& job, std::string_view given) {
  std::vector<std::string> names;
  for (Test& test : job.tests) {
    names.push_back(test.name);
    if (given.size() <= test.name.size() || given.substr(0, test.name.size()) != test.name ||
        given[test.name.size()] != '=')
      continue;
    const std::string outcome(given.substr(test.name.size() + 1));
    const auto found = std::find(test.outcomes.begin(), test.outcomes.end(), outcome);
    if (found == test.outcomes.end()) {
      std::string listed;
      for (const std::string& each : test.outcomes) listed += (listed.empty() ? "\"" : ", \"") + each + "\"";
      throw WrongUsage(fmt::format("test \"{}\" has no outcome \"{}\", expected one of {}{}", test.name,
                                   outcome, listed, did_you_mean(outcome, test.outcomes)));
    }
    if (test.spoiled)
      throw Refusal(
          fmt::format("test \"{}\" is spoiled in the file, expected one that can be trusted", test.name));
    test.seen = static_cast<std::size_t>(found - test.outcomes.begin());
    if (!can_be(job))
      throw Refusal(
          fmt::format("\"{}\" can come from no cause that is left, expected a chance above 0 for it "
                      "under some cause",
                      std::string(given)));
    return;
  }
  const std::string name(given.substr(0, given.find('=')));
  if (given.find('=') == std::string_view::npos)
    throw WrongUsage(fmt::format("found \"{}\", expected TEST=OUTCOME with names as in the job file", name));
  std::string hint = did_you_mean(name, names);
  if (hint.empty()) {
    hint = names.empty() ? "; it has no [[test]] at all" : ", expected one of ";
    for (std::size_t i = 0; i < names.size(); ++i) hint += (i > 0 ? ", \"" : "\"") + names[i] + "\"";
  }
  throw WrongUsage(fmt::format("the job file has no test \"{}\"{}", name, hint));
}

}  // namespace nonrunner::appraisal
