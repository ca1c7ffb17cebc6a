// What stands under a key of an event: from this a form knows which field to show, a command line what to call it and how
// to read it. How the reference says it is `kind` beside it, in words.
#pragma once

namespace nonrunner::book {

enum class Holds {
  text,
  day,
  money,
  price,
  quantity,
  hours,
  distance,
  flag,
  entry,     // the number of one
  fraction,  // of the price
  texts,     // a list
  amounts,   // a table of purses with money, or one name that stands for all
  shares,    // a table of cars with weights
  rows,      // a list of tables
};

}  // namespace nonrunner::book
