#include "appraisal/read_correction.h"

#include <fmt/format.h>

#include "appraisal/job_keys.h"
#include "appraisal/read_amount.h"

namespace nonrunner::appraisal {

namespace {

double quantity_of(const Table& table) { return number_above(table, "qty", 0, "a number of pieces above 0"); }

Part part_of(Table table, const Currency& currency) {
  Part part;
  part.name = table.text("name");
  table.rename(fmt::format("part {}", table.find("name")->shown()));
  table.only(job_keys("part"));
  part.qty = quantity_of(table);
  bool any = false;
  for (const Source source : all_sources) {
    const std::string key = name_of(source);
    if (!table.has(key)) continue;
    part.price[static_cast<std::size_t>(source)] = money_amount(table, key, currency);
    any = true;
  }
  if (!any)
    table.refuse_whole(fmt::format(
        "{} has no price, expected at least one of \"new\", \"salvage\", \"reman\"", table.name()));
  part.core = money_amount_or_zero(table, "core", currency);
  for (const char* of_yard : {"pull_hours", "bad"})
    if (table.has(of_yard) && !table.has("salvage"))
      table.refuse_whole(
          fmt::format("\"{}\" in {} is about a salvage part, expected a \"salvage\" price beside it", of_yard,
                      table.name()),
          of_yard);
  part.pull_hours = amount_of_or_zero(table, "pull_hours", "hours");
  part.bad = share_or(table, "bad", 0);
  if (table.has("use")) {
    const std::string use = table.text("use");
    for (const Source source : all_sources)
      if (use == name_of(source)) part.use = source;
    if (!part.use) table.refuse("use", "\"new\", \"salvage\" or \"reman\"");
    if (!part.price[static_cast<std::size_t>(*part.use)])
      table.refuse("use", fmt::format("a source that has a price; add {} = PRICE or use another", use));
  }
  return part;
}

std::vector<Operation> operations_of(const Table& table) {
  std::vector<Operation> all;
  if (table.has("operations") && table.has("hours"))
    table.refuse_whole(
        fmt::format("{} has both \"hours\" and \"operations\", expected one of them", table.name()), "hours");
  for (Table each : table.tables("operations", "operation")) {
    Operation operation;
    operation.name = each.text("name");
    each.rename(fmt::format("operation {}", each.find("name")->shown()));
    each.only(job_keys("operation"));
    operation.hours = amount_of(each, "hours", "hours");
    if (each.has("hazards")) operation.hazards = each.texts("hazards");
    all.push_back(std::move(operation));
  }
  const Value* hours = table.find("hours");
  if (!hours) return all;
  constexpr auto expected =
      "a number of hours or a list of amounts, one for each operation, such as [[5, 7, 11], 1.5]";
  if (hours->kind != Value::Kind::array) {
    all.push_back({"work", amount_in(table, "hours", *hours, "hours"), {}});
    return all;
  }
  bool all_numbers = hours->items.size() == 3;
  for (const Value& item : hours->items) all_numbers = all_numbers && item.kind != Value::Kind::array;
  if (all_numbers)
    table.refuse(
        "hours",
        "a list of amounts, one for each operation: [[low, likely, high]] for one operation by three points");
  for (const Value& item : hours->items) {
    if (item.kind != Value::Kind::array && item.kind != Value::Kind::whole && item.kind != Value::Kind::real)
      table.refuse("hours", expected);
    all.push_back(
        {fmt::format("operation {}", all.size() + 1), amount_in(table, "hours", item, "hours"), {}});
  }
  return all;
}

Correction correction_of(const Table& table, const Currency& currency) {
  table.only(job_keys("correction"));
  Correction correction;
  correction.operations = operations_of(table);
  for (const Table& each : table.tables("parts", "part")) correction.parts.push_back(part_of(each, currency));
  for (Table each : table.tables("consumables", "consumable")) {
    Consumable consumable;
    consumable.name = each.text("name");
    each.rename(fmt::format("consumable {}", each.find("name")->shown()));
    each.only(job_keys("consumable"));
    consumable.qty = quantity_of(each);
    consumable.price = money_amount(each, "price", currency);
    correction.consumables.push_back(std::move(consumable));
  }
  for (Table each : table.tables("sublet", "sublet")) {
    Sublet sublet;
    sublet.name = each.text("name");
    each.rename(fmt::format("sublet {}", each.find("name")->shown()));
    each.only(job_keys("sublet"));
    sublet.price = money_amount(each, "price", currency);
    correction.sublets.push_back(std::move(sublet));
  }
  correction.works = share_or(table, "works", 1);
  correction.takes_off = money_amount_or_zero(table, "takes_off", currency);
  return correction;
}

}  // namespace

std::vector<Correction> read_corrections(const Table& root, const Currency& currency, Names& names) {
  std::vector<Table> tables = root.tables("correction", "[[correction]]");
  std::vector<Correction> all;
  for (Table& table : tables) {
    const std::string name = names.add(table);
    all.push_back(correction_of(table, currency));
    all.back().name = name;
  }
  for (std::size_t i = 0; i < all.size(); ++i)
    if (tables[i].has("otherwise"))
      all[i].otherwise = names.find(tables[i], "otherwise", tables[i].text("otherwise"));
  for (std::size_t i = 0; i < all.size(); ++i) {
    std::size_t at = i;
    for (std::size_t followed = 0; all[at].otherwise; ++followed) {
      at = *all[at].otherwise;
      if (at == i || followed > all.size())
        tables[i].refuse("otherwise", "a correction that does not lead back to one made before");
    }
  }
  for (std::size_t i = 0; i < all.size(); ++i) {
    std::size_t length = 1;
    for (auto next = all[i].otherwise; next; next = all[*next].otherwise) ++length;
    if (length > chain_max)
      tables[i].refuse("otherwise", fmt::format("a chain of at most {} corrections", chain_max));
  }
  return all;
}

}  // namespace nonrunner::appraisal
