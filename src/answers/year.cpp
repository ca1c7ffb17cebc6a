#include "answers/year.h"

#include <algorithm>
#include <map>
#include <stdexcept>

#include "answers/kept_job.h"
#include "book/events/named.h"
#include "book/events/part_out.h"
#include "book/ledger/details.h"
#include "book/ledger/line.h"
#include "book/ledger/position.h"
#include "book/ledger/settings.h"
#include "book/questions/figures.h"
#include "book/questions/journal.h"
#include "book/questions/owed.h"
#include "book/questions/period.h"
#include "exact/ends.h"
#include "text/typed_numbers.h"

namespace nonrunner::answers {

namespace {

namespace account = book::account;
const Day dawn(1, 1, 1);

bool in_inventory(const std::string& kind) {
  return kind == account::vehicle_cost || kind == account::recovered;
}
bool is_cost_of_sales(const std::string& kind) {
  return kind == account::cost_of_sale || kind == account::written_off;
}
bool is_result(const std::string& kind, const std::string& name) {
  if (kind == account::tools && name == account::tools_kept) return false;
  static const std::vector<std::string> kinds = {account::sales,        account::recovered_income,
                                                 account::deposit_kept, account::cost_of_sale,
                                                 account::selling_cost, account::late_cost,
                                                 account::written_off,  account::looking,
                                                 account::overhead,     account::tools};
  return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}
bool is_of_vehicle(const std::string& kind) {
  return in_inventory(kind) || is_cost_of_sales(kind) || kind == account::sales ||
         kind == account::selling_cost || kind == account::late_cost || kind == account::recovered_income ||
         kind == account::deposit_kept;
}

// What was put into cars that were left, before what was recovered of it, is given back: they are no row of these.
Money add_vehicles(figures::YearFigures& out, const book::Book& book, Day first, Day last) {
  Money left;
  std::map<std::string, figures::YearVehicle> vehicles;
  std::map<std::string, Money> sold_off;  // recovered and not closed by a sale or a write-off
  for (const book::AccountMovement& before : book::movements(book, dawn, first.plus(-1))) {
    if (!in_inventory(before.kind)) continue;
    vehicles[before.name].opening += before.sum;
    if (before.kind == account::recovered) sold_off[before.name] -= before.sum;
  }
  for (const auto& each : vehicles)
    out.carried_before += book::position_of(book, each.first, first.plus(-1)).carried;
  std::erase_if(vehicles, [](const auto& each) { return is_zero(each.second.opening); });
  for (const book::AccountMovement& moved : book::movements(book, first, last)) {
    if (moved.kind == account::looking) left += moved.sum + moved.set_off;
    if (!is_of_vehicle(moved.kind)) continue;
    figures::YearVehicle& vehicle = vehicles[moved.name];
    if (moved.kind == account::vehicle_cost) vehicle.added += moved.sum - moved.closing;
    if (moved.kind == account::recovered) {
      vehicle.recovered -= moved.sum - moved.closing;
      sold_off[moved.name] -= moved.sum;
    }
    if (is_cost_of_sales(moved.kind)) vehicle.cost_of_sales += moved.sum;
    if (moved.kind == account::sales) vehicle.sales -= moved.sum;
    if (moved.kind == account::selling_cost) vehicle.selling_costs += moved.sum;
    if (moved.kind == account::late_cost) vehicle.late_cost += moved.sum;
    if (moved.kind == account::recovered_income || moved.kind == account::deposit_kept)
      vehicle.other_income -= moved.sum;
  }
  // One that was worked on or bought for nothing has its row, though no money of it moved.
  for (const std::string& tag : book::all_tags(book)) {
    if (vehicles.contains(tag)) continue;
    const book::Life life = book::life_of(book, tag, last);
    const bool bought = life.bought != 0 && life.bought_day >= first;
    if (bought || book::own_hours(book, tag, first, last) > Hours{}) vehicles[tag];
  }
  for (auto& [tag, vehicle] : vehicles) {
    vehicle.tag = tag;
    // What the car carries, not what is left over: the sheet then shows that both agree.
    const book::Position position = book::position_of(book, tag, last);
    vehicle.closing = position.carried;
    const book::Life& life = position.life;
    vehicle.state = book::shown(life);
    vehicle.considered = life.state == book::State::considered;
    vehicle.description = described(book, tag).description;
    vehicle.still_brings = book::still_brings(book, tag, last);
    vehicle.parts_sold_off =
        life.state == book::State::owned && !vehicle.still_brings && sold_off[tag] > Money{};
    if (life.bought != 0) vehicle.bought_on = life.bought_said;
    if (life.ended != 0) vehicle.ended_on = life.ended_said;
    vehicle.ended_in_year = life.ended != 0 && life.ended_stands >= first;
    vehicle.own_hours = book::own_hours(book, tag, first, last);
    vehicle.hours_before = book::own_hours(book, tag, dawn, first.plus(-1));
    out.vehicles.push_back(vehicle);
  }
  return left;
}

void add_months(figures::YearFigures& out, const book::Book& book, Day last) {
  for (unsigned month = 1; month <= 12; ++month) {
    const Day first(out.year, month, 1);
    if (first > last) break;
    const Day end = month == 12 ? Day(out.year, 12, 31) : Day(out.year, month + 1, 1).plus(-1);
    figures::YearMonth row;
    row.first = first;
    for (const book::AccountMovement& moved : book::movements(book, first, std::min(end, last))) {
      if (moved.kind == account::sales) row.sales -= moved.sum;
      if (is_cost_of_sales(moved.kind)) row.cost_of_sales += moved.sum;
      if (moved.kind == account::selling_cost) row.selling_costs += moved.sum;
      if (moved.kind == account::recovered_income || moved.kind == account::deposit_kept)
        row.other_income -= moved.sum;
      if (moved.kind == account::late_cost) row.late_cost += moved.sum;
      if (moved.kind == account::overhead) row.overhead += moved.sum;
      if (moved.kind == account::tools && moved.name.empty()) row.tools += moved.sum;
      if (moved.kind == account::looking) row.looking += moved.sum;
    }
    out.months.push_back(row);
  }
}

void add_purses_and_stock(figures::YearFigures& out, const book::Book& book, Day first, Day last) {
  std::map<std::string, figures::YearPurse> purses;
  std::map<std::string, figures::YearStock> stock;
  std::vector<std::string> purse_order, stock_order;
  const auto purse_of = [&](const std::string& name) -> figures::YearPurse& {
    if (!purses.contains(name)) purse_order.push_back(name);
    purses[name].name = name;
    return purses[name];
  };
  const auto stock_of = [&](const std::string& name) -> figures::YearStock& {
    if (!stock.contains(name)) stock_order.push_back(name);
    stock[name].item = name;
    return stock[name];
  };
  for (const book::AccountMovement& before : book::movements(book, dawn, first.plus(-1))) {
    if (before.kind == account::purse) purse_of(before.name).opening = before.sum;
    if (before.kind == account::stock) {
      stock_of(before.name).opening = before.sum;
      stock_of(before.name).quantity = before.quantity;
    }
  }
  for (const book::AccountMovement& moved : book::movements(book, first, last)) {
    if (moved.kind == account::purse) {
      purse_of(moved.name).in = moved.in;
      purse_of(moved.name).out = moved.out;
    }
    if (moved.kind == account::stock) {
      stock_of(moved.name).added = moved.in;
      stock_of(moved.name).used = moved.out;
      stock_of(moved.name).quantity += moved.quantity;
    }
  }
  for (const std::string& name : purse_order) {
    figures::YearPurse& purse = purses[name];
    purse.kind = book::purse_kind(book, name);
    purse.closing = purse.opening + purse.in - purse.out;
    out.purses.push_back(purse);
  }
  for (const std::string& name : stock_order) {
    figures::YearStock& item = stock[name];
    item.closing = item.opening + item.added - item.used;
    out.stock.push_back(item);
  }
}

figures::YearOwed::Kind kind_of(book::Owed::Kind kind) {
  using Kind = figures::YearOwed::Kind;
  switch (kind) {
    case book::Owed::Kind::buyer_deposit:
      return Kind::buyer_deposit;
    case book::Owed::Kind::on_account:
      return Kind::on_account;
    case book::Owed::Kind::sales_tax:
      return Kind::sales_tax;
  }
  return Kind::on_account;
}

void add_owed(figures::YearFigures& out, const book::Book& book, Day last) {
  out.due = book::dues(book, last);
  for (const auto& purse : book::balances(book, account::purse, last))
    if (purse.amount > Money{} && book::purse_kind(book, purse.name) == "credit")
      out.credit_due += purse.amount;
  for (const book::Owed& each : book::owed(book, last))
    out.owed.push_back({kind_of(each.kind), each.name, each.amount});
  for (const auto& purse : book::balances(book, account::purse, last)) {
    if (!is_negative(purse.amount) || book::purse_kind(book, purse.name) != "liability") continue;
    out.owed.push_back({figures::YearOwed::Kind::card, purse.name, -purse.amount});
    out.card_owed -= purse.amount;
  }
}

// What an entry bought, by the lines of its paper that `wanted` takes, and the paper; the entry in words
// where it is no paper.
template <class Wanted>
figures::YearLine line_of(const book::Book& book, const book::PeriodLine& period, Wanted wanted) {
  figures::YearLine out{period.day, period.entry, "", "", period.about, period.amount, period.of_before};
  const book::Entry entry = book::load_entry(book, period.entry);
  const std::size_t of_lines = book::detail_table("line"), of_papers = book::detail_table("paper");
  for (const book::Detail& detail : entry.details) {
    if (detail.table == of_papers) {
      const std::string& supplier = book::text_in(detail, book::cells::paper::supplier);
      const std::string& number = book::text_in(detail, book::cells::paper::number);
      out.paper = supplier + (supplier.empty() || number.empty() ? "" : " ") + number;
    }
    if (detail.table != of_lines) continue;
    const book::Line line = book::line_by_number(book, book::number_in(detail, book::cells::line::number));
    if (wanted(line)) out.what += (out.what.empty() ? "" : ", ") + line.what;
  }
  if (out.what.empty()) out.what = period.what;
  return out;
}

std::vector<figures::YearLine> posted_lines(const book::Book& book, const char* kind, const std::string& name,
                                            Day first, Day last) {
  std::vector<figures::YearLine> all;
  for (const book::PeriodLine& period : book::posted_to(book, kind, first, last))
    if (period.about == name)
      all.push_back(line_of(book, period, [&](const book::Line& line) {
        return kind == account::tools ? line.kind == "tool" : line.kind == "overhead";
      }));
  return all;
}

// What stood there before the year, then what came and went: together what they stand at.
void add_tools_kept(figures::YearFigures& out, const book::Book& book, Day first, Day last) {
  for (const book::AccountMovement& before : book::movements(book, dawn, first.plus(-1)))
    if (before.kind == account::tools && before.name == account::tools_kept && !is_zero(before.sum))
      out.tools_kept.push_back({first, 0, "", "", "", before.sum});
  for (figures::YearLine& line : posted_lines(book, account::tools, account::tools_kept, first, last)) {
    line.about = "";
    out.tools_kept.push_back(line);
  }
}

std::vector<figures::YearLine> lines_without_paper(const book::Book& book, Day first, Day last) {
  std::vector<figures::YearLine> all;
  for (const book::PeriodLine& period : book::without_paper(book, first, last))
    all.push_back(line_of(book, period, [](const book::Line&) { return true; }));
  return all;
}

void add_trips(figures::YearFigures& out, const book::Book& book, Day first, Day last) {
  out.trips = book::trips(book, first, last);
  std::map<book::EntryId, std::pair<std::string, std::string>> places;
  for (const book::NamedFact& fact : book::named_facts(book, "", last))
    if (fact.event == "trip")
      (fact.fact == "from" ? places[fact.entry].first : places[fact.entry].second) = fact.value;
  for (figures::Trip& trip : out.trips)
    if (const auto found = places.find(trip.entry); found != places.end()) {
      const auto& [from, to] = found->second;
      trip.where = from + (from.empty() || to.empty() ? "" : " - ") + to;
    }
}

using Group = figures::YearAccount::Group;
Group group_of(const std::string& kind, const std::string& name) {
  if (kind == account::owner) return Group::owner;
  if (kind == account::payable || kind == account::buyer_deposit || kind == account::sales_tax)
    return Group::owed;
  return is_result(kind, name) ? Group::result : Group::there;
}

// The account of a core is called by the number of its line, which says nothing to whoever reads the sheet.
std::string account_in_words(const book::Book& book, const book::AccountMovement& moved) {
  if (moved.kind != account::core_deposit) return moved.name;
  const auto line = book::find_line(book, moved.name);
  return line ? line->what + ", line " + moved.name : "line " + moved.name;
}

// A card below zero is owed, as the list of what is owed has it.
void add_trial(figures::YearFigures& out, const book::Book& book, Day last) {
  for (const book::AccountMovement& moved : book::movements(book, dawn, last)) {
    if (is_zero(moved.sum)) continue;
    const bool card = moved.kind == account::purse && is_negative(moved.sum) &&
                      book::purse_kind(book, moved.name) == "liability";
    out.trial.push_back({account_in_words(book, moved), moved.kind, moved.sum,
                         card ? Group::owed : group_of(moved.kind, moved.name)});
  }
}

using figures::BoughtFor;

// What it was for; of another cost the kind of entry tells.
BoughtFor what_for(const book::PutIn& put, const std::string& entry_kind) {
  static const std::map<std::string, BoughtFor> known = {
      {"purchase", BoughtFor::cars}, {"fee", BoughtFor::fees},
      {"part", BoughtFor::parts},    {"consumable", BoughtFor::consumables},
      {"sublet", BoughtFor::sublet}, {"paid hours", BoughtFor::paid_help}};
  if (const auto found = known.find(put.kind); found != known.end()) return found->second;
  if (entry_kind == "transfer") return BoughtFor::moved_between_cars;
  if (entry_kind == "shelve") return BoughtFor::moved_to_shelf;
  return BoughtFor::other;
}

// What was put into cars, by what it was for. What entries of an older book posted without saying is shown
// apart, so that the whole is what the accounts say.
void add_bought(figures::YearFigures& out, const book::Book& book,
                const std::map<book::EntryId, std::string>& kinds, Day first, Day last) {
  Money not_said;
  for (const book::PeriodLine& line : book::posted_to(book, account::vehicle_cost, first, last)) {
    const std::string& kind = kinds.at(line.entry);
    // They close a car's cost and put nothing in.
    if (kind != "sell" && kind != "write off") not_said += line.amount;
  }
  const auto row = [&](BoughtFor what, const std::string& source) -> figures::YearBought& {
    for (figures::YearBought& each : out.bought)
      if (each.what == what && each.source == source) return each;
    out.bought.push_back({what, source, 0, {}});
    return out.bought.back();
  };
  row(BoughtFor::cars, ""), row(BoughtFor::fees, "");
  for (const char* const source : {"new", "salvage", "reman"}) row(BoughtFor::parts, source);
  for (const book::PutIn& put : book::put_into_cars(book, first, last)) {
    const BoughtFor what = what_for(put, kinds.at(put.entry));
    figures::YearBought& sum = row(what, what == BoughtFor::parts ? put.source : "");
    ++sum.entries;
    sum.amount += put.amount;
    not_said -= put.amount;
  }
  std::erase_if(out.bought, [](const figures::YearBought& each) { return each.entries == 0; });
  if (!is_zero(not_said)) out.bought.push_back({BoughtFor::not_said, "", 0, not_said});
}

// The journal of the year, and what its entries put into cars: a reversal counts under the kind that it takes
// back.
void add_entries(figures::YearFigures& out, const book::Book& book, Day first, Day last, Money left) {
  std::map<book::EntryId, std::string> kinds;
  for (const book::JournalRow& row : book::journal(book, "")) {
    kinds[row.entry] = row.voids && kinds.contains(*row.voids) ? kinds[*row.voids] : row.kind;
    if (row.day < first || row.day > last) continue;
    out.entries.push_back({row.entry, row.day, row.kind, row.what, row.amount, row.voids.value_or(0),
                           row.voided_by.value_or(0)});
  }
  std::stable_sort(out.entries.begin(), out.entries.end(),
                   [](const auto& a, const auto& b) { return a.day < b.day; });
  add_bought(out, book, kinds, first, last);
  // What was spent on a car after its sale, or on one that was left, is no cost of a car that is there.
  Money late;
  for (const figures::YearMonth& month : out.months) late += month.late_cost;
  if (!is_zero(late)) out.bought.push_back({BoughtFor::after_sale, "", 0, -late});
  if (!is_zero(left)) out.bought.push_back({BoughtFor::looking, "", 0, -left});
}

// Who was paid for hours, where it was said; the others under no name. What takes back hours of a year before lowers
// what the same helper got in this one.
void add_helpers(figures::YearFigures& out, const book::Book& book, Day first, Day last) {
  const auto people = book::people_named(book);
  std::map<book::EntryId, book::EntryId> takes_back;
  for (const figures::YearEntry& entry : out.entries)
    if (entry.voids != 0) takes_back[entry.entry] = entry.voids;
  std::map<std::string, figures::YearHelper> helpers;
  for (const book::PutIn& put : book::put_into_cars(book, first, last)) {
    if (put.kind != "paid hours") continue;
    const auto back = takes_back.find(put.entry);
    const auto named = people.find(back == takes_back.end() ? put.entry : back->second);
    const std::string name = named == people.end() ? "" : named->second.front();
    figures::YearHelper& helper = helpers[name];
    helper.name = name;
    if (!is_negative(put.amount)) ++helper.entries;
    helper.amount += put.amount;
  }
  for (const auto& each : helpers)
    if (!is_zero(each.second.amount)) out.helpers.push_back(each.second);
}

// What the papers of a sale name.
void add_sales(figures::YearFigures& out, const book::Book& book, Day last) {
  out.sales = book::sales(book, Day(out.year - 1, 1, 1), last);
  for (figures::Sale& sale : out.sales) {
    const appraisal::Vehicle vehicle = described(book, sale.tag);
    sale.description = vehicle.description;
    sale.vin = vehicle.vin;
    for (const book::NamedFact& fact : book::named_facts(book, sale.tag, last)) {
      if (fact.event != "sell") continue;
      if (fact.fact == "buyer") sale.buyer = fact.value;
      if (fact.fact == "odometer") sale.odometer = fact.value;
    }
  }
}

// What the owner had in the shop: all that was there less all that was owed, before the year.
void add_capital(figures::YearFigures& out, const book::Book& book, Day first, Day last) {
  for (const book::AccountMovement& before : book::movements(book, dawn, first.plus(-1))) {
    const Group group = group_of(before.kind, before.name);
    if (group == Group::there || group == Group::owed) out.opening_capital += before.sum;
  }
  const book::OwnerMoved owner = book::owner_moved(book, first, last);
  out.put_in = owner.put_in, out.taken_out = owner.taken_out, out.owner_on_papers = owner.on_papers;
  for (const book::AccountMovement& moved : book::movements(book, first, last)) {
    if (moved.kind == account::sales_tax) out.tax_collected += moved.out, out.tax_passed_on += moved.in;
  }
}

}  // namespace

int year_named(const std::string& text, Day today) {
  const auto year = typed_year(text);
  if (!year) throw Refusal("found \"" + text + "\", expected a year, such as 2026");
  if (*year > today.year())
    throw Refusal(
        fmt::format("found {}, which has not come yet, expected {} at the latest", *year, today.year()));
  return *year;
}

figures::YearFigures year_figures(const book::Book& book, int year, Day today) {
  const Day first(year, 1, 1);
  const Day last = std::min(Day(year, 12, 31), std::max(today, first));
  figures::YearFigures out;
  out.year = year;
  out.currency = book.currency();
  out.made_on = today;
  out.distance_unit = book.distance_unit();
  const Money left = add_vehicles(out, book, first, last);
  add_months(out, book, last);
  add_purses_and_stock(out, book, first, last);
  add_trips(out, book, first, last);
  out.tools = posted_lines(book, account::tools, "", first, last);
  add_tools_kept(out, book, first, last);
  out.overhead = posted_lines(book, account::overhead, "", first, last);
  out.without_paper = lines_without_paper(book, first, last);
  for (const book::PeriodLine& sold : book::parts_sold(book, first, last))
    out.parts_sold.push_back({sold.day, sold.entry, "", sold.what, sold.about, sold.amount});
  add_owed(out, book, last);
  add_sales(out, book, last);
  out.tax_paid = book::tax_in_costs(book, first, last);
  out.sales_returned = book::sales_returned(book, first, last);
  if (const auto limit = book.setting("dealer-limit")) out.sales_limit = std::stoll(*limit);
  add_trial(out, book, last);
  for (const book::AccountMovement& moved : book::movements(book, first, last))
    if (is_result(moved.kind, moved.name)) out.result -= moved.sum;
  add_entries(out, book, first, last, left);
  add_helpers(out, book, first, last);
  add_capital(out, book, first, last);
  return out;
}

}  // namespace nonrunner::answers
