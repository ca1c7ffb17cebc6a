#include "reports/head.h"

namespace nonrunner::reports {

Checks::Checks(Sheet& sheet, std::uint32_t at) : sheet_(sheet), first_(at), at_(at + 1) {}

void Checks::line(const std::string& what, const std::string& difference, const std::string& of, Money now) {
  agrees_ = agrees_ && is_zero(now);
  sheet_.text({at_, 0}, what);
  sheet_.formula({at_, 1}, difference, now);
  sheet_.text({at_, 2}, of, look::note_apart);
  ++at_;
}

std::uint32_t Checks::close() {
  sheet_.headings({first_, 0}, {"Checks: each must be zero", "", "", ""}, 1);
  // An error is no zero either.
  const std::string range = here({first_ + 1, 1}, {at_ - 1, 1});
  sheet_.formula_text(
      {first_, 1},
      "IF(SUMPRODUCT(ISNUMBER(" + range + ")*1)<ROWS(" + range + "),\"does not agree\",IF(SUMPRODUCT((" +
          range + "<>0)*1)=0,\"agrees\",\"does not agree\"))",
      agrees_ ? "agrees" : "does not agree", {Form::words, Role::heading, true, Look::Side::right});
  return at_;
}

Head::Head(Workbook& book, Sheet& sheet, const std::string& title) : book_(book), sheet_(sheet) {
  sheet_.widths({44, 22, 16, 40});
  sheet_.text({at_++, 0}, title, look::title);
}

void Head::said(Cell at, const Said& words, Look look) {
  if (words.formula.empty())
    sheet_.text(at, words.now, look);
  else
    sheet_.formula_text(at, words.formula, words.now, look);
}

void Head::say(const std::string& words, Look look) {
  if (!words.empty()) sheet_.across({at_++, 0}, columns, words, look);
}

void Head::when_changed(const std::string& words) {
  if (book_.to_read()) return;
  sheet_.formula_text({at_++, 0},
                      "IF(" + book_.changed() + "=0,\"\",\"Changed since it was made (\"&" + book_.changed() +
                          "&\" of the inputs, see the last sheet): " + words + "\")",
                      "", look::section);
}

void Head::answer(const Said& name, const std::string& formula, double value, Look look, const Said& beside) {
  sheet_.height(at_, 28);
  said({at_, 0}, name, look::answer);
  sheet_.formula({at_, 1}, formula, value, look);
  // Empty cells let a longer text run on.
  if (beside.formula.empty() && beside.now.empty())
    sheet_.blank({at_, 2}, look::answer);
  else
    said({at_, 2}, beside, {Form::text, Role::answer, false, Look::Side::apart});
  sheet_.blank({at_, 3}, look::answer);
  ++at_;
}

void Head::answer(const Said& name, const std::string& formula, Money value, const Said& beside) {
  answer(name, formula, number_of(value, book_.currency()), look::answer_money, beside);
}

void Head::figure(const Said& name, const std::string& formula, std::optional<double> value, Look look,
                  const Said& says) {
  sheet_.height(at_, 20);
  said({at_, 0}, name, look::figure);
  if (value)
    sheet_.formula({at_, 1}, formula, *value, look);
  else
    sheet_.formula_text({at_, 1}, formula, "", look);
  said({at_, 2}, says, look::note_apart);
  ++at_;
}

void Head::figure(const Said& name, const std::string& formula, std::optional<Money> value,
                  const Said& says) {
  figure(name, formula, value ? std::optional(number_of(*value, book_.currency())) : std::nullopt,
         look::figure_money, says);
}

Cell Head::input(const std::string& name, std::optional<Money> value, const std::string& says) {
  const Cell at{at_, 1};
  sheet_.height(at_, 20);
  sheet_.text({at_, 0}, name, look::figure);
  if (value)
    sheet_.money(at, *value, look::money_input);
  else
    sheet_.blank(at, look::money_input);
  sheet_.text({at_, 2}, says, look::note_apart);
  ++at_;
  return at;
}

void Head::picture(const Chart& chart, int rows) {
  sheet_.chart({at_ + 1, 0}, chart, columns, rows);
  at_ += static_cast<std::uint32_t>(rows) + 2;
}

Checks Head::checks() { return Checks(sheet_, at_ + 1); }

void Head::list(const std::string& begins, const std::vector<std::string>& things, std::size_t most) {
  for (std::size_t i = 0; i < things.size() && i < most; ++i) say(begins + things[i], look::text);
  if (things.size() > most)
    say(begins + std::to_string(things.size() - most) + " more, which the program lists", look::text);
}

void Head::legend(const std::string& where) {
  if (book_.to_read()) return;
  ++at_;
  sheet_.text({at_, 0}, "A cell like this may be changed", look::text_input);
  sheet_.across({at_, 1}, columns - 1, "(pale fill, dashed border): " + where, look::note);
  ++at_;
}

void Head::close(const std::vector<const char*>& cautions) {
  ++at_;
  say(book_.made_in_words() + ".", look::note);
  for (const char* each : cautions) say(each, look::caution);
}

}  // namespace nonrunner::reports
