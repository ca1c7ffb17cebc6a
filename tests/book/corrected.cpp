// What puts right an entry of a closed period counts from the first open day, and stands where that stood: a cost of
// before the sale stays one. What a closed year showed stays; the difference is the new year's.
#include <fmt/format.h>

#include "book/care/export.h"
#include "book/care/restore.h"
#include "book/events/appraisals.h"
#include "book/events/buyer_deposit.h"
#include "book/events/correct.h"
#include "book/events/hours.h"
#include "book/events/owner.h"
#include "book/events/receipt.h"
#include "book/events/typed.h"
#include "book/events/void_entry.h"
#include "book/events/write_off.h"
#include "book/ledger/position.h"
#include "book/questions/alike.h"
#include "book/questions/vehicle_money.h"
#include "book/walk.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

// Pip is sold on the first of March, its year is closed; entries 2 to 5 are a part, own hours, wheels sold, an advert.
void sold_and_closed(Shop& shop) {
  shop.today = Day(2026, 1, 10);
  shop.now = "2026-01-10T12:00:00Z";
  shop.post(R"(
    { do = "buy", date = 2025-01-05, vehicle = "pip", price = 1000.00, purse = "cash" },
    { do = "receipt", date = 2025-02-02, supplier = "Harrow", number = "7", paid = "cash", total = 100.00, line = [
        { id = "pump", what = "pump", amount = 100.00, kind = "part", to = "pip" }] },
    { do = "hours", date = 2025-02-03, vehicle = "pip", operation = "pump", own = 5 },
    { do = "recover", date = 2025-02-04, vehicle = "pip", what = "wheels", amount = 50.00, purse = "cash" },
    { do = "selling cost", date = 2025-02-20, vehicle = "pip", what = "advert", amount = 10.00, purse = "cash" },
    { do = "sell", date = 2025-03-01, vehicle = "pip", price = 2000.00, purse = "cash" },
    { do = "close", date = 2025-12-31 })");
}

EntryId put_right(Shop& shop, EntryId entry, const std::function<void(Correction&)>& change) {
  Correction correction;
  correction.entry = entry;
  change(correction);
  EntryId made = 0;
  shop.record([&](Recording& recording) { made = correct(recording, correction).entry; });
  return made;
}
EntryId put_right(Shop& shop, EntryId entry, const std::string& amount) {
  return put_right(shop, entry, [&](Correction& correction) { correction.amount = amount; });
}

std::string refused(Shop& shop, EntryId entry, const std::function<void(Correction&)>& change) {
  Correction correction;
  correction.entry = entry;
  change(correction);
  return shop.refusal_of([&](Recording& recording) { correct(recording, correction); });
}

// "part -100.00; part -20.00 after" of one kind.
std::string lines_of(Shop& shop, MoneyKind kind) {
  std::string text;
  for (const MoneyLine& line : money_of(shop.book(), "pip"))
    if (line.kind == kind)
      text += (text.empty() ? "" : "; ") + line.amount.plain(shop.book().currency()) +
              (line.after_sale ? " after" : "");
  return text;
}
std::string hours_of(Shop& shop) {
  std::string text;
  for (const auto& work : work_of(shop.book(), "pip"))
    text += (text.empty() ? "" : "; ") + work.own.shown() + (work.after_sale ? " after" : "");
  return text;
}

}  // namespace

TEST_CASE("a part of before the sale, put right in the next year, stays a cost of before the sale",
          "[book][days]") {
  Shop shop;
  sold_and_closed(shop);
  put_right(shop, 2, "120");
  const VehicleFigures now = shop.show("pip");
  CHECK(now.cost == usd("1100"));
  CHECK(now.late_cost == usd("20"));  // the difference alone is the new year's
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -20.00 after");
  CHECK(shop.show("pip", on("2025-12-31")).cost == usd("1100"));
  CHECK(shop.show("pip", on("2025-12-31")).late_cost == usd("0"));
  CHECK(shop.purse("cash", on("2025-12-31")) == usd("940"));
  CHECK(shop.purse("cash") == usd("920"));
  CHECK(shop.health().findings.empty());
}

