#include "page/files.h"
#include "page/rooms.h"
#include "page/visit.h"

namespace nonrunner::page {

const std::vector<Road>& roads() {
  static const std::vector<Road> all{
      // entering
      {"POST", "/entry", rooms::enter, Road::Body::form},
      {"PUT", "/entry/*", rooms::take_in, Road::Body::form},
      {"PUT", "/entry/*/photo", rooms::keep_photo, Road::Body::photo},
      {"GET", "/photo/*", rooms::show_photo},
      {"POST", "/undo", rooms::undo, Road::Body::form},
      {"GET", "/", rooms::cars},
      {"GET", "/receipt", rooms::receipt},
      {"GET", "/hours", rooms::hours},
      {"GET", "/tray", rooms::tray},
      {"POST", "/tray", rooms::tray_answer, Road::Body::form},
      {"GET", "/paper/*", rooms::paper},
      {"GET", "/due", rooms::due},
      {"GET", "/due.ics", rooms::due_calendar},
      {"GET", "/shopping", rooms::shopping},
      {"GET", "/entries", rooms::entries},
      {"GET", "/correct/*", rooms::correct},
      {"POST", "/correct/*", rooms::put_right, Road::Body::form},
      {"GET", "/car/*/more", rooms::more},

      // deciding and selling
      {"GET", "/seller", rooms::seller},
      {"GET", "/seller/*", rooms::seller, Road::Body::none, true},
      {"GET", "/car/*", rooms::job},
      {"GET", "/take-along/*", rooms::take_along, Road::Body::none, true},
      {"GET", "/go-on/*", rooms::go_on},
      {"GET", "/sell/*", rooms::sell, Road::Body::none, true},
      {"GET", "/report/*", rooms::report},
      {"GET", "/year", rooms::year},
      {"GET", "/year/*", rooms::year},
      {"GET", "/workbook/*", rooms::workbook, Road::Body::none, true},
      {"GET", "/workbook/*/*", rooms::workbook, Road::Body::none, true},
      {"POST", "/seller/*", rooms::keep_appraisal, Road::Body::form, true},

      // what the page brings with it
      {"GET", "/style.css", rooms::file},
      {"GET", "/page.js", rooms::file},
      {"GET", "/icon.svg", rooms::file},
      {"GET", "/worker.js", rooms::file},
      {"GET", "/away.js", rooms::file},
      {"GET", "/device.js", rooms::file},
      {"GET", "/device", rooms::device},
      {"GET", "/away", rooms::away},
      {"GET", "/away.json", rooms::away_lists},
      {"GET", "/known", rooms::known},
  };
  return all;
}

namespace {

// Whether the path is the road's, and what stands in its stars.
bool leads(std::string_view road, std::string_view path, std::vector<std::string>& stars) {
  stars.clear();
  while (!road.empty() && !path.empty()) {
    if (road.front() == '*') {
      const std::string_view part = path.substr(0, path.find('/'));
      if (part.empty()) return false;
      stars.emplace_back(part);
      road.remove_prefix(1);
      path.remove_prefix(part.size());
    } else {
      if (road.front() != path.front()) return false;
      road.remove_prefix(1);
      path.remove_prefix(1);
    }
  }
  return road.empty() && path.empty();
}

}  // namespace

const Road* road_of(const std::string& method, const std::string& path, std::vector<std::string>& stars,
                    bool& path_known) {
  path_known = false;
  const std::string wanted = method == "HEAD" ? "GET" : method;
  for (const Road& road : roads())
    if (leads(road.path, path, stars)) {
      path_known = true;
      if (road.method == wanted) return &road;
    }
  return nullptr;
}

}  // namespace nonrunner::page
