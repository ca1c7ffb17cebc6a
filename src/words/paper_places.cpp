#include "words/paper_places.h"

#include <fmt/format.h>

namespace nonrunner::words {

std::string in_words(const answers::PiecesApart& each) {
  return fmt::format("{}: {} for {} planned on {}", each.name, each.bought.shown(), each.planned.shown(),
                     each.tag);
}

std::string in_words(const std::vector<answers::StillOpen>& lines, const Currency& currency) {
  std::string text;
  for (const answers::StillOpen& line : lines)
    text +=
        fmt::format("{}{} {} ({})", text.empty() ? "" : "; ", line.number, line.name,
                    line.is_work ? fmt::format("{:.1f} h", line.to_come) : line.if_needed.shown(currency));
  return text;
}

std::vector<std::string> in_words(const answers::MadeReady& ready, const Currency& currency,
                                  const std::string& reopen) {
  std::vector<std::string> said;
  if (!ready.closed.empty())
    said.push_back(fmt::format("it is ready with that, and nothing more of these is to come: {}{}",
                               in_words(ready.closed, currency), reopen));
  for (const std::string& fault : ready.nothing_booked)
    said.push_back("it has to be put right before it is sold, and nothing is booked on it: " + fault);
  return said;
}

}  // namespace nonrunner::words