TEST_CASE("what turns out less, put right in the next year, leaves less as a cost of before the sale",
          "[book][days]") {
  Shop shop;
  sold_and_closed(shop);
  const EntryId less = put_right(shop, 2, "80");
  CHECK(lines_of(shop, MoneyKind::part) == "-80.00");
  CHECK(shop.show("pip").late_cost == usd("0"));
  // Put right once more: as far as the first of them went, not only the second.
  const EntryId more = put_right(shop, less, "110");
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -10.00 after");
  shop.today = Day(2026, 2, 10);
  shop.post("{ do = \"close\", date = 2026-01-31 }");
  put_right(shop, more, "115");
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -10.00 after; -5.00 after");
  CHECK(shop.show("pip", on("2026-01-31")).late_cost == usd("10"));
  CHECK(shop.show("pip").late_cost == usd("15"));
  CHECK(shop.health().findings.empty());
}

TEST_CASE("a purchase or a sale of a closed year that is put right happened when it did", "[book]") {
  Shop shop;
  sold_and_closed(shop);
  const auto told = [&] {
    const VehicleFigures pip = figures_of(shop.book(), "pip", shop.today);
    return fmt::format("{} to {}, {} days, cash profit {}", pip.life.bought_said.iso(),
                       pip.life.ended_said.iso(), *pip.days, pip.cash_profit->plain(shop.book().currency()));
  };
  // 2,000 less 1,000, 100 and 10, and 50 for the wheels; 26 days of January, 28 of February and one.
  CHECK(told() == "2025-01-05 to 2025-03-01, 55 days, cash profit 940.00");
  put_right(shop, 1, "970");
  CHECK(told() == "2025-01-05 to 2025-03-01, 55 days, cash profit 970.00");
  put_right(shop, 6, "2100");
  CHECK(told() == "2025-01-05 to 2025-03-01, 55 days, cash profit 1070.00");
  CHECK(refused(shop, 9, [](Correction& correction) { correction.day = Day(2025, 3, 10); }) ==
        "correct: with entry 9 so, pip was sold on 2025-03-01, before its purchase on 2025-03-10");
}

TEST_CASE("a purchase of a closed year that is put right keeps the appraisal by which it was decided",
          "[book]") {
  Shop shop;
  sold_and_closed(shop);
  shop.record([](Recording& recording) {
    keep_appraisal(recording, "pip", Day(2025, 1, 5), 1, {"with the purchase", {}, ""});
    keep_appraisal(recording, "pip", Day(2025, 2, 1), 0, {"later", {}, ""});
  });
  CHECK(appraisal_in_force(shop.book(), "pip", {})->job == "with the purchase");
  put_right(shop, 1, "970");
  REQUIRE(appraisal_in_force(shop.book(), "pip", {}).has_value());
  CHECK(appraisal_in_force(shop.book(), "pip", {})->job == "with the purchase");
}

TEST_CASE("a purchase is not put right onto a car that was bought and sold", "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-01-05, vehicle = "pip", price = 1000.00, purse = "cash" },
               { do = "sell", date = 2025-03-01, vehicle = "pip", price = 2000.00, purse = "cash" },
               { do = "buy", date = 2025-04-05, vehicle = "teal", price = 640.00, purse = "cash" })");
  CHECK(refused(shop, 3, [](Correction& correction) { correction.vehicle = "pip"; }) ==
        "buy: pip was bought on 2025-01-05 (entry 1), and a vehicle is bought once; choose another tag");
}

TEST_CASE(
    "in a closed period what is entered again is asked about as in an open one, and hours stay of their day",
    "[book]") {
  Shop shop;
  sold_and_closed(shop);
  Labour labour;
  labour.day = Day(2025, 2, 6);
  labour.vehicle = "pip";
  labour.operation = "paint";
  labour.own = Hours::of(8000);
  shop.record([&](Recording& recording) { record(recording, labour); });
  CHECK(hours_like(shop.book(), labour).has_value());
  CHECK(own_hours_on(shop.book(), Day(2025, 2, 6)) == Hours::of(8000));
  CHECK(own_hours_on(shop.book(), Day(2026, 1, 1)) == Hours{});  // from which day on they count
  // Entered before the close it is still of that day.
  CHECK(own_hours_on(shop.book(), Day(2025, 2, 3)) == Hours::of(5000));
  shop.post(R"({ do = "receipt", date = 2025-12-09, itemised = false, paid = "cash", total = 12.00, line = [
                   { what = "glue", amount = 12.00, kind = "part", to = "pip" }] })");
  Receipt again;
  again.day = Day(2025, 12, 9);
  again.total = usd("12");
  again.paid = {{"cash", usd("12")}};
  CHECK(receipt_like(shop.book(), again).has_value());
}

