#include "book/ledger/details.h"

namespace nonrunner::book {

const std::string& text_in(const Detail& detail, std::size_t cell) {
  return std::get<std::string>(detail.cells[cell]);
}

std::int64_t number_in(const Detail& detail, std::size_t cell) {
  return std::get<std::int64_t>(detail.cells[cell]);
}

std::vector<std::string> mentioned_in(const Entry& entry) {
  std::vector<std::string> vehicles;
  const std::size_t mention = detail_table("mention");
  for (const Detail& detail : entry.details)
    if (detail.table == mention) vehicles.push_back(text_in(detail, cells::mention::vehicle));
  return vehicles;
}

}  // namespace nonrunner::book
