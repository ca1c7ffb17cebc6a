#include "page/html.h"

namespace nonrunner::page {

Html safe(std::string_view text) {
  std::string out;
  out.reserve(text.size() + text.size() / 8);
  for (const char c : text) switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        if ((static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t') || c == 0x7f)
          out += "\xef\xbf\xbd";
        else
          out += c;
    }
  return Html(std::move(out));
}

Html filled(std::string_view pattern, const Html* const* parts, std::size_t count) {
  std::string out;
  std::size_t next = 0;
  for (std::size_t at = 0; at < pattern.size();) {
    const std::size_t hole = pattern.find("{}", at);
    out += pattern.substr(at, hole == std::string_view::npos ? hole : hole - at);
    if (hole == std::string_view::npos) break;
    if (next < count) out += parts[next++]->text();
    at = hole + 2;
  }
  return Html(std::move(out));
}

}  // namespace nonrunner::page