TEST_CASE("one seat that was sold does not make a whole car a loss", "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-01-05, vehicle = "pip", price = 700.00, purse = "cash" },
               { do = "recover", date = 2025-02-02, vehicle = "pip", what = "seat", amount = 20.00, purse = "cash" })");
  const auto write_off = [&] {
    return shop.refusal_of([](Recording& recording) {
      recording.wary = true;
      record(recording, WriteOff{Day(2025, 3, 1), "pip"});
    });
  };
  CHECK(
      write_off() ==
      "write off: pip was bought on 2025-01-05 and nothing says that it went to pieces, expected a car in "
      "pieces; say first that it goes to pieces, and what its parts still bring (0, where that is nothing)");
  // With half of its cost recovered it plainly went: 350 of 700.
  shop.post(
      R"({ do = "recover", date = 2025-02-03, vehicle = "pip", what = "engine", amount = 330.00, purse = "cash" })");
  CHECK(write_off() == "accepted");
}

TEST_CASE("what was paid for is not put right to nothing or less", "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-01-05, vehicle = "pip", price = 1000.00, purse = "cash" },
               { do = "receipt", date = 2025-02-02, itemised = false, paid = "cash", total = 76.00, line = [
                   { what = "starter", amount = 64.00, core = 12.00, kind = "part", to = "pip" }] })");
  for (const char* amount : {"-3.00", "0.00"})
    CHECK(refused(shop, 2, [&](Correction& correction) { correction.amount = amount; }) ==
          std::string("correct: found an amount of ") + amount +
              ", expected one above 0; money that comes back is entered where it is due, or on its paper");
}

TEST_CASE("hours, money recovered and a cost of selling of a closed year stay before the sale when put right",
          "[book][days]") {
  Shop shop;
  sold_and_closed(shop);
  put_right(shop, 3, "6");
  put_right(shop, 4, "60");
  put_right(shop, 5, "12");
  CHECK(hours_of(shop) == "5; 1 after");
  CHECK(lines_of(shop, MoneyKind::recovered) == "50.00; 10.00 after");
  CHECK(lines_of(shop, MoneyKind::selling_cost) == "-10.00; -2.00 after");
  CHECK(shop.show("pip").recovered_before == usd("50"));
  CHECK(shop.show("pip").recovered_after == usd("10"));
  CHECK(shop.health().findings.empty());
}

TEST_CASE("hours put right after a second closing stand in the parts in which they came, as money does",
          "[book][days]") {
  Shop shop;
  shop.today = Day(2026, 2, 10);
  shop.now = "2026-02-10T12:00:00Z";
  shop.post(R"(
    { do = "buy", date = 2025-01-05, vehicle = "pip", price = 1000.00, purse = "cash" },
    { do = "hours", date = 2025-02-03, vehicle = "pip", operation = "pump", own = 5 },
    { do = "close", date = 2025-12-31 })");
  const EntryId more = put_right(shop, 2, "6");
  shop.post(R"({ do = "sell", date = 2026-01-20, vehicle = "pip", price = 2000.00, purse = "cash" },
               { do = "close", date = 2026-01-31 })");
  const EntryId most = put_right(shop, more, "7.5");
  CHECK(hours_of(shop) == "5; 1; 1.5 after");
  CHECK(shop.show("pip").own_hours == Hours::of(7'500));
  put_right(shop, most, "5.5");
  CHECK(hours_of(shop) == "5; 0.5");
  CHECK(shop.health().findings.empty());
}

TEST_CASE("what is put right to another day stands under that day", "[book][days]") {
  Shop shop;
  sold_and_closed(shop);
  const EntryId after = put_right(shop, 2, [](Correction& c) { c.day = Day(2025, 3, 20); });
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00 after");
  put_right(shop, after, [](Correction& c) { c.day = Day(2025, 2, 2); });
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00");
  put_right(shop, 3, [](Correction& c) { c.day = Day(2026, 1, 2); });  // an open one
  CHECK(hours_of(shop) == "5 after");
  CHECK(shop.health().findings.empty());
}

TEST_CASE("what is put right more than once, to other days, goes along with what the first of them brought",
          "[book][days]") {
  Shop shop;
  sold_and_closed(shop);
  const auto to = [](const char* day) { return [=](Correction& c) { c.day = on(day); }; };
  const EntryId after = put_right(shop, 2, to("2025-03-20"));
  const EntryId more = put_right(shop, after, "120");
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00 after; -20.00 after");
  const EntryId before = put_right(shop, more, to("2025-02-10"));
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -20.00 after");
  // To an open day and back: what was more meanwhile is not of before the sale.
  const EntryId open = put_right(shop, before, to("2026-01-05"));
  CHECK(lines_of(shop, MoneyKind::part) == "-120.00 after");
  const EntryId dearer = put_right(shop, open, "130");
  put_right(shop, dearer, to("2025-02-02"));
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -30.00 after");
  CHECK(shop.show("pip").cost == usd("1100"));
  CHECK(shop.show("pip", on("2025-12-31")).cost == usd("1100"));
  CHECK(shop.health().findings.empty());
}

TEST_CASE("what was typed for an open day and is put right into a closed year stands there, once or twice",
          "[book][days]") {
  Shop shop;
  sold_and_closed(shop);
  shop.post(
      R"({ do = "receipt", date = 2026-01-05, supplier = "Harrow", number = "8", paid = "cash", total = 40.00, line = [
        { what = "lamp", amount = 40.00, kind = "part", to = "pip" }] })");
  const auto to = [](const char* day) { return [=](Correction& c) { c.day = on(day); }; };
  const EntryId once = put_right(shop, last_entry(shop.book()), to("2025-02-10"));
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -40.00");
  const EntryId twice = put_right(shop, once, to("2025-02-12"));
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -40.00");
  const EntryId after = put_right(shop, twice, to("2025-03-20"));
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -40.00 after");
  put_right(shop, put_right(shop, after, to("2025-02-12")), "50");
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -40.00; -10.00 after");
  CHECK(shop.health().findings.empty());
}

