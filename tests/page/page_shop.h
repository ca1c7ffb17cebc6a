// A shop whose book is asked through the page, without the network: each call takes its road of the table as the
// network's side would, and gives what the room answers.
#pragma once
#include <cstdlib>
#include <ctime>
#include <string>
#include <utility>
#include <vector>

#include "book/fixture.h"
#include "page/visit.h"

namespace nonrunner::page {

using Fields = std::vector<std::pair<std::string, std::string>>;

struct PageShop : book::Shop {
  // Times are said by the machine's clock on the wall.
  PageShop() {
    setenv("TZ", "UTC", 1);
    tzset();
  }
  std::string device = "kitchen phone", person = "me";

  // "/receipt?car=pip": what stands behind the question mark is the query, as it is encoded there.
  Answer get(const std::string& path);
  Answer post(const std::string& path, const Fields& form);
  Answer put(const std::string& path, const Fields& form);  // asks for JSON
  Answer put_photo(const std::string& path, const std::string& bytes, const std::string& type = "image/jpeg");
  using book::Shop::post;  // events

  // The event that the entry keeps, whole; "" where there is none.
  std::string event_of(book::EntryId);
  book::EntryId last();

 private:
  Answer ask(Request);
};

// What a person reads of a page, a line for each thing that stands alone: without tags, with the label before
// each field, "[Keep]" for a button, "<words -> /path>" for a link; without the way between the rooms.
std::string read_aloud(const Answer&);

}  // namespace nonrunner::page
