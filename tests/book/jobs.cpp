// Two whole jobs from sample-jobs/, posted into an empty book: every figure on each of the days asked, and at
// the end.
//
// The figures of "sprat" are given with the job; those of "drayman" are added up by hand beside each.
#include <map>

#include "book/care/check.h"
#include "book/fixture.h"
#include "book/ledger/position.h"
#include "book/questions/board.h"
#include "book/questions/figures.h"
#include "book/questions/vehicle_money.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

const Day asked_on(2026, 11, 25);

class Job : public Shop {
 public:
  explicit Job(const std::string& name) {
    today = asked_on;
    now = "2026-11-25T12:00:00Z";
    post_sample(name);
  }
  static std::string text(Money money) { return money.plain(Currency()); }
  std::map<std::string, std::string> purses(std::optional<Day> on = {}) {
    std::map<std::string, std::string> all;
    for (const NamedBalance& purse : balances(book(), account::purse, on))
      all[purse.name] = text(purse.amount);
    return all;
  }
  std::map<std::string, std::string> stock(std::optional<Day> on = {}) {
    std::map<std::string, std::string> all;
    for (const NamedBalance& item : balances(book(), account::stock, on))
      all[item.name] = item.quantity.shown() + " at " + text(item.amount);
    return all;
  }
  std::map<std::string, std::string> hours(const std::string& tag, std::optional<Day> on = {}) {
    std::map<std::string, std::string> all;
    for (const OperationHours& each : show(tag, on).hours) all[each.operation] = each.own.shown();
    return all;
  }
  std::string other(const char* kind) {
    Money sum;
    for (const NamedBalance& each : balances(book(), kind)) sum += each.amount;
    return text(sum);
  }
};

using Map = std::map<std::string, std::string>;
std::string text_or_none(const Job& job, const std::optional<Money>& money) {
  return money ? job.text(*money) : "none";
}

}  // namespace

TEST_CASE("the job sprat on the day of the discovery", "[book][jobs]") {
  Job job("sprat");
  const Day on(2025, 3, 9);
  const VehicleFigures sprat = job.show("sprat", on);
  CHECK(job.text(sprat.cost) == "1415.87");
  CHECK(job.text(sprat.carried) == "1415.87");
  CHECK(text_or_none(job, sprat.break_even_price) == "1415.87");
  CHECK(sprat.own_hours.shown() == "9.3");
  CHECK(sprat.distance.shown() == "80");
  CHECK(job.hours("sprat", on) == Map{{"tests before buying", "1.3"},
                                      {"opening up", "1.6"},
                                      {"pulling parts at the yard", "2.5"},
                                      {"strip the belt side, change the pump", "3.9"}});
  REQUIRE(sprat.due.size() == 2);
  CHECK(sprat.due[0].line == "R03.1");
  CHECK(job.text(sprat.due[0].amount) == "18.00");
  CHECK(sprat.due[1].line == "R05.2");
  CHECK(job.text(sprat.due[1].amount) == "8.00");
  CHECK_FALSE(sprat.cash_profit);
  CHECK_FALSE(sprat.margin);
  CHECK_FALSE(sprat.final);
  CHECK(job.text(job.show("teal", on).cost) == "39.94");
  CHECK(job.stock(on) == Map{{"gas test", "3 at 28.67"},
                             {"gloves", "96 at 16.35"},
                             {"coolant", "4 at 64.30"},
                             {"brake cleaner", "12 at 37.97"},
                             {"distilled water", "6 at 7.90"}});
  CHECK(job.purses(on) == Map{{"cash", "1220.14"}, {"bank", "938.00"}, {"card", "-295.14"}});
}

TEST_CASE("the job sprat on the day of the sale", "[book][jobs]") {
  Job job("sprat");
  const Day on(2025, 4, 15);
  const VehicleFigures sprat = job.show("sprat", on);
  CHECK(job.text(sprat.cost) == "2368.75");
  CHECK(job.text(sprat.recovered_before) == "25.00");
  CHECK(job.text(sprat.recovered_after) == "0.00");
  CHECK(job.text(sprat.sales) == "3250.00");
  CHECK(job.text(sprat.selling_costs) == "26.50");
  CHECK(job.text(sprat.late_cost) == "0.00");
  CHECK(job.text(sprat.carried) == "0.00");
  CHECK(text_or_none(job, sprat.cash_profit) == "879.75");
  CHECK(text_or_none(job, sprat.profit) == "135.75");
  CHECK(text_or_none(job, sprat.per_own_hour) == "23.65");
  CHECK_THAT(*sprat.margin, Catch::WithinAbs(0.2707, 5e-5));
  CHECK_THAT(*sprat.margin_after_own_hours, Catch::WithinAbs(0.0418, 5e-5));
  CHECK(text_or_none(job, sprat.break_even_price) == "2370.25");
  CHECK(sprat.own_hours.shown() == "37.2");
  CHECK(sprat.paid_hours.shown() == "3.5");
  CHECK(sprat.distance.shown() == "126");
  CHECK(sprat.days == 42);
  CHECK(text_or_none(job, sprat.advertised_first) == "3490.00");
  CHECK(text_or_none(job, sprat.advertised_last) == "3390.00");
  CHECK(job.purses(on) ==
        Map{{"cash", "1010.87"}, {"bank", "3988.00"}, {"card", "-778.75"}, {"yard-credit", "0.00"}});
}