TEST_CASE("what was put right in between and never was leaves nothing under the day that it had",
          "[book][days]") {
  Shop shop;
  shop.today = Day(2026, 1, 10);
  shop.now = "2026-01-10T12:00:00Z";
  shop.post(R"(
    { do = "buy", date = 2025-01-05, vehicle = "pip", price = 1000.00, purse = "cash" },
    { do = "receipt", date = 2025-02-02, supplier = "Harrow", number = "7", paid = "cash", total = 100.00, line = [
        { what = "pump", amount = 100.00, kind = "part", to = "pip" }] },
    { do = "close", date = 2025-12-31 },
    { do = "sell", date = 2026-01-03, vehicle = "pip", price = 2000.00, purse = "cash" })");
  const EntryId wrong = put_right(shop, 2, [](Correction& c) {
    c.day = on("2026-01-05");
    c.amount = "150";
  });
  CHECK(lines_of(shop, MoneyKind::part) == "-150.00 after");
  put_right(shop, wrong, [](Correction& c) { c.day = on("2025-02-02"); });
  // From the first open day on, two days before the sale.
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -50.00");
  CHECK(shop.show("pip").late_cost == usd("0"));
  CHECK(shop.health().findings.empty());
}

namespace {
// Pip is bought and sold on the first of March; entry 2 is a quick line of 100.00.
void quick_and_sold(Shop& shop, const std::string& more) {
  shop.today = Day(2026, 1, 10);
  shop.now = "2026-01-10T12:00:00Z";
  shop.post(R"(
    { do = "buy", date = 2025-01-05, vehicle = "pip", price = 1000.00, purse = "cash" },
    { do = "receipt", date = 2025-02-02, itemised = false, paid = "cash", total = 100.00, line = [
        { what = "pump", amount = 100.00, kind = "part", to = "pip" }] },
    { do = "sell", date = 2025-03-01, vehicle = "pip", price = 2000.00, purse = "cash" })" +
            more);
}
EntryId paper(Shop& shop, EntryId quick, const std::string& day, const std::string& amount) {
  shop.post("{ do = \"receipt\", date = " + day +
            ", supplier = \"Harrow\", number = \"7\", paid = \"cash\", total = " + amount +
            ", replaces = " + std::to_string(quick) + ", line = [{ what = \"pump\", amount = " + amount +
            ", kind = \"part\", to = \"pip\" }] }");
  return last_entry(shop.book());
}
const char* const year_closed = R"(, { do = "close", date = 2025-12-31 })";
}  // namespace

TEST_CASE("a quick line of a closed year that is put right and then gives its place stands where it was put",
          "[book][days]") {
  Shop shop;
  quick_and_sold(shop, year_closed);
  const EntryId less = put_right(shop, 2, "80");
  CHECK(lines_of(shop, MoneyKind::part) == "-80.00");
  paper(shop, less, "2025-02-05", "110.00");
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -10.00 after");
  CHECK(shop.health().findings.empty());

  Shop moved;
  quick_and_sold(moved, year_closed);
  paper(moved, put_right(moved, 2, [](Correction& c) { c.day = Day(2025, 3, 20); }), "2025-03-25", "110.00");
  CHECK(lines_of(moved, MoneyKind::part) == "-100.00 after; -10.00 after");
}

