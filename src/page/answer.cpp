#include <exception>

#include "page/frame.h"
#include "page/hints.h"
#include "page/visit.h"
#include "words/ending.h"
#include "words/entered.h"

namespace nonrunner::page {

namespace {

int status_of(words::Ending::Kind kind) {
  switch (kind) {
    case words::Ending::Kind::refused:
      return 422;
    case words::Ending::Kind::wrong_usage:
      return 400;
    case words::Ending::Kind::failed:
      return 500;
  }
  return 500;
}

}  // namespace

Answer answer(const Road& road, Visit& visit) {
  try {
    return road.room(visit);
  } catch (...) {
    const words::Ending ending = words::ending_of(std::current_exception(), visit.book.path());
    Answer answer;
    if (visit.request.wants_json) {
      answer.type = "application/json";
      answer.body = words::entered_as_json("refused", 0, ending.message);
    } else {
      const Html way = ending.hint ? way_on(*ending.hint) : Html();
      answer = page(visit, ending.kind == words::Ending::Kind::failed ? "It failed" : "That does not go",
                    html("<p class=\"reason\" role=\"alert\">{}</p>\n{}", ending.message, way));
    }
    answer.status = status_of(ending.kind);
    return answer;
  }
}

}  // namespace nonrunner::page
