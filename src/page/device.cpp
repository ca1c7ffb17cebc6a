// What is on this device and not in the book yet. The page itself holds nothing of the book: the script fills the list
// from what the browser keeps, so that it opens with the house out of reach as well.
#include "book/ledger/kept.h"
#include "page/files.h"
#include "page/frame.h"
#include "page/rooms.h"
#include "words/entered.h"

namespace nonrunner::page {

Answer rooms::device(Visit& visit) {
  Answer answer = page(
      visit, "On this device",
      html("<p class=\"reason\" id=\"device-none\" hidden>Everything that was kept here is in the book.</p>\n"
           "<ol id=\"device\"></ol>\n"
           "<noscript><p class=\"reason\">Without its script this browser keeps nothing back: what was "
           "posted is in "
           "the book, or was refused with its reason.</p></noscript>\n"
           "<div id=\"device-clock\" class=\"ask\" hidden></div>\n"
           "<details class=\"detail\"><summary>As a file</summary>\n<p class=\"small\">Where this device "
           "cannot reach the "
           "house any more: saved here, taken in on another device that is paired. Sent twice it is in the "
           "book once.</p>\n"
           "<p class=\"choices\"><button type=\"button\" id=\"device-save\">Save as a file</button></p>\n"
           "<label><span>a file of another device</span> <input type=\"file\" id=\"device-file\" "
           "accept=\".json,application/json\"></label>\n<p id=\"device-taken\" "
           "role=\"status\"></p>\n</details>\n"
           "<p id=\"away\" class=\"small\"></p>\n"
           "<p class=\"small\">What is kept on this device is written down here first and sent when the "
           "house is in "
           "reach. Clearing this browser's data throws it away; send it before.</p>\n"
           "<script src=\"{}\" defer></script>\n",
           web_path("device.js")));
  answer.is_shell = true;
  return answer;
}

// A book that was restored from an older copy lacks what came in since: the device that kept it sends it again.
Answer rooms::known(Visit& visit) {
  std::vector<std::string> missing;
  for (const auto& [name, id] : visit.request.query.fields)
    if (name == "id" && book::is_kept_id(id) && !book::kept_as(visit.book, id)) missing.push_back(id);
  Answer answer;
  answer.type = "application/json";
  answer.body = words::missing_as_json(missing, visit.now, visit.today);
  return answer;
}

}  // namespace nonrunner::page
