#include "reports/profit.h"

#include <stdexcept>

#include "reports/profit/parts.h"

namespace nonrunner::reports {

namespace {

// Up to here a workbook is built whole, and its charts hold a copy of their figures; beyond, row by row.
constexpr std::size_t many_lines = 5'000;

void check_against_the_book(const ProfitFigures& figures, const profit::Sums& sums) {
  if (!figures.cash_profit || *figures.cash_profit == sums.final.cash_profit) return;
  throw std::logic_error("profit workbook of " + figures.tag + ": its lines add up to " +
                         sums.final.cash_profit.plain(figures.currency) + ", the book says " +
                         figures.cash_profit->plain(figures.currency));
}

}  // namespace

void write_profit(const ProfitFigures& figures, const std::filesystem::path& out, bool to_read) {
  profit::Sums sums = profit::added_up(figures);
  check_against_the_book(figures, sums);
  Workbook book(out, figures.currency,
                {figures.tag + ": profit report", figures.description, figures.made_on, figures.tag, "profit",
                 figures.book, to_read},
                figures.lines.size() > many_lines);
  const bool by_price = sums.priced || figures.state == ProfitFigures::State::owned;
  profit::Parts parts(figures, sums, book);
  parts.first = &book.sheet("Result");
  parts.result = &book.sheet("Account");
  parts.money = &book.sheet("Money");
  parts.hours = &book.sheet("Hours");
  parts.log = &book.sheet("Log");
  parts.variance = &book.sheet("Variance");
  if (figures.estimate) {
    parts.variance_money = &book.sheet("VarianceMoney");
    parts.variance_hours = &book.sheet("VarianceHours");
  }
  parts.cash = &book.sheet("Cash");
  if (by_price) parts.price = &book.sheet("Price");
  parts.entries = &book.sheet("Entries");
  profit::write_entries(parts);
  profit::write_hours(parts);
  profit::write_money(parts);
  profit::write_cash(parts);
  profit::write_variance(parts);
  if (by_price) profit::write_price(parts);
  profit::write_result(parts);
  // Nothing stands on these.
  if (figures.hours.empty()) parts.hours->hide(), parts.log->hide();
  if (!figures.estimate) parts.variance->hide();
  if (to_read)
    for (Sheet* each : {parts.result, parts.hours, parts.log, parts.variance, parts.variance_money,
                        parts.variance_hours, parts.cash, parts.price})
      if (each) each->hide();
  book.close();
}

}  // namespace nonrunner::reports
