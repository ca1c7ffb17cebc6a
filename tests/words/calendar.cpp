// Last days as iCalendar: read back by the rules of RFC 5545, with the examples that it gives (from memory).
#include "words/calendar.h"

#include <catch2/catch.hpp>
#include <sstream>

#include "book/fixture.h"
#include "commands/counter.h"

using namespace nonrunner;

namespace {

// Section 3.1: a line that begins with a blank goes on with the one before.
std::vector<std::string> unfolded(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const auto end = text.find("\r\n", at);
    REQUIRE(end != std::string::npos);
    const std::string line = text.substr(at, end - at);
    if (line.starts_with(' ') && !lines.empty())
      lines.back() += line.substr(1);
    else
      lines.push_back(line);
    at = end + 2;
  }
  return lines;
}

// Section 3.3.11: what stands behind the colon, as words.
std::string words_in(const std::string& text) {
  std::string words;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\\' && i + 1 < text.size()) {
      ++i;
      words += text[i] == 'n' || text[i] == 'N' ? '\n' : text[i];
    } else {
      words += text[i];
    }
  }
  return words;
}

words::Reminder reminder(const std::string& summary, const std::string& description) {
  return {"due-1@nonrunner.invalid", Day(2007, 6, 28), summary, description};
}

}  // namespace

TEST_CASE(
    "the folded example of RFC 5545, 3.1 unfolds to its line, and a long line is folded so that it does too",
    "[words][outside]") {
  CHECK(unfolded("DESCRIPTION:This is a lo\r\n ng description\r\n  that exists on a long line.\r\n") ==
        std::vector<std::string>{"DESCRIPTION:This is a long description that exists on a long line."});
  const std::string words = "core of the left-hand front caliper with \u00e4\u00f6\u00fc and \u4e2d\u6587 " +
                            std::string(100, 'x') + " \u00e9\u00e9\u00e9\u00e9\u00e9\u00e9\u00e9";
  const std::string text = words::calendar({reminder(words, words)}, "2007-04-23T12:34:32Z");
  const auto lines = unfolded(text);
  CHECK(std::count(lines.begin(), lines.end(), "SUMMARY:" + words) == 1);
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    CHECK(line.back() == '\r');
    line.pop_back();
    CHECK(line.size() <= 75);
    CHECK(line.find('\r') == std::string::npos);
    // No character is parted: a fold never begins in the middle of one.
    if (line.starts_with(' ')) CHECK((static_cast<unsigned char>(line[1]) & 0xC0) != 0x80);
  }
}

TEST_CASE("the text example of RFC 5545, 3.3.11 is written as it shows, and marks are escaped",
          "[words][outside]") {
  const std::string words = "Project XYZ Final Review\nConference Room - 3B\nCome Prepared.";
  const auto lines = unfolded(words::calendar({reminder("a", words)}, "2007-04-23T12:34:32Z"));
  CHECK(std::count(lines.begin(), lines.end(),
                   "DESCRIPTION:Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.") == 1);
  const std::string marks = "a, b; c \\ d \\n e";
  const auto marked = unfolded(words::calendar({reminder(marks, "x")}, "2007-04-23T12:34:32Z"));
  CHECK(std::count(marked.begin(), marked.end(), "SUMMARY:a\\, b\\; c \\\\ d \\\\n e") == 1);
  CHECK(words_in("a\\, b\\; c \\\\ d \\\\n e") == marks);
}

TEST_CASE("a last day is an event of that whole day with an alarm two days before", "[words][outside]") {
  // The all-day event of RFC 5545, 3.6.1 has these properties in this form: UID, DTSTAMP:20070423T123432Z,
  // DTSTART;VALUE=DATE:20070628, TRANSP:TRANSPARENT.
  CHECK(unfolded(words::calendar({reminder("core of starter: 18.00 USD", "from Millgate Parts")},
                                 "2007-04-23T12:34:32Z")) ==
        std::vector<std::string>{"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//nonrunner//last days//EN",
                                 "CALSCALE:GREGORIAN", "BEGIN:VEVENT", "UID:due-1@nonrunner.invalid",
                                 "DTSTAMP:20070423T123432Z", "DTSTART;VALUE=DATE:20070628",
                                 "DTEND;VALUE=DATE:20070629", "SUMMARY:core of starter: 18.00 USD",
                                 "DESCRIPTION:from Millgate Parts", "TRANSP:TRANSPARENT", "BEGIN:VALARM",
                                 "ACTION:DISPLAY", "DESCRIPTION:core of starter: 18.00 USD",
                                 "TRIGGER:-P1DT15H", "END:VALARM", "END:VEVENT", "END:VCALENDAR"});
}

TEST_CASE("what has a last day is in the calendar under a name that lasts, what has none is not", "[words]") {
  commands::Counter counter("calendar");
  counter.run({"owner", "in", "2500", "--purse", "cash", "--date", "2026-04-01"});
  counter.run({"buy", "pip", "900", "--date", "2026-04-20"});
  counter.run(
      {"receipt", "pip", "45", "starter", "--core", "18", "--core-by", "2026-05-15", "--id", "starter"});
  counter.run({"receipt", "pip", "30", "rack", "--core", "9", "--id", "rack"});
  counter.run({"tool", "spring", "press", "60", "--back-by", "2026-05-04", "--supplier", "Millgate Parts"});
  const auto all = [&] { return words::reminders(book::Book::open(counter.book()), counter.today); };
  const auto first = all();
  REQUIRE(first.size() == 2);
  CHECK(first[0].summary == "deposit on spring press: 60.00 USD");
  CHECK(first[0].by == Day(2026, 5, 4));
  CHECK(first[1].summary == "core of starter: 18.00 USD");
  CHECK(first[1].description == "18.00 USD\nline starter\npip");
  CHECK(first[0].uid != first[1].uid);
  // Later, with more in the book, each is still called as it was.
  counter.run({"hours", "pip", "1", "brakes"});
  const auto later = all();
  CHECK(later[0].uid == first[0].uid);
  CHECK(later[1].uid == first[1].uid);
  const std::string file = (counter.book().parent_path() / "due.ics").string();
  CHECK(counter.run({"due", "--calendar", file}) ==
        "due.ics: 2 last days, each with an alarm two days before\n");
  std::ifstream in(file, std::ios::binary);
  const std::string text(std::istreambuf_iterator<char>(in), {});
  CHECK(text == words::calendar(first, "2026-05-02T12:00:00Z"));
  CHECK(counter.run({"due", "--calendar", "due.txt"}) ==
        "nonrunner: due: --calendar: found \"due.txt\", expected a name that ends in .ics; see: nonrunner "
        "due --help\n");
}
