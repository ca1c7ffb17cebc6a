#include "reports/appraisal.h"

#include "reports/appraisal/parts.h"

namespace nonrunner::reports {

void write_appraisal(const AppraisalFigures& figures, const std::filesystem::path& out) {
  using namespace appraisal_sheets;
  Workbook book(out, figures.currency, {figures.tag + ": appraisal", figures.description, figures.made_on});
  Parts parts(figures, book);
  parts.answer = &book.sheet("Answer");
  parts.courses = &book.sheet("Courses");
  parts.costs = &book.sheet("Costs");
  parts.parts = &book.sheet("Parts");
  parts.tests = &book.sheet("Tests");
  parts.fixes = &book.sheet("Fixes");
  parts.comparables = &book.sheet("Comparables");
  parts.risk = &book.sheet("Risk");
  parts.haggling = &book.sheet("Haggling");
  parts.cautions = &book.sheet("Cautions");
  write_costs(parts);
  write_fixes(parts);
  write_courses(parts);
  write_parts_to_buy(parts);
  write_tests(parts);
  write_comparables(parts);
  write_risk(parts);
  write_haggling(parts);
  write_cautions(parts);
  write_answer(parts);
  book.close();
}

}  // namespace nonrunner::reports
