#include "page/page_shop.h"

#include <fstream>
#include <set>

#include "book/ledger/entry.h"

namespace nonrunner::page {

Answer PageShop::ask(Request request) {
  const std::size_t mark = request.path.find('?');
  if (mark != std::string::npos) {
    request.query = Form::read(request.path.substr(mark + 1));
    request.path.erase(mark);
  }
  request.device = device;
  request.person = person;
  Visit visit{book(), request, today, now, {}};
  bool known = false;
  const Road* road = road_of(request.method, request.path, visit.stars, known);
  INFO(request.method << " " << request.path);
  REQUIRE(road != nullptr);
  return answer(*road, visit);
}

Answer PageShop::get(const std::string& path) {
  Request request;
  request.method = "GET";
  request.path = path;
  return ask(std::move(request));
}

Answer PageShop::post(const std::string& path, const Fields& form) {
  Request request;
  request.method = "POST";
  request.path = path;
  request.form.fields = form;
  return ask(std::move(request));
}

Answer PageShop::put(const std::string& path, const Fields& form) {
  Request request;
  request.method = "PUT";
  request.path = path;
  request.form.fields = form;
  request.wants_json = true;
  return ask(std::move(request));
}

Answer PageShop::put_photo(const std::string& path, const std::string& bytes, const std::string& type) {
  Request request;
  request.method = "PUT";
  request.path = path;
  request.uploaded = folder() / "upload";
  request.media_type = type;
  request.wants_json = true;
  std::ofstream(request.uploaded, std::ios::binary) << bytes;
  Answer answered = ask(request);
  std::filesystem::remove(request.uploaded);
  return answered;
}

book::EntryId PageShop::last() { return book::last_entry(book()); }

std::string PageShop::event_of(book::EntryId entry) {
  return entry == 0 ? "" : book::load_entry(book(), entry).event;
}

namespace {

std::string attribute(const std::string& tag, const std::string& name) {
  const std::size_t at = tag.find(" " + name + "=\"");
  if (at == std::string::npos) return "";
  const std::size_t begin = at + name.size() + 3;
  return tag.substr(begin, tag.find('"', begin) - begin);
}

std::string plain(std::string text) {
  static const std::pair<const char*, const char*> marks[] = {
      {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}, {"&amp;", "&"}};
  for (const auto& [mark, stands_for] : marks)
    for (std::size_t at = 0; (at = text.find(mark, at)) != std::string::npos; ++at)
      text.replace(at, std::string(mark).size(), stands_for);
  return text;
}

// What is read of a tag in place of it.
std::string read_tag(const std::string& tag, const std::string& name) {
  if (name == "input") {
    const std::string type = attribute(tag, "type");
    if (type == "hidden") return "";
    if (type == "checkbox" || type == "radio")
      return tag.find(" checked") != std::string::npos ? "[x]" : "[ ]";
    return "[" + attribute(tag, "value") + "]";
  }
  if (name == "option") return tag.find(" selected") != std::string::npos ? " *" : " ";
  if (name == "button") return "[";
  if (name == "/button") return "]";
  if (name == "img") return "(" + attribute(tag, "alt") + ")";
  if (name == "/td" || name == "/th") return " | ";
  if (name == "/dt") return ": ";
  static const std::set<std::string> lines{"p",       "/p",    "h1",       "/h1",    "h2",     "/h2",
                                           "li",      "tr",    "/tr",      "label",  "/label", "form",
                                           "main",    "/form", "ul",       "legend", "figure", "caption",
                                           "summary", "div",   "/summary", "br",     "dt",     "/dd"};
  return lines.count(name) == 1 ? "\n" : "";
}

std::string tidy(const std::string& text) {
  std::string all, line;
  const auto end_line = [&] {
    while (!line.empty() && (line.back() == ' ' || line.back() == '|')) line.pop_back();
    if (!line.empty()) all += line + "\n";
    line.clear();
  };
  for (const char c : text) {
    if (c == '\n')
      end_line();
    else if (c != ' ' || (!line.empty() && line.back() != ' '))
      line += c;
  }
  end_line();
  return all;
}

}  // namespace

std::string read_aloud(const Answer& answer) {
  const std::string& body = answer.body;
  std::string text, link;
  const std::size_t main = body.find("<main>");
  for (std::size_t at = main == std::string::npos ? 0 : main; at < body.size();) {
    const std::size_t open = std::min(body.find('<', at), body.size());
    std::string words = body.substr(at, open - at);
    for (char& c : words)
      if (c == '\n') c = ' ';
    text += plain(words);
    if (open == body.size()) break;
    const std::size_t close = body.find('>', open);
    const std::string tag = body.substr(open + 1, close - open - 1);
    const std::string name = tag.substr(0, tag.find_first_of(" \n"));
    if (name == "a") {
      link = plain(attribute(tag, "href"));
      text += "<";
    } else if (name == "/a") {
      text += " -> " + link + ">";
    } else {
      text += plain(read_tag(tag, name));
    }
    at = close + 1;
  }
  return tidy(text);
}

}  // namespace nonrunner::page
