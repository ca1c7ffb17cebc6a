// What is in each purse and on the shelf, and the trial balance.
#include <fmt/format.h>

#include <stdexcept>

#include "reports/year/parts.h"

namespace nonrunner::reports::year_sheets {

void write_purses(Parts& parts) {
  Sheet& sheet = *parts.purses;
  const YearFigures& f = parts.figures;
  const auto rounded = [&](const std::string& formula) {
    return "ROUND(" + formula + "," + std::to_string(f.currency.digits) + ")";
  };
  sheet.widths({26, 14, 18, 18, 18, 18});
  sheet.text({0, 0}, fmt::format("Purses, {}", f.year), look::title);
  sheet.text({1, 0},
             "The balances must agree with the bank's papers and the cash tin; a card that is owed on stands "
             "below zero.",
             look::note);
  sheet.headings({3, 0}, {"Purse", "Kind", "Opening", "In", "Out", "Closing"}, 2);
  std::uint32_t at = 4;
  Money opening, in, out, closing;
  for (const YearPurse& purse : f.purses) {
    if (purse.opening + purse.in - purse.out != purse.closing)
      throw std::logic_error(fmt::format("year workbook: purse {} comes to {}, its balance is {}", purse.name,
                                         (purse.opening + purse.in - purse.out).plain(f.currency),
                                         purse.closing.plain(f.currency)));
    sheet.text({at, 0}, purse.name);
    sheet.text({at, 1}, purse.kind);
    sheet.money({at, 2}, purse.opening);
    sheet.money({at, 3}, purse.in);
    sheet.money({at, 4}, purse.out);
    sheet.formula({at, 5}, rounded(here(Cell{at, 2}) + "+" + here(Cell{at, 3}) + "-" + here(Cell{at, 4})),
                  purse.closing);
    opening += purse.opening, in += purse.in, out += purse.out, closing += purse.closing;
    ++at;
  }
  if (f.purses.empty()) sheet.text({at, 0}, "no purses"), ++at;
  sheet.text({at, 0}, "in all", look::total);
  for (const auto& [col, amount] :
       {std::pair<std::uint16_t, Money>(2, opening), {3, in}, {4, out}, {5, closing}})
    sheet.formula({at, col}, rounded("SUM(" + here({4, col}, {at - 1, col}) + ")"), amount,
                  look::money_total);
  parts.purse_total = {at, 5};
}

void write_shelf(Parts& parts) {
  Sheet& sheet = *parts.shelf;
  const YearFigures& f = parts.figures;
  const auto rounded = [&](const std::string& formula) {
    return "ROUND(" + formula + "," + std::to_string(f.currency.digits) + ")";
  };
  sheet.widths({34, 14, 16, 16, 16, 16});
  sheet.text({0, 0}, fmt::format("On the shelf, {}", f.year), look::title);
  sheet.text({1, 0}, "At the moving weighted average; used: drawn for vehicles, and what counts found short.",
             look::note);
  sheet.headings({3, 0}, {"Item", "Quantity", "Opening", "Added", "Used", "Closing"}, 1);
  std::uint32_t at = 4;
  Money opening, added, used, closing;
  for (const YearStock& stock : f.stock) {
    if (stock.opening + stock.added - stock.used != stock.closing)
      throw std::logic_error(fmt::format("year workbook: stock {} comes to {}, its value is {}", stock.item,
                                         (stock.opening + stock.added - stock.used).plain(f.currency),
                                         stock.closing.plain(f.currency)));
    sheet.text({at, 0}, stock.item);
    sheet.decimal({at, 1}, stock.quantity, look::decimal);
    sheet.money({at, 2}, stock.opening);
    sheet.money({at, 3}, stock.added);
    sheet.money({at, 4}, stock.used);
    sheet.formula({at, 5}, rounded(here(Cell{at, 2}) + "+" + here(Cell{at, 3}) + "-" + here(Cell{at, 4})),
                  stock.closing);
    opening += stock.opening, added += stock.added, used += stock.used, closing += stock.closing;
    ++at;
  }
  if (f.stock.empty()) sheet.text({at, 0}, "nothing on the shelf"), ++at;
  sheet.text({at, 0}, "in all", look::total);
  for (const auto& [col, amount] :
       {std::pair<std::uint16_t, Money>(2, opening), {3, added}, {4, used}, {5, closing}})
    sheet.formula({at, col}, rounded("SUM(" + here({4, col}, {at - 1, col}) + ")"), amount,
                  look::money_total);
  parts.shelf_total = {at, 5};
}

void write_trial(Parts& parts) {
  Sheet& sheet = *parts.trial;
  const YearFigures& f = parts.figures;
  const auto rounded = [&](const std::string& formula) {
    return "ROUND(" + formula + "," + std::to_string(f.currency.digits) + ")";
  };
  sheet.widths({40, 18, 18, 18});
  sheet.text({0, 0}, fmt::format("Trial balance, end of {}", f.year), look::title);
  sheet.text(
      {1, 0},
      fmt::format(
          "Balances since the book began, as they stand at the end: what was sold and spent before {} is "
          "in them too.",
          f.year),
      look::note);
  sheet.headings({2, 0}, {"Account", "Kind", "Debit", "Credit"}, 2);
  sheet.frozen(3, 0, 2);
  std::uint32_t at = 3;
  Money debit, credit;
  for (const YearAccount& account : f.trial) {
    sheet.text({at, 0}, account.name);
    sheet.text({at, 1}, account.kind);
    if (is_negative(account.balance))
      sheet.money({at, 3}, -account.balance), credit -= account.balance;
    else
      sheet.money({at, 2}, account.balance), debit += account.balance;
    ++at;
  }
  if (debit != credit)
    throw std::logic_error(fmt::format("year workbook: the trial balance has {} of debits and {} of credits",
                                       debit.plain(f.currency), credit.plain(f.currency)));
  if (f.trial.empty()) sheet.text({at, 0}, "no accounts"), ++at;
  sheet.text({at, 0}, "in all", look::total);
  sheet.formula({at, 2}, rounded("SUM(" + here({3, 2}, {at - 1, 2}) + ")"), debit, look::money_total);
  sheet.formula({at, 3}, rounded("SUM(" + here({3, 3}, {at - 1, 3}) + ")"), credit, look::money_total);
  sheet.text({at + 1, 0}, "debits less credits: must be zero");
  parts.trial_total = {at + 1, 2};
  sheet.formula(parts.trial_total, rounded(here(Cell{at, 2}) + "-" + here(Cell{at, 3})), Money());
}

}  // namespace nonrunner::reports::year_sheets