TEST_CASE("the job sprat to its end", "[book][jobs]") {
  Job job("sprat");
  const VehicleFigures sprat = job.show("sprat");
  CHECK(job.text(sprat.late_cost) == "19.81");
  CHECK(job.text(sprat.recovered_after) == "22.00");
  CHECK(text_or_none(job, sprat.cash_profit) == "881.94");
  CHECK(text_or_none(job, sprat.first_cash_profit) == "879.75");
  CHECK(text_or_none(job, sprat.profit) == "121.94");
  CHECK(text_or_none(job, sprat.per_own_hour) == "23.21");
  CHECK_THAT(*sprat.margin, Catch::WithinAbs(0.2714, 5e-5));
  CHECK(text_or_none(job, sprat.break_even_price) == "2368.06");
  CHECK(sprat.final);
  CHECK(job.hours("sprat") == Map{{"tests before buying", "1.3"},
                                  {"opening up", "1.6"},
                                  {"pulling parts at the yard", "4.8"},
                                  {"strip the belt side, change the pump", "6.5"},
                                  {"dashboard out", "4"},
                                  {"matrix in, dashboard back", "4.6"},
                                  {"change the radiator", "1.4"},
                                  {"flush, fill, bleed, road test", "2.2"},
                                  {"front brakes", "2.1"},
                                  {"bumper cover, seat, wheels", "3.5"},
                                  {"headlamps and cleaning", "4"},
                                  {"inspection and retest", "1.2"},
                                  {"after the sale", "0.8"}});
  CHECK(job.stock() == Map{{"gas test", "3 at 28.67"},
                           {"gloves", "74 at 12.60"},
                           {"coolant", "1.75 at 28.13"},
                           {"brake cleaner", "7 at 22.15"},
                           {"distilled water", "1 at 1.32"}});
  CHECK(job.purses() ==
        Map{{"cash", "1032.87"}, {"bank", "3988.00"}, {"card", "-798.56"}, {"yard-credit", "0.00"}});
  CHECK(job.other(account::owner) == "-3496.60");  // 3,500.00 put in, 3.40 private
  CHECK(job.other(account::tools) == "23.42");
  CHECK(job.text(position_of(job.book(), "sprat").cost_of_sale) == "2343.75");
  CHECK(dues(job.book()).empty());
  const Health health = check(job.book());
  CHECK(health.findings.empty());
  CHECK(job.text(health.trial_balance) == "0.00");
}

