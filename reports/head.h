// The first sheet of a workbook: one page that answers. From the top: what it is of, the answer, the few
// figures that matter, what may be tried here, one picture, the checks, what the book was when it was made,
// the cautions. Rows follow each other; what does not apply takes no room.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "reports/sheet.h"

namespace nonrunner::reports {

// A text that a formula gives, with what it gives when nothing is changed.
struct Said {
  std::string formula, now;
  // Plain words.
  Said(const char* words) : now(words) {}             // NOLINT: words stand where a formula may
  Said(std::string words) : now(std::move(words)) {}  // NOLINT
  Said(std::string f, std::string value) : formula(std::move(f)), now(std::move(value)) {}
};

// Differences that must be zero, each of two figures that were not made from one another, and one word above
// them.
class Checks {
 public:
  Checks(Sheet&, std::uint32_t at);
  // `difference`: a formula that gives zero where the two agree; `now`: what it gives as this is written.
  void line(const std::string& what, const std::string& difference, const std::string& of, Money now = {});
  // The next free row.
  std::uint32_t close();
  Cell word() const { return {first_, 1}; }

 private:
  Sheet& sheet_;
  std::uint32_t first_, at_;
  bool agrees_ = true;
};

class Head {
 public:
  static constexpr int columns = 4;
  Head(Workbook&, Sheet&, const std::string& title);

  void say(const std::string&, Look = look::note);  // nothing where it is empty
  // A line that is there only when an input differs from what it was.
  void when_changed(const std::string&);
  void answer(const Said& name, const std::string& formula, double value, Look, const Said& beside);
  void answer(const Said& name, const std::string& formula, Money value, const Said& beside);
  void figure(const Said& name, const std::string& formula, std::optional<double> value, Look,
              const Said& says);
  void figure(const Said& name, const std::string& formula, std::optional<Money> value, const Said& says);
  Cell input(const std::string& name, std::optional<Money> value, const std::string& says);
  void picture(const Chart&, int rows);
  Checks checks();
  void end_of(const Checks&, std::uint32_t next) { at_ = next + 1; }
  void list(const std::string& begins, const std::vector<std::string>&, std::size_t most);
  void legend(const std::string& where);
  // What the book was, and the cautions below it.
  void close(const std::vector<const char*>& cautions);
  Sheet& sheet() { return sheet_; }
  std::uint32_t row() const { return at_; }  // the next free one

 private:
  void said(Cell, const Said&, Look);
  Workbook& book_;
  Sheet& sheet_;
  std::uint32_t at_ = 0;
};

}  // namespace nonrunner::reports
