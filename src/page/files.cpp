#include "page/files.h"

#include <algorithm>
#include <array>

#include "book/events/attach.h"
#include "page/web.h"

namespace nonrunner::page {

namespace {

// In this order they make page.js: what is used stands before what uses it, and the last begins.
constexpr std::array<std::string_view, 7> scripts{"photo.js", "store.js", "proof.js", "outbox.js",
                                                  "clock.js", "paper.js", "page.js"};

std::string type_of(std::string_view name) {
  if (name.ends_with(".css")) return "text/css; charset=utf-8";
  if (name.ends_with(".js")) return "text/javascript; charset=utf-8";
  if (name.ends_with(".svg")) return "image/svg+xml";
  return "text/plain; charset=utf-8";
}

const std::string& part(std::string_view name) {
  for (const WebPart& each : web_parts())
    if (each.name == name) return each.text;
  static const std::string none;
  return none;
}

WebFile file_of(const std::string& name, const std::string& text) {
  return {name, text, type_of(name), "/" + name + "?" + book::sha256_of(text).substr(0, 8)};
}

// Without what only its authors read: blanks at the beginning of lines, empty lines, lines that are comments, and what
// stands two blanks behind a line. A comment of the style sheet begins and ends on lines of its own.
std::string without_comments(const std::string& text) {
  std::string out;
  bool inside = false;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    const std::size_t first = std::min(text.find_first_not_of(' ', at), end);
    std::string_view line(text.data() + first, end - first);
    if (const std::size_t behind = line.find("  // "); behind != std::string_view::npos)
      line = line.substr(0, behind);
    at = end + 1;
    inside = inside || line.starts_with("/*");
    if (!inside && !line.empty() && !line.starts_with("//")) out.append(line).push_back('\n');
    if (inside && line.ends_with("*/")) inside = false;
  }
  return out;
}

std::vector<WebFile> made() {
  std::vector<WebFile> files;
  std::string joined = "'use strict';\n";
  for (const std::string_view name : scripts) joined += without_comments(part(name));
  files.push_back(file_of("page.js", joined));
  for (const WebPart& each : web_parts())
    if (std::find(scripts.begin(), scripts.end(), each.name) == scripts.end())
      files.push_back(file_of(each.name, without_comments(each.text)));
  return files;
}

}  // namespace

const std::vector<WebFile>& web_files() {
  static const std::vector<WebFile> all = made();
  return all;
}

const WebFile* web_file(std::string_view path) {
  if (!path.starts_with('/')) return nullptr;
  path.remove_prefix(1);
  for (const WebFile& file : web_files())
    if (file.name == path) return &file;
  return nullptr;
}

std::string web_path(std::string_view name) {
  std::string path = "/";
  path += name;
  const WebFile* file = web_file(path);
  return file == nullptr ? path : file->path;
}

Answer file_answer(std::string_view path) {
  Answer answer;
  const WebFile* file = web_file(path);
  if (file == nullptr) {
    answer.status = 404;
    answer.type = "text/plain; charset=utf-8";
    answer.body = "there is no such page\n";
    return answer;
  }
  answer.type = file->type;
  answer.body = file->text;
  answer.is_shell = true;
  answer.is_fixed = true;
  return answer;
}

Answer rooms::file(Visit& visit) { return file_answer(visit.request.path); }

}  // namespace nonrunner::page
