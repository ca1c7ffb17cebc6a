#include "page/frame.h"

#include <sys/random.h>

#include <array>
#include <cctype>

#include "exact/ends.h"
#include "page/files.h"

namespace nonrunner::page {

namespace {

struct Way {
  const char* path;
  const char* words;
};
constexpr std::array<Way, 10> ways{{{"/", "Cars"},
                                    {"/receipt", "Receipt"},
                                    {"/hours", "Hours"},
                                    {"/tray", "Tray"},
                                    {"/away", "Away"},
                                    {"/due", "Due"},
                                    {"/shopping", "Shopping"},
                                    {"/seller", "Seller"},
                                    {"/entries", "Entries"},
                                    {"/year", "Year"}}};

Html way_between(const Visit& visit) {
  Html links;
  for (const Way& way : ways) {
    const bool here = visit.request.path == way.path;
    links += here ? html("<a href=\"{}\" aria-current=\"page\">{}</a>\n", way.path, way.words)
                  : html("<a href=\"{}\">{}</a>\n", way.path, way.words);
  }
  return html("<nav class=\"way\" aria-label=\"rooms\">\n{}</nav>\n", links);
}

}  // namespace

Answer see_other(std::string location) {
  Answer answer;
  answer.status = 303;
  answer.location = std::move(location);
  return answer;
}

Html folded(const std::string& summary, const Html& content) {
  return html("<details class=\"detail\"><summary>{}</summary>\n{}</details>\n", summary, content);
}

std::string fresh_id() {
  std::array<unsigned char, 16> bytes{};
  if (getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size()))
    throw MachineFailure("the machine gives no random numbers; nothing was recorded");
  std::string text;
  for (const unsigned char byte : bytes) {
    constexpr std::string_view digits = "0123456789abcdef";
    text += digits[byte >> 4];
    text += digits[byte & 15];
  }
  return text;
}

Answer page(const Visit& visit, const std::string& title, const Html& content, bool own_heading) {
  const Html heading = own_heading ? Html() : html("<h1>{}</h1>\n", title);
  Answer answer;
  answer.body =
      html(
          "<!doctype html>\n<html lang=\"en\" data-as-of=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
          "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
          "<title>{} - Nonrunner</title>\n<link rel=\"icon\" href=\"{}\">\n"
          "<link rel=\"stylesheet\" href=\"{}\">\n<script src=\"{}\" "
          "defer></script>\n</head>\n<body>\n<header>\n{}"
          "<p class=\"held\" role=\"status\"></p>\n</header>\n<main>\n{}{}</main>\n</body>\n</html>\n",
          visit.now, title, web_path("icon.svg"), web_path("style.css"), web_path("page.js"),
          way_between(visit), heading, content)
          .text();
  return answer;
}

Html form(const std::string& action, const Html& fields, const std::string& button) {
  return html(
      "<form method=\"post\" action=\"{}\" data-kept>\n<input type=\"hidden\" name=\"kept\" value=\"{}\">\n{}"
      "<button>{}</button>\n</form>\n",
      action, fresh_id(), fields, button);
}

Html form_again(const std::string& action, const Form& before, const Html& fields) {
  return html("<form method=\"post\" action=\"{}\" data-kept>\n{}{}<button>Keep</button>\n</form>\n", action,
              hidden("kept", before.get("kept").empty() ? fresh_id() : before.get("kept")), fields);
}

Html hidden(const std::string& name, const std::string& value) {
  return html("<input type=\"hidden\" name=\"{}\" value=\"{}\">\n", name, value);
}

Html required(Need need) { return need == Need::must ? html(" required") : Html(); }

Html field(const std::string& name, const std::string& label, const std::string& value,
           const std::string& type, const std::string& hint, Need need) {
  const Html below = hint.empty() ? Html() : html(" <small class=\"small\">{}</small>", hint);
  return html(
      "<label><span>{}</span> <input name=\"{}\" type=\"{}\" value=\"{}\" "
      "autocomplete=\"off\"{}>{}</label>\n",
      label, name, type, value, required(need), below);
}

Html money_field(const std::string& name, const std::string& label, const std::string& value, Need need) {
  return html(
      "<label><span>{}</span> <input name=\"{}\" type=\"text\" inputmode=\"decimal\" value=\"{}\" "
      "autocomplete=\"off\"{}></label>\n",
      label, name, value, required(need));
}