TEST_CASE(
    "a paper that took the place of a quick line stands where that stood when it is put right and undone",
    "[book][days]") {
  Shop shop;
  quick_and_sold(shop, year_closed);
  const EntryId full = paper(shop, 2, "2025-02-05", "110.00");
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -10.00 after");
  const EntryId before = last_entry(shop.book());
  EntryId made = 0;
  shop.record([&](Recording& recording) {
    Correction correction;
    correction.entry = full;
    correction.amount = "130";
    made = correct(recording, correction).entry;
    remember_typed(recording, before);
  });
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -30.00 after");
  shop.record([](Recording& recording) { undo_typed(recording); });
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -10.00 after");
  put_right(shop, last_entry(shop.book()), [](Correction& c) { c.day = Day(2025, 3, 20); });
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00 after; -10.00 after");
  CHECK(shop.health().findings.empty());
}

TEST_CASE("a paper printed on the first open day stands where its quick line stood when it is put right",
          "[book][days]") {
  Shop shop;
  quick_and_sold(shop, year_closed);
  const EntryId full = paper(shop, 2, "2026-01-01", "110.00");
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -10.00 after");
  const EntryId more = put_right(shop, full, "130");
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -30.00 after");
  put_right(shop, more, [](Correction& c) { c.day = on("2026-01-02"); });  // its day is put right too
  CHECK(lines_of(shop, MoneyKind::part) == "-130.00 after");
  CHECK(shop.health().findings.empty());
}

TEST_CASE("a paper keeps the earlier day of its quick line when it is put right, in an open year too",
          "[book][days]") {
  Shop shop;
  quick_and_sold(shop, "");
  const EntryId full = paper(shop, 2, "2025-03-05", "110.00");
  CHECK(lines_of(shop, MoneyKind::part) == "-110.00");
  const EntryId right = put_right(shop, full, "120");
  CHECK(lines_of(shop, MoneyKind::part) == "-120.00");
  CHECK(load_entry(shop.book(), right).day == on("2025-02-02"));
  put_right(shop, right, [](Correction& c) { c.day = Day(2025, 3, 6); });
  CHECK(lines_of(shop, MoneyKind::part) == "-120.00 after");
}

TEST_CASE(
    "a draw of a closed year that is put right stands there as far as the average by days had brought it",
    "[book][days]") {
  const auto paper_of = [](const char* day, const char* number, const char* total) {
    return fmt::format(
        R"({{ do = "receipt", date = {}, supplier = "Harrow", number = "{}", paid = "cash", total = {},
        line = [{{ what = "oil", qty = 10, amount = {}, kind = "stock", stock = "oil" }}] }})",
        day, number, total, total);
  };
  Shop shop;
  shop.today = Day(2026, 1, 10);
  shop.now = "2026-01-10T12:00:00Z";
  shop.post(R"({ do = "buy", date = 2025-01-05, vehicle = "pip", price = 1000.00, purse = "cash" },)" +
            paper_of("2025-01-10", "7", "50.00") +
            R"(, { do = "draw", date = 2025-02-05, vehicle = "pip", stock = "oil", qty = 4 },
    { do = "sell", date = 2025-03-01, vehicle = "pip", price = 2000.00, purse = "cash" },)" +
            paper_of("2025-01-20", "8", "70.00") + year_closed);
  CHECK(shop.show("pip").cost == usd("1024"));  // four of twenty, which cost 120
  put_right(shop, 3, "5");
  CHECK(shop.show("pip").cost == usd("1024"));
  CHECK(shop.show("pip").late_cost == usd("6"));
  CHECK(shop.show("pip", on("2025-12-31")).cost == usd("1024"));
  CHECK(shop.health().findings.empty());
}

TEST_CASE("a draw is put right though what it brought went on to the shelf, as far as the rest is enough",
          "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-01-10, supplier = "Harrow", number = "7", paid = "cash", total = 50.00, line = [
        { what = "oil", qty = 10, amount = 50.00, kind = "stock", stock = "oil" }] },
    { do = "draw", date = 2025-01-12, vehicle = "pip", stock = "oil", qty = 4 },
    { do = "shelve", date = 2025-01-14, vehicle = "pip", what = "filter", amount = 12.00, stock = "filter", qty = 1 })");
  const EntryId less = put_right(shop, 2, "3");
  CHECK(shop.show("pip").cost == usd("3"));
  Correction correction;
  correction.entry = less;
  correction.amount = "2";
  CHECK(shop.refusal_of([&](Recording& recording) { correct(recording, correction); }) ==
        "correct: on 2025-01-14 what was put into pip would be -2.00 (entry 3, shelve), expected 0 or more; "
        "nothing was recorded");
  CHECK(shop.health().findings.empty());
}

