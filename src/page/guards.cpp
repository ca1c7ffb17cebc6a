#include "page/guards.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "exact/ends.h"
#include "text/typed_numbers.h"
#include "text/unicode.h"

namespace nonrunner::page {

bool reads(const Head& head) { return head.method == "GET" || head.method == "HEAD"; }

namespace {

using namespace std::literals;

bool among(const std::vector<std::string>& all, const std::string& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

bool from_elsewhere(const Head& head) {
  if (head.site.empty() || head.site == "same-origin" || head.site == "none") return false;
  return !(reads(head) && head.mode == "navigate");
}

bool has_own_origin(const Head& head, const Ours& ours) {
  if (head.origins.size() != 1) return false;
  return std::any_of(ours.hosts.begin(), ours.hosts.end(), [&](const std::string& host) {
    return head.origins.front() == ours.scheme + "://" + host;
  });
}

// A part of a path. What is written as %2F is no divider: it becomes a character that no road has.
std::string decoded_path(std::string_view path) {
  std::string text;
  for (std::size_t i = 0; i < path.size(); ++i) {
    if (path[i] != '%') {
      text += path[i];
      continue;
    }
    const int high = i + 2 < path.size() ? hexadecimal(path[i + 1]) : -1;
    const int low = i + 2 < path.size() ? hexadecimal(path[i + 2]) : -1;
    if (high < 0 || low < 0)
      throw Refusal("address: found a % that no two hexadecimal digits follow, expected them");
    const char c = static_cast<char>(high * 16 + low);
    text += c == '/' ? "\xef\xbf\xbd"s : std::string(1, c);
    i += 2;
  }
  return text;
}

}  // namespace

Ours ours_of(const std::string& scheme, const std::string& address, int port) {
  const bool six = address.find(':') != std::string::npos;
  const bool usual = port == (scheme == "https" ? 443 : 80);
  const auto with_port = [&](const std::string& host) {
    return usual ? host : fmt::format("{}:{}", host, port);
  };
  Ours ours{scheme, {with_port(six ? "[" + address + "]" : address)}};
  if (address == "127.0.0.1" || address == "::1") ours.hosts.push_back(with_port("localhost"));
  return ours;
}

std::optional<Refused> guard(const Head& head, const Ours& ours, const Limits& limits) {
  if (head.version != 11) return Refused{505, "expected HTTP/1.1"};
  if (head.hosts.size() != 1 || !among(ours.hosts, head.hosts.front()))
    return Refused{421, "this is not the house that was asked for"};
  if (!reads(head) && head.method != "POST" && head.method != "PUT")
    return Refused{405, "nothing here is asked for so"};
  if (head.target.empty() || head.target.front() != '/')
    return Refused{421, "this is not the house that was asked for"};
  if (head.target.size() > limits.target) return Refused{414, "the address is too long"};
  if (from_elsewhere(head)) return Refused{403, "another site's page asks"};
  if (!reads(head) && !has_own_origin(head, ours)) return Refused{403, "another site's page asks"};
  if (!head.coding.empty() && head.coding != "identity") return Refused{415, "what is sent is packed"};
  return std::nullopt;
}

void read_target(const std::string& target, Request& request) {
  const std::size_t mark = std::min(target.find('?'), target.size());
  request.path = decoded_path(std::string_view(target).substr(0, mark));
  if (broken_utf8(request.path) || unseen(request.path))
    throw Refusal("address: found what is no text, expected the address of a page");
  if (mark < target.size()) request.query = Form::read(std::string_view(target).substr(mark + 1));
}

std::string cookie_name(int port) { return fmt::format("nonrunner-{}", port); }

std::string cookie_of(const Head& head, const std::string& name) {
  std::string value;
  int found = 0;
  for (const std::string& header : head.cookies) {
    std::string_view rest = header;
    while (!rest.empty()) {
      const std::size_t end = std::min(rest.find(';'), rest.size());
      std::string_view one = rest.substr(0, end);
      rest.remove_prefix(std::min(end + 1, rest.size()));
      while (one.starts_with(' ')) one.remove_prefix(1);
      if (one.size() <= name.size() || !one.starts_with(name) || one[name.size()] != '=') continue;
      value = one.substr(name.size() + 1);
      ++found;
    }
  }
  return found == 1 ? value : "";
}

bool Pace::goes(const std::string& device, double now) {
  Left& left = of_.try_emplace(device, Left{a_second_, now}).first->second;
  left.left = std::min(a_second_, left.left + (now - left.at) * a_second_);
  left.at = now;
  if (left.left < 1) return false;
  left.left -= 1;
  return true;
}

std::string photo_type(std::string_view bytes) {
  if (bytes.starts_with("\xff\xd8\xff"sv)) return "image/jpeg";
  if (bytes.starts_with("\x89PNG\r\n\x1a\n"sv)) return "image/png";
  if (bytes.size() >= 12 && bytes.starts_with("RIFF"sv) && bytes.substr(8, 4) == "WEBP"sv)
    return "image/webp";
  return "";
}

}  // namespace nonrunner::page
