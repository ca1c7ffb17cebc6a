#include "book/events/out_of.h"

#include "book/events/fields.h"

namespace nonrunner::book {

void fields(OutOf& part, Fields& f) {
  f.text({"vehicle", "the car"}, Text::tag, part.vehicle);
  f.money({"amount", "how much of it"}, part.amount);
}

}  // namespace nonrunner::book