TEST_CASE("a sale of a closed year that is put right ends the car for its money and its hours where it ended",
          "[book][days]") {
  Shop shop;
  shop.today = Day(2026, 1, 10);
  shop.now = "2026-01-10T12:00:00Z";
  shop.post(R"(
    { do = "buy", date = 2025-01-05, vehicle = "pip", price = 1000.00, purse = "cash" },
    { do = "sell", date = 2025-03-01, vehicle = "pip", price = 2000.00, purse = "cash" },
    { do = "receipt", date = 2025-06-02, supplier = "Harrow", number = "7", paid = "cash", total = 40.00, line = [
        { what = "tow", amount = 40.00, kind = "part", to = "pip" }] },
    { do = "hours", date = 2025-06-03, vehicle = "pip", operation = "fetching it", own = 2 },
    { do = "close", date = 2025-12-31 })");
  const auto told = [&](Shop& of) {
    const VehicleFigures pip = of.show("pip");
    return fmt::format(
        "{}; {}; cost {}, late {}, first {}, now {}", lines_of(of, MoneyKind::part), hours_of(of),
        pip.cost.plain(of.book().currency()), pip.late_cost.plain(of.book().currency()),
        pip.first_cash_profit->plain(of.book().currency()), pip.cash_profit->plain(of.book().currency()));
  };
  CHECK(told(shop) == "-40.00 after; 2 after; cost 1000.00, late 40.00, first 1000.00, now 960.00");
  const EntryId dearer = put_right(shop, 2, "2100");
  CHECK(told(shop) == "-40.00 after; 2 after; cost 1000.00, late 40.00, first 1100.00, now 1060.00");
  // The board reads of all cars at once, on a past day too.
  CHECK(all_positions(shop.book()).at("pip").late_cost == usd("40"));
  CHECK(all_positions(shop.book(), on("2026-01-05")).at("pip").late_cost == usd("40"));
  // Put right to a day after the tow it ends there.
  put_right(shop, dearer, [](Correction& c) { c.day = on("2025-07-01"); });
  CHECK(told(shop) == "-40.00; 2; cost 1040.00, late 0.00, first 1060.00, now 1060.00");
  std::string events;
  each_event(shop.book(),
             [&](EntryId, const std::string& event) { events += (events.empty() ? "" : ", ") + event; });
  Shop again;
  again.today = shop.today;
  again.post(events);
  CHECK(told(again) == told(shop));
  CHECK(shop.health().findings.empty());
}

TEST_CASE(
    "a paper of several quick lines of a closed year stands where each of them stood, put right as well",
    "[book][days]") {
  Shop shop;
  shop.today = Day(2026, 1, 10);
  shop.now = "2026-01-10T12:00:00Z";
  const auto quick = [](const std::string& day, const std::string& what, const std::string& amount) {
    return "{ do = \"receipt\", date = " + day + ", itemised = false, paid = \"cash\", total = " + amount +
           ", line = [{ what = \"" + what + "\", amount = " + amount +
           ", kind = \"part\", to = \"pip\" }] }, ";
  };
  shop.post(R"({ do = "buy", date = 2025-01-05, vehicle = "pip", price = 1000.00, purse = "cash" }, )" +
            quick("2025-02-02", "pump", "50.00") + quick("2025-02-20", "hose", "30.00") +
            R"({ do = "sell", date = 2025-03-01, vehicle = "pip", price = 2000.00, purse = "cash" }, )" +
            quick("2025-03-10", "mats", "9.00") + R"({ do = "close", date = 2025-12-31 })");
  const EntryId before = last_entry(shop.book());
  shop.record([&](Recording& recording) {
    for (const EntryId other : {EntryId{3}, EntryId{5}}) give_place(recording, other, Day(2026, 1, 8));
    Receipt paper;
    paper.day = Day(2026, 1, 8);
    paper.supplier = "Harrow";
    paper.number = "7";
    paper.total = usd("91");
    paper.paid = {{"cash", usd("91")}};
    paper.replaces = 2;
    ReceiptLine line;
    line.what = "pump, hose, mats";
    line.amount = usd("91");
    line.kind = "part";
    line.shares = {{"pip", 1000}};
    paper.lines = {line};
    record(recording, paper);
    remember_typed(recording, before);
  });
  CHECK(lines_of(shop, MoneyKind::part) == "-50.00; -30.00; -9.00 after; -2.00 after");
  CHECK(shop.show("pip").late_cost == usd("11"));
  CHECK(shop.purse("cash", on("2025-12-31")) == usd("911"));
  CHECK(shop.purse("cash", on("2026-01-01")) == usd("909"));
  std::string events;
  each_event(shop.book(),
             [&](EntryId, const std::string& event) { events += (events.empty() ? "" : ", ") + event; });
  Shop again;
  again.today = shop.today;
  again.post(events);
  CHECK(lines_of(again, MoneyKind::part) == lines_of(shop, MoneyKind::part));
  CHECK(load_entry(again.book(), last_entry(again.book())).event ==
        load_entry(shop.book(), last_entry(shop.book())).event);
  put_right(again, last_entry(again.book()), "95");
  CHECK(lines_of(again, MoneyKind::part) == "-50.00; -30.00; -9.00 after; -6.00 after");
  CHECK(again.health().findings.empty());
  // Undone the quick lines stand where they stood.
  shop.record([](Recording& recording) { undo_typed(recording); });
  CHECK(lines_of(shop, MoneyKind::part) == "-50.00; -30.00; -9.00 after");
  CHECK(shop.health().findings.empty());
}

