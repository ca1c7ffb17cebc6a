// What is in each purse and on the shelf, the trial balance, and the owner's capital.
#include <fmt/format.h>

#include <stdexcept>

#include "reports/table.h"
#include "reports/year/parts.h"

namespace nonrunner::reports::year_sheets {

void write_purses(Parts& parts) {
  enum : std::uint16_t { name, kind, opening, in, out, closing, statement, difference };
  Sheet& sheet = *parts.purses;
  const YearFigures& f = parts.figures;
  sheet.landscape();
  Table table(sheet, 3,
              {{"Purse", 24, look::wrapped},
               {"Kind", 12, look::text},
               {"Opening", 15, look::money, summed},
               {"In", 15, look::money, summed},
               {"Out", 15, look::money, summed},
               {"Closing", 15, look::money, summed},
               {"On the statement", 16, look::money_box},
               {"Differs by", 14, look::money}});
  sheet.text({0, 0}, fmt::format("Purses, {}", f.year), look::title);
  sheet.across(
      {1, 0}, 8,
      "Write what the bank's paper says, or what was counted in the tin, beside the closing balance. A card "
      "that is owed on stands below zero.",
      look::note);
  for (const YearPurse& purse : f.purses) {
    if (purse.opening + purse.in - purse.out != purse.closing)
      throw std::logic_error(fmt::format("year workbook: purse {} comes to {}, its balance is {}", purse.name,
                                         (purse.opening + purse.in - purse.out).plain(f.currency),
                                         purse.closing.plain(f.currency)));
    table.row(20);  // room to write in: 6 mm and more
    table.text(name, purse.name);
    table.text(kind, purse.kind);
    table.money(opening, purse.opening);
    table.money(in, purse.in);
    table.money(out, purse.out);
    table.money(closing, parts.rounded(table.in(opening) + "+" + table.in(in) + "-" + table.in(out)),
                purse.closing);
    sheet.blank(table.cell(statement), look::money_box);
    sheet.ask(table.cell(statement), Ask::number);
    table.words(difference,
                "IF(ISNUMBER(" + table.in(statement) + ")," +
                    parts.rounded(table.in(statement) + "-" + table.in(closing)) + ",\"\")",
                "");
  }
  if (table.empty()) sheet.hide();
  parts.purse_total = {table.close("in all", "no purses").row, closing};
  const auto of_purses = [&](std::uint16_t col) { return sheet.at(table.first(col), table.last(col)); };
  parts.cards_below_zero = "SUMIFS(" + of_purses(closing) + "," + of_purses(kind) + ",\"liability\"," +
                           of_purses(closing) + ",\"<0\")";
}

void write_shelf(Parts& parts) {
  enum : std::uint16_t { item, quantity, opening, added, used, closing };
  Sheet& sheet = *parts.shelf;
  const YearFigures& f = parts.figures;
  Table table(sheet, 3,
              {{"Item", 34, look::wrapped},
               {"Quantity", 14, look::decimal},
               {"Opening", 16, look::money, summed},
               {"Added", 16, look::money, summed},
               {"Used", 16, look::money, summed},
               {"Closing", 16, look::money, summed}});
  sheet.text({0, 0}, fmt::format("On the shelf, {}", f.year), look::title);
  sheet.across({1, 0}, 6,
               "At the moving weighted average; used: drawn for vehicles, and what counts found short.",
               look::note);
  for (const YearStock& stock : f.stock) {
    if (stock.opening + stock.added - stock.used != stock.closing)
      throw std::logic_error(fmt::format("year workbook: stock {} comes to {}, its value is {}", stock.item,
                                         (stock.opening + stock.added - stock.used).plain(f.currency),
                                         stock.closing.plain(f.currency)));
    table.row();
    table.text(item, stock.item);
    table.count(quantity, stock.quantity);
    table.money(opening, stock.opening);
    table.money(added, stock.added);
    table.money(used, stock.used);
    table.money(closing, parts.rounded(table.in(opening) + "+" + table.in(added) + "-" + table.in(used)),
                stock.closing);
  }
  if (table.empty()) sheet.hide();
  parts.shelf_total = {table.close("in all", "nothing on the shelf").row, closing};
}

namespace {

const char* name_of(YearAccount::Group group) {
  switch (group) {
    case YearAccount::Group::there:
      return "what is there";
    case YearAccount::Group::owed:
      return "what is owed";
    case YearAccount::Group::owner:
      return "the owner";
    case YearAccount::Group::result:
      return "results since the book began";
  }
  return "";
}

}  // namespace

void write_trial(Parts& parts) {
  enum : std::uint16_t { account, kind, debit, credit, group };
  Sheet& sheet = *parts.trial;
  const YearFigures& f = parts.figures;
  Table table(sheet, 2,
              {{"Account", 42, look::wrapped},
               {"Kind", 18, look::text},
               {"Debit", 17, look::money, summed},
               {"Credit", 17, look::money, summed},
               {"Group", 28, look::text_apart}});
  sheet.text({0, 0}, fmt::format("Trial balance, end of {}", f.year), look::title);
  sheet.across(
      {1, 0}, 5,
      fmt::format(
          "Balances since the book began, as they stand at the end: what was sold and spent before {} "
          "is in them too.",
          f.year),
      look::note);
  using Group = YearAccount::Group;
  for (const Group each : {Group::there, Group::owed, Group::owner, Group::result})
    for (const YearAccount& one : f.trial) {
      if (one.group != each) continue;
      table.row();
      table.text(account, one.name.empty() ? one.kind : one.name);
      table.text(kind, one.kind);
      if (is_negative(one.balance))
        table.money(credit, -one.balance);
      else
        table.money(debit, one.balance);
      table.text(group, name_of(one.group));
    }
  if (table.sum(debit) != table.sum(credit))
    throw std::logic_error(fmt::format("year workbook: the trial balance has {} of debits and {} of credits",
                                       table.sum(debit).plain(f.currency),
                                       table.sum(credit).plain(f.currency)));
  const Cell total = table.close("in all", "no accounts");
  parts.trial_first = table.first(account), parts.trial_last = table.last(account);
  parts.trial_total = {total.row + 1, debit};
  sheet.text({total.row + 1, account}, "debits less credits: must be zero");
  sheet.formula(parts.trial_total, parts.rounded(here({total.row, debit}) + "-" + here({total.row, credit})),
                Money());
}

// What the owner has in the shop: as it moved, and as it is there at the end.
void write_capital(Parts& parts) {
  Sheet& sheet = *parts.capital;
  const YearFigures& f = parts.figures;
  sheet.widths({52, 20, 44});
  sheet.text({0, 0}, fmt::format("The owner's capital, {}", f.year), look::title);
  sheet.across({1, 0}, 3,
               "What is there at cost, less what is owed. Taken out and private: for the owner's own use.",
               look::note);
  std::uint32_t at = 3;
  sheet.headings({at, 0}, {"As it moved", "", ""}, 1);
  const auto line = [&](const char* name, Money amount) {
    sheet.text({++at, 0}, name);
    sheet.money({at, 1}, amount);
  };
  line("Opening capital", f.opening_capital);
  line("Put in by the owner", f.put_in);
  line("Taken out by the owner", -f.taken_out);
  line("Private, on the shop's papers", -f.owner_on_papers);
  sheet.text({++at, 0}, "Result of the year, before own hours");
  sheet.formula({at, 1}, parts.month_sum.result, f.result);
  const Money closing = f.opening_capital + f.put_in - f.taken_out - f.owner_on_papers + f.result;
  sheet.text({++at, 0}, "Closing capital", look::total);
  sheet.formula({at, 1}, formula::sum(here({4, 1}, {at - 1, 1}), f.currency), closing, look::money_total);
  const std::uint32_t moved = at;
  at += 2;
  sheet.headings({at, 0}, {"As it is there at the end", "", ""}, 1);
  const auto range = [&](std::uint16_t col) {
    return parts.trial->at({parts.trial_first.row, col}, {parts.trial_last.row, col});
  };
  Money there;
  const auto group = [&](const char* name, YearAccount::Group of) {
    Money sum;
    for (const YearAccount& each : f.trial)
      if (each.group == of) sum += each.balance;
    there += sum;
    const std::string words = range(4) + ",\"" + name_of(of) + "\")";
    sheet.text({++at, 0}, name);
    sheet.formula({at, 1},
                  parts.rounded("SUMIFS(" + range(2) + "," + words + "-SUMIFS(" + range(3) + "," + words),
                  sum);
  };
  group("What is there, at cost", YearAccount::Group::there);
  group("What is owed", YearAccount::Group::owed);
  sheet.text({++at, 0}, "Closing capital", look::total);
  sheet.formula({at, 1}, formula::sum(here({at - 2, 1}, {at - 1, 1}), f.currency), there, look::money_total);
  if (there != closing)
    throw std::logic_error(
        fmt::format("year workbook: the owner's capital moved to {}, what is there comes to {}",
                    closing.plain(f.currency), there.plain(f.currency)));
  sheet.text({++at, 0}, "the one less the other: must be zero");
  parts.capital_difference = {at, 1};
  sheet.formula(parts.capital_difference, parts.rounded(here({moved, 1}) + "-" + here({at - 1, 1})), Money());
  at += 2;
  sheet.headings({at, 0}, {"Sales tax", "", ""}, 1);
  line("Paid on purchases, in the costs", f.tax_paid);
  sheet.wrapped({at, 2}, "as the receipts say it, less what came back; a quick line says none",
                look::note_apart);
  line("Collected on sales", f.tax_collected);
  line("Passed on", f.tax_passed_on);
}

}  // namespace nonrunner::reports::year_sheets
