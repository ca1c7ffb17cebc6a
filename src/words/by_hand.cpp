#include "words/by_hand.h"

namespace nonrunner::words {

using Figure = answers::Changeable::Figure;

std::string about(const answers::Changeable& figure) {
  switch (figure.figure) {
    case Figure::asking:
    case Figure::fees:
      return "the price";
    case Figure::sound:
      return "what it sells for";
    case Figure::hour:
    case Figure::holding:
      return "the shop";
    case Figure::odds:
      return "odds before the tests";
    case Figure::chance:
      return "chance of a trouble before the tests";
    case Figure::as_found:
      return "what it sells for as found";
    case Figure::hours:
    case Figure::price:
    case Figure::sent_out:
      return figure.correction;
  }
  return "";
}

std::string what(const answers::Changeable& figure) {
  switch (figure.figure) {
    case Figure::asking:
      return "price asked";
    case Figure::fees:
      return "fees of the purchase";
    case Figure::sound:
      return "a sound one";
    case Figure::hour:
      return "an own hour has to earn";
    case Figure::holding:
      return "a day costs";
    case Figure::odds:
    case Figure::chance:
    case Figure::as_found:
    case Figure::sent_out:
      return figure.what;
    case Figure::hours:
      return figure.what + ", hours";
    case Figure::price:
      return figure.what + (figure.source.empty() ? "" : ", " + figure.source) + ", each";
  }
  return "";
}

}  // namespace nonrunner::words