TEST_CASE("undo goes back over what was undone, and takes nothing that another one typed since", "[book]") {
  Shop shop;
  const auto by = [&](const char* who, const auto& does) {
    shop.record([&](Recording& recording) {
      recording.typed_by = who;
      const EntryId before = last_entry(shop.book());
      does(recording);
      remember_typed(recording, before);
    });
  };
  const auto to = [&](const char* amount) {
    return [&shop, amount](Recording& recording) {
      Correction correction;
      correction.entry = last_entry(shop.book());
      correction.amount = amount;
      correct(recording, correction);
    };
  };
  const auto undo_by = [&](const char* who) {
    shop.record([&](Recording& recording) {
      recording.typed_by = who;
      undo_typed(recording);
    });
  };
  by("al", [&](Recording& recording) {
    record(recording, OwnerMoney{true, Day(2025, 3, 1), "cash", usd("30"), false});
  });
  by("al", to("40"));
  undo_by("al");
  CHECK(shop.purse("cash") == usd("30"));
  by("bo", to("55"));
  CHECK_THROWS_WITH(undo_by("al"), Catch::Matchers::Contains("was taken back since"));
  CHECK(shop.purse("cash") == usd("55"));
  undo_by("bo");
  CHECK(shop.purse("cash") == usd("30"));
  undo_by("al");
  CHECK(shop.purse("cash") == Money{});
}

TEST_CASE("a correction that is undone stands where the first entry stood", "[book][days]") {
  Shop shop;
  sold_and_closed(shop);
  const EntryId before = last_entry(shop.book());
  shop.record([&](Recording& recording) {
    Correction correction;
    correction.entry = 2;
    correction.amount = "120";
    correct(recording, correction);
    remember_typed(recording, before);
  });
  shop.record([](Recording& recording) { undo_typed(recording); });
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00");
  CHECK(shop.show("pip").cost == usd("1100"));
}

TEST_CASE("no deposit is taken after a sale that was put right, by the day on which it was", "[book][days]") {
  Shop shop;
  sold_and_closed(shop);
  put_right(shop, 6, "2050");
  CHECK_THROWS_WITH(shop.record([](Recording& recording) {
    recording.typed_by = "me";
    record(recording,
           BuyerDeposit{BuyerDeposit::What::taken, Day(2025, 4, 5), "pip", usd("50"), "cash", false});
  }),
                    Catch::Matchers::Contains("pip was sold on 2025-03-01"));
}

TEST_CASE("goods that went back are carried along, and stand where they stood", "[book][days]") {
  Shop shop;
  shop.today = Day(2026, 1, 10);
  shop.post(R"(
    { do = "buy", date = 2025-01-05, vehicle = "pip", price = 1000.00, purse = "cash" },
    { do = "receipt", date = 2025-02-02, supplier = "Harrow", number = "7", paid = "cash", total = 100.00, line = [
        { id = "lamp", what = "lamps", qty = 2, unit = 50.00, kind = "part", to = "pip" }] },
    { do = "return", date = 2025-02-10, line = "lamp", qty = 1, goods = 50.00, purse = "cash" },
    { do = "sell", date = 2025-03-01, vehicle = "pip", price = 2000.00, purse = "cash" },
    { do = "close", date = 2025-12-31 })");
  put_right(shop, 2, "110");
  CHECK(lines_of(shop, MoneyKind::part) == "-100.00; -10.00 after; 50.00");
  CHECK(shop.show("pip").cost == usd("1050"));
  CHECK(shop.show("pip").late_cost == usd("10"));
}

