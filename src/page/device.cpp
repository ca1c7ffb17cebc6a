// What is on this device and not in the book yet. The page itself holds nothing of the book: the script fills the list
// from what the browser keeps, so that it opens with the house out of reach as well.
#include "page/frame.h"
#include "page/rooms.h"

namespace nonrunner::page {

Answer rooms::device(Visit& visit) {
  Answer answer = page(
      visit, "On this device",
      html("<p class=\"reason\" id=\"device-none\" hidden>Everything that was kept here is in the book.</p>\n"
           "<ol id=\"device\"></ol>\n"
           "<noscript><p class=\"reason\">Without its script this browser keeps nothing back: what was "
           "posted is in "
           "the book, or was refused with its reason.</p></noscript>\n"
           "<p class=\"choices\" id=\"device-save\" hidden></p>\n"
           "<p id=\"away\" class=\"small\"></p>\n"
           "<p class=\"small\">What is kept on this device is written down here first and sent when the "
           "house is in "
           "reach. Clearing this browser's data throws it away; send it before.</p>\n"));
  answer.is_shell = true;
  return answer;
}

}  // namespace nonrunner::page
