#include "words/calendar.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/events/attach.h"
#include "book/ledger/seal_of.h"
#include "book/questions/figures.h"
#include "words/due.h"

namespace nonrunner::words {

namespace {

// A value of the type TEXT (section 3.3.11).
std::string as_text(const std::string& words) {
  std::string text;
  for (const char c : words) {
    if (c == '\\' || c == ';' || c == ',') text += '\\';
    if (c == '\n')
      text += "\\n";
    else if (c != '\r')
      text += c;
  }
  return text;
}

// A content line (section 3.1): at most 75 octets, what goes on begins with a blank on the next.
std::string line(const std::string& content) {
  std::string folded;
  std::size_t octets = 0;
  for (std::size_t at = 0; at < content.size();) {
    std::size_t size = 1;
    while (at + size < content.size() && (static_cast<unsigned char>(content[at + size]) & 0xC0) == 0x80)
      ++size;
    if (octets + size > 75) {
      folded += "\r\n ";
      octets = 1;
    }
    folded += content.substr(at, size);
    octets += size;
    at += size;
  }
  return folded + "\r\n";
}

std::string digits_of(const std::string& iso) {
  std::string text = iso;
  std::erase_if(text, [](char c) { return c == '-' || c == ':'; });
  return text;
}

std::string event(const Reminder& each, const std::string& stamp) {
  return line("BEGIN:VEVENT") + line("UID:" + each.uid) + line("DTSTAMP:" + stamp) +
         line("DTSTART;VALUE=DATE:" + digits_of(each.by.iso())) +
         line("DTEND;VALUE=DATE:" + digits_of(each.by.plus(1).iso())) +
         line("SUMMARY:" + as_text(each.summary)) + line("DESCRIPTION:" + as_text(each.description)) +
         line("TRANSP:TRANSPARENT") + line("BEGIN:VALARM") + line("ACTION:DISPLAY") +
         line("DESCRIPTION:" + as_text(each.summary)) +
         // The day begins at midnight: 39 hours before that it is nine in the morning, two days before.
         line("TRIGGER:-P1DT15H") + line("END:VALARM") + line("END:VEVENT");
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

}  // namespace

std::vector<Reminder> reminders(const book::Book& book, Day today) {
  const Currency& c = book.currency();
  const std::string seal = book::seal_of(book, 1);
  const auto uid = [&](const std::string& kind, const std::string& name) {
    return kind + "-" + book::sha256_of(seal + "\n" + kind + "\n" + name).substr(0, 32) +
           "@nonrunner.invalid";
  };
  std::vector<Reminder> all;
  for (const book::Due& due : book::dues(book)) {
    if (!due.by) continue;
    std::string about = due.amount.shown(c) + " " + c.code + (due.from.empty() ? "" : " from " + due.from);
    if (!due.line.empty()) about += "\nline " + due.line;
    if (!due.vehicles.empty()) about += "\n" + joined(due.vehicles);
    all.push_back({uid("due", due.line.empty() ? called(due) : due.line), *due.by,
                   fmt::format("{}: {} {}", called(due), due.amount.shown(c), c.code), about});
  }
  for (const book::MayGoBack& each : book::may_go_back(book, today))
    all.push_back({uid("return", each.line), each.by,
                   fmt::format("may still go back: {}, {} {}", each.what, each.refund.shown(c), c.code),
                   fmt::format("{}\nline {}", each.supplier, each.line)});
  std::stable_sort(all.begin(), all.end(), [](const Reminder& a, const Reminder& b) { return a.by < b.by; });
  return all;
}

std::string calendar(const std::vector<Reminder>& all, const std::string& now) {
  std::string text = line("BEGIN:VCALENDAR") + line("VERSION:2.0") +
                     line("PRODID:-//nonrunner//last days//EN") + line("CALSCALE:GREGORIAN");
  for (const Reminder& each : all) text += event(each, digits_of(now));
  return text + line("END:VCALENDAR");
}

}  // namespace nonrunner::words
