#include "resale/keys.h"

namespace nonrunner::resale {

const FileTable& comparable_keys() {
  static const FileTable table = {
      "comparable",
      "[[comparable]]",
      "a similar car that was seen",
      {{"price", true, "an amount above 0"},
       {"kind", true, "\"asking\" or \"sold\"; asking prices count at what [sale] realised gets of them"},
       {"odometer", true, "what it stands at"},
       {"year", true, "of the model, 1886 to 2200"},
       {"grade", false, "1 rough to 5 spotless; else 3"},
       {"date", false, "the day on which it was seen"},
       {"note", false, "words"},
       {"book", false, "its number, where the book put it in"}}};
  return table;
}

const FileTable& slope_keys() {
  static const FileTable table = {
      "slopes",
      "[value.slopes]",
      "what is believed before any row is seen; or slopes = \"flat\"",
      {{"odometer", false, "share of the median price for each 10,000 more, give or take; or \"flat\""},
       {"year", false, "the same for each year younger"},
       {"grade", false, "the same for each grade better"},
       {"spread", false,
        "of single cars about the line: share of the price, counting as so many cars; or \"flat\""}}};
  return table;
}

}  // namespace nonrunner::resale