TEST_CASE("each line of the job sprat carries its tax, shipping and discount", "[book][jobs]") {
  Job job("sprat");
  struct Expected {
    const char *id, *amount, *tax, *cost;
  };
  const auto [id, amount, tax, cost] = GENERATE(values<Expected>({
      {"R01.1", "35.90", "2.33", "38.23"},   {"R01.2", "15.99", "1.04", "17.03"},
      {"R02.1", "95.00", "0.00", "95.00"},   {"R03.1", "46.00", "2.99", "48.99"},
      {"R03.2", "17.25", "1.12", "18.37"},   {"R03.3", "24.80", "1.61", "26.41"},
      {"R03.4", "5.40", "0.35", "5.75"},     {"R04.1", "63.00", "3.93", "64.30"},
      {"R04.2", "37.20", "2.32", "37.97"},   {"R04.3", "7.74", "0.48", "7.90"},
      {"R04.4", "11.95", "0.74", "12.19"},   {"R05.1", "2.25", "0.00", "2.25"},
      {"R05.2", "48.00", "3.12", "51.12"},   {"R05.3", "32.00", "2.08", "34.08"},
      {"R05.4", "12.00", "0.78", "12.78"},   {"R05.5", "25.00", "1.63", "26.63"},
      {"R06.1", "25.98", "1.69", "27.67"},   {"R06.2", "88.00", "5.72", "93.72"},
      {"R06.3", "22.80", "1.48", "24.28"},   {"R06.4", "21.99", "1.43", "23.42"},
      {"R07.1", "104.50", "6.79", "111.29"}, {"R07.2", "3.40", "0.22", "3.62"},
      {"R08.1", "65.00", "0.00", "65.00"},   {"R08.2", "8.00", "0.52", "8.52"},
      {"R09.1", "76.00", "4.94", "80.94"},   {"R09.2", "18.00", "0.00", "18.00"},
      {"R09.3", "6.00", "0.00", "6.00"},     {"R10.1", "150.00", "9.75", "159.75"},
      {"R10.2", "45.00", "0.00", "45.00"},   {"R11.1", "2.25", "0.00", "2.25"},
      {"R11.2", "45.00", "2.93", "47.93"},   {"R11.3", "40.00", "2.60", "42.60"},
      {"R12.1", "34.50", "2.24", "36.74"},   {"R12.2", "59.50", "3.86", "63.36"},
      {"R12.3", "7.49", "0.49", "7.98"},     {"R12.4", "3.19", "0.21", "3.40"},
      {"R13.1", "16.99", "1.10", "20.67"},   {"R13.2", "6.49", "0.42", "7.89"},
      {"R13.3", "29.00", "1.89", "35.28"},   {"R14.1", "38.00", "0.00", "38.00"},
      {"R15.1", "4.29", "0.28", "4.57"},     {"R15.2", "6.10", "0.40", "6.50"},
      {"R16.1", "18.60", "1.21", "19.81"},
  }));
  const auto line = find_line(job.book(), id);
  REQUIRE(line);
  CHECK(job.text(line->amount) == amount);
  CHECK(job.text(line->tax) == tax);
  CHECK(job.text(line->cost()) == cost);
}

TEST_CASE("the job drayman balances, and its figures are those added up by hand", "[book][jobs]") {
  Job job("drayman");
  // Discovery: price 2750 + fees 300 + 75, tow 140, key 171.21, pump paper 211.30.
  const VehicleFigures discovery = job.show("drayman", Day(2025, 9, 14));
  CHECK(job.text(discovery.cost) == "3647.51");
  CHECK(discovery.own_hours.shown() == "7.9");  // 2.4 + 5.5
  // Year's end: - 162.12 for the pump given back (168.00 + 10.92 - 16.80), hoist 45, storage 3 x 40,
  // parcel 18.60.
  const Day year_end(2025, 12, 31);
  const VehicleFigures at_year_end = job.show("drayman", year_end);
  CHECK(job.text(at_year_end.cost) == "3668.99");
  // 950 + 560 + 320 + 240 - 60 + 300 + 165 + 240 + 150 + 185 + 110 + 125
  CHECK(job.text(at_year_end.recovered_before) == "3285.00");
  CHECK(job.text(at_year_end.carried) == "383.99");
  CHECK(text_or_none(job, at_year_end.still_brings) == "360.00");  // said on that day
  CHECK_FALSE(at_year_end.cash_profit);
  // bank 4000 - 2750 - 300 - 75 + 950 + 300 + 165 - 40 - 40 - 40; cash 800 - 140 - 171.21 + 560 + 320 + 240 -
  // 60 - 18.60 + 240
  // + 150 + 185 + 110 + 125; card - 211.30 + 162.12 - 45
  CHECK(job.purses(year_end) == Map{{"bank", "2170.00"}, {"cash", "2340.19"}, {"card", "-94.18"}});
  // The end: 115 + 262 more recovered, 6.99 of the cost never is; adverts 24; hours 36.4 + 4.5 at 20.
  const VehicleFigures end = job.show("drayman");
  CHECK(job.text(end.recovered_before) == "3662.00");
  CHECK(job.text(end.carried) == "0.00");
  CHECK(job.text(position_of(job.book(), "drayman").cost_of_sale) == "6.99");
  CHECK(text_or_none(job, end.cash_profit) == "-30.99");
  CHECK(text_or_none(job, end.profit) == "-848.99");
  CHECK_FALSE(end.margin);  // no sale price: blank, not zero
  CHECK(end.days == 133);
  CHECK(end.final);
  CHECK(check(job.book()).findings.empty());
}

TEST_CASE("the lines of money add up to the cash profit, and the board says the same", "[book][jobs]") {
  const auto [name, expected] =
      GENERATE(table<std::string, std::string>({{"sprat", "881.94"}, {"drayman", "-30.99"}}));
  Job job(name);
  Money sum;
  for (const MoneyLine& line : money_of(job.book(), name))
    if (line.kind != MoneyKind::due_back) sum += line.amount;
  CHECK(job.text(sum) == expected);
  for (const BoardRow& row : board(job.book(), asked_on))
    if (row.tag == name) CHECK(text_or_none(job, row.cash_profit) == expected);
}
