// Which lines of a car's budget were said to be done, not needed or open: what is said stands above what is
// counted, until the next word. A car made ready (by `done`, or by its first advert) has every line closed that
// was known on that day and was not said to be still to do.
#pragma once
#include <map>
#include <optional>
#include <string>

#include "answers/links.h"
#include "book/ledger/marks.h"

namespace nonrunner::answers {

enum class Word { none, done, not_needed, open };

class Closed {
 public:
  struct When {
    Day day;
    book::EntryId entry = 0;
    bool before(const When& other) const {
      return day < other.day || (day == other.day && entry < other.entry);
    }
  };
  // `names`: of the car's budget; what is said with a line's other words or in other letters is said of that line.
  Closed(const book::Book&, const std::string& tag, const std::vector<LineName>& names,
         std::optional<Day> on);

  // `known_on`: since when the line is in the budget; what came up after the car was ready is open.
  // What was said with hours is said of hours alone. `planned`: of a line by hand, when that was said; what was said before
  // it and for a day before its own is over.
  Word of(const std::string& line, Day known_on, bool is_hours, std::optional<When> planned = {}) const;
  bool more_to_come(const std::string& line) const { return more_.contains(line); }
  bool is_ready() const { return ready_.has_value(); }

 private:
  struct Said {
    When when;
    Word word = Word::none;
  };
  std::map<std::string, Said> said_, of_hours_;
  std::map<std::string, bool> more_;
  std::optional<When> ready_;
};

}  // namespace nonrunner::answers