TEST_CASE("what a correction stands under goes through a file of events", "[book][days]") {
  Shop shop;
  sold_and_closed(shop);
  const EntryId part = put_right(shop, 2, "120");
  put_right(shop, 3, "6");
  CHECK(load_entry(shop.book(), part).event.ends_with(", corrects = 2 }"));
  std::string events;
  each_event(shop.book(),
             [&](EntryId, const std::string& event) { events += (events.empty() ? "" : ", ") + event; });
  Shop again;
  again.today = shop.today;
  again.post(events);
  CHECK(lines_of(again, MoneyKind::part) == lines_of(shop, MoneyKind::part));
  CHECK(hours_of(again) == "5; 1 after");
  CHECK(load_entry(again.book(), part).event == load_entry(shop.book(), part).event);
  CHECK(shop.refusal(R"({ do = "receipt", date = 2025-02-02, supplier = "Harrow", number = "9", paid = "cash",
      total = 1.00, corrects = 1, line = [{ what = "pump", amount = 1.00, kind = "part", to = "pip" }] })") ==
        "\"corrects\" in the event \"receipt\" is 1, expected the number of an entry of the same kind "
        "that was taken back");
}

TEST_CASE(
    "a price put right though the car was sold, and a bill though it was paid, go through a file of events",
    "[book][days]") {
  Shop shop;
  shop.post(R"(
    { do = "buy", date = 2025-01-05, vehicle = "pip", price = 1000.00, purse = "cash" },
    { do = "receipt", date = 2025-02-02, supplier = "Harrow", number = "7", on_account = true, total = 100.00, line = [
        { id = "pump", what = "pump", amount = 100.00, kind = "part", to = "pip" }] },
    { do = "pay", date = 2025-02-05, supplier = "Harrow", amount = 100.00, purse = "cash" },
    { do = "sell", date = 2025-03-01, vehicle = "pip", price = 2000.00, purse = "cash" })");
  put_right(shop, 1, "1100");
  put_right(shop, 2, "130");
  std::string events;
  each_event(shop.book(),
             [&](EntryId, const std::string& event) { events += (events.empty() ? "" : ", ") + event; });
  Shop again;
  again.post(events);
  CHECK(again.show("pip").cash_profit == usd("770"));
  CHECK(again.show("pip").cash_profit == shop.show("pip").cash_profit);
  CHECK(again.balance("payable", "Harrow") == usd("-30"));
  CHECK(again.health().findings.empty());
}

TEST_CASE("a void that makes way is refused where nothing takes the place of what was paid or sold",
          "[book]") {
  Shop shop;
  shop.post(R"(
    { do = "buy", date = 2025-01-05, vehicle = "pip", price = 1000.00, purse = "cash" },
    { do = "sell", date = 2025-03-01, vehicle = "pip", price = 2000.00, purse = "cash" })");
  const auto kept = [&](const std::string& more) {
    return Shop::said([&] {
      shop.post(R"({ do = "void", date = 2025-03-02, entry = 1, why = "x", makes_way = true })" + more);
    });
  };
  const std::string sold =
      "void: pip was sold on 2025-03-01 (entry 2), expected that it was bought by then; else void that "
      "first: nonrunner "
      "void 2 --why \"...\"";
  CHECK(kept("") == sold);
  CHECK(kept(R"(, { do = "owner in", date = 2025-03-02, purse = "cash", amount = 1.00 })").ends_with(sold));
  CHECK(last_entry(shop.book()) == 2);
}

TEST_CASE("a commission that is a share goes along with the price that is put right", "[book]") {
  Shop shop;
  shop.post(R"(
    { do = "buy", date = 2025-01-05, vehicle = "pip", price = 1000.00, purse = "cash" },
    { do = "sell", date = 2025-03-01, vehicle = "pip", price = 2000.00, commission = 0.03, purse = "cash" })");
  CHECK(shop.show("pip").cash_profit == usd("940"));
  const EntryId small = put_right(shop, 2, "20");
  CHECK(shop.show("pip").cash_profit == usd("-980.60"));
  put_right(shop, small, "2100");
  CHECK(shop.show("pip").cash_profit == usd("1037"));
  // And it is taken back as any sale is.
  shop.post(R"({ do = "void", date = 2025-03-04, entry = 6, why = "fell through", later = true })");
  CHECK(shop.show("pip").carried == usd("1000"));
}
