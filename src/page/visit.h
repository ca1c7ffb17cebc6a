// One request in one open book: what every room of the page is handed.
#pragma once
#include <string>
#include <vector>

#include "book/ledger/book.h"
#include "page/request.h"

namespace nonrunner::page {

struct Visit {
  book::Book& book;
  const Request& request;
  Day today;                       // the shop's
  std::string now;                 // ISO 8601, UTC
  std::vector<std::string> stars;  // what stood in the road's stars, in their order: {"pip"}
  const std::string& tag() const { return stars.front(); }
};

// A road of the fixed table (roads.cpp). In its path "*" is one part of anything but "/": "/car/*/job".
struct Road {
  const char* method;  // GET or POST or PUT
  const char* path;
  Answer (*room)(Visit&);
  enum class Body { none, form, photo } body = Body::none;
  bool slow =
      false;  // takes longer than a screen may wait: a workbook, a large appraisal; apart from the others
};
const std::vector<Road>& roads();
// The road that the request takes; nullptr: 404, or 405 where only the method is another (`path_known`).
const Road* road_of(const std::string& method, const std::string& path, std::vector<std::string>& stars,
                    bool& path_known);

// What the room answers; a Refusal or another end becomes a page (or JSON, where asked for) with its one line
// and a way on.
Answer answer(const Road&, Visit&);

}  // namespace nonrunner::page
