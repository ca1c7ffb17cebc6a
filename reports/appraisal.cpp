#include "reports/appraisal.h"

#include "reports/appraisal/parts.h"

namespace nonrunner::reports {

namespace appraisal_sheets {

void say_when_changed(Parts& parts, Sheet& sheet, std::uint32_t row) {
  sheet.formula_text(
      {row, 0},
      "IF(" + parts.book.changed() +
          "=0,\"\",\"Changed since it was made: what stands here is of the figures as they were. Appraise "
          "again.\")",
      "", look::section);
}

}  // namespace appraisal_sheets

void write_appraisal(const AppraisalFigures& figures, const std::filesystem::path& out) {
  using namespace appraisal_sheets;
  Workbook book(out, figures.currency,
                {figures.tag + ": appraisal", figures.description, figures.made_on, figures.tag, "appraisal",
                 figures.book});
  Parts parts(figures, book);
  parts.first = &book.sheet("Answer");
  parts.answer = &book.sheet("Basis");
  parts.courses = &book.sheet("Courses");
  parts.making = &book.sheet("Making");
  parts.costs = &book.sheet("Costs");
  parts.parts = &book.sheet("Parts");
  parts.tests = &book.sheet("Tests");
  parts.plan = &book.sheet("Plan");
  parts.ways = &book.sheet("Ways");
  parts.fixes = &book.sheet("Fixes");
  parts.gains = &book.sheet("Gains");
  parts.way = &book.sheet("Way");
  parts.comparables = &book.sheet("Comparables");
  parts.risk = &book.sheet("Risk");
  parts.moves = &book.sheet("Moves");
  parts.haggling = &book.sheet("Haggling");
  parts.cautions = &book.sheet("Cautions");
  parts.drawn = &book.sheet("Drawn");
  parts.drawn->hide();
  write_costs(parts);
  write_fixes(parts);
  write_courses(parts);
  write_parts_to_buy(parts);
  write_tests(parts);
  write_plan(parts);
  write_ways(parts);
  write_comparables(parts);
  write_risk(parts);
  write_moves(parts);
  write_haggling(parts);
  write_cautions(parts);
  write_answer(parts);
  book.close();
}

}  // namespace nonrunner::reports