Html choice(const std::string& name, const std::string& label,
            const std::vector<std::pair<std::string, std::string>>& values, const std::string& chosen) {
  Html options;
  // Where it is what is read, its value is not said twice: a paper has many of them.
  for (const auto& [value, words] : values)
    options += (value == words ? html("<option") : html("<option value=\"{}\"", value)) +
               (value == chosen ? html(" selected>{}</option>", words) : html(">{}</option>", words));
  return html("<label><span>{}</span> <select name=\"{}\">{}</select></label>\n", label, name, options);
}

Html one_of(const std::string& name, const std::string& label,
            const std::vector<std::pair<std::string, std::string>>& values, const std::string& chosen) {
  Html options;
  for (const auto& [value, words] : values)
    options +=
        value == chosen
            ? html(
                  "<label class=\"tick\"><input type=\"radio\" name=\"{}\" value=\"{}\" checked> "
                  "{}</label>\n",
                  name, value, words)
            : html("<label class=\"tick\"><input type=\"radio\" name=\"{}\" value=\"{}\"> {}</label>\n", name,
                   value, words);
  return html("<fieldset>\n<legend>{}</legend>\n{}</fieldset>\n", label, options);
}

namespace {

// "2026-05-02", with its weekday or without
bool is_day(const Html& cell) {
  const std::string& text = cell.text();
  return text.size() >= 10 && text[4] == '-' && text[7] == '-' && text.find_first_not_of("0123456789-") >= 10;
}

bool is_figure(const Html& cell) {
  const std::string& text = cell.text();
  return !text.empty() && !is_day(cell) &&
         (text.front() == '-' || std::isdigit(static_cast<unsigned char>(text.front())) != 0);
}

// Headings stand over their figures: to the right where a cell of the column is one.
Html headings_of(const std::vector<std::string>& headings, const std::vector<std::vector<Html>>& rows) {
  Html head;
  for (std::size_t i = 0; i < headings.size(); ++i) {
    bool figures = false;
    for (const std::vector<Html>& row : rows)
      figures = figures || (i > 0 && i < row.size() && is_figure(row[i]));
    head += headings[i].empty() ? html("<td></td>")  // nothing to be read out over a column of remarks
            : figures           ? html("<th scope=\"col\" class=\"number\">{}</th>", headings[i])
                                : html("<th scope=\"col\">{}</th>", headings[i]);
  }
  return head;
}

}  // namespace

Html table(const std::string& caption, const std::vector<std::string>& headings,
           const std::vector<std::vector<Html>>& rows) {
  Html body;
  for (const std::vector<Html>& row : rows) {
    Html cells;
    for (std::size_t i = 0; i < row.size(); ++i) {
      const std::string heading = i < headings.size() ? headings[i] : "";
      cells += i == 0              ? html("<th scope=\"row\">{}</th>", row[i])
               : is_figure(row[i]) ? html("<td class=\"number\" data-heading=\"{}\">{}</td>", heading, row[i])
               : is_day(row[i])    ? html("<td class=\"day\" data-heading=\"{}\">{}</td>", heading, row[i])
                                   : html("<td data-heading=\"{}\">{}</td>", heading, row[i]);
    }
    body += html("<tr>{}</tr>\n", cells);
  }
  // Beyond three columns a phone shows each row as a block, its cells beside their headings.
  return html(
      "<table class=\"{}\">\n<caption>{}</caption>\n<thead><tr>{}</tr></thead>\n<tbody>\n{}</tbody>\n"
      "</table>\n",
      headings.size() > 3 ? "rows many" : "rows", caption, headings_of(headings, rows), body);
}

std::string path_of(std::string_view before, std::string_view part, std::string_view after) {
  std::string path(before);
  for (const char c : part) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0 || c == '-' || c == '.' || c == '_' || c == '~') {
      path += c;
      continue;
    }
    constexpr std::string_view digits = "0123456789ABCDEF";
    path += '%';
    path += digits[byte >> 4];
    path += digits[byte & 15];
  }
  return path.append(after);
}

}  // namespace nonrunner::page
