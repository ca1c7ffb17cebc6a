#include "page/request.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "exact/ends.h"
#include "text/typed_numbers.h"
#include "text/unicode.h"

namespace nonrunner::page {

namespace {

constexpr std::size_t most_fields = 2000, longest_name = 200;

// A percent sign that no two hexadecimal digits follow stands for itself.
std::string decoded(std::string_view part) {
  std::string text;
  text.reserve(part.size());
  for (std::size_t i = 0; i < part.size(); ++i) {
    if (part[i] == '+') {
      text += ' ';
    } else if (part[i] == '%' && i + 2 < part.size() && hexadecimal(part[i + 1]) >= 0 &&
               hexadecimal(part[i + 2]) >= 0) {
      text += static_cast<char>(hexadecimal(part[i + 1]) * 16 + hexadecimal(part[i + 2]));
      i += 2;
    } else {
      text += part[i];
    }
  }
  return text;
}

std::string encoded_part(std::string_view part) {
  std::string text;
  for (const char c : part) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0 || c == '*' || c == '-' || c == '.' || c == '_')
      text += c;
    else if (c == ' ')
      text += '+';
    else
      text += fmt::format("%{:02X}", byte);
  }
  return text;
}

}  // namespace

Form Form::read(std::string_view encoded) {
  Form form;
  while (!encoded.empty()) {
    const std::size_t end = std::min(encoded.find('&'), encoded.size());
    const std::string_view pair = encoded.substr(0, end);
    encoded.remove_prefix(std::min(end + 1, encoded.size()));
    if (pair.empty()) continue;
    if (form.fields.size() == most_fields)
      throw Refusal(fmt::format("form: found more than {} fields, expected fewer", most_fields));
    const std::size_t equals = pair.find('=');
    std::string name = decoded(pair.substr(0, equals));
    std::string value = equals == std::string_view::npos ? "" : decoded(pair.substr(equals + 1));
    if (name.size() > longest_name)
      throw Refusal(
          fmt::format("form: found a name of {} bytes, expected at most {}", name.size(), longest_name));
    if (broken_utf8(name) || broken_utf8(value))
      throw Refusal("form: found what is not UTF-8, expected text");
    form.fields.emplace_back(std::move(name), std::move(value));
  }
  return form;
}

std::string Form::encoded() const {
  std::string text;
  for (const auto& [name, value] : fields)
    text += (text.empty() ? "" : "&") + encoded_part(name) + "=" + encoded_part(value);
  return text;
}

bool Form::has(std::string_view name) const {
  return std::any_of(fields.begin(), fields.end(), [&](const auto& each) { return each.first == name; });
}

std::string Form::get(std::string_view name) const {
  for (const auto& [key, value] : fields)
    if (key == name) {
      constexpr std::string_view blank = " \t\r\n";
      const auto begin = value.find_first_not_of(blank);
      return begin == std::string::npos ? "" : value.substr(begin, value.find_last_not_of(blank) + 1 - begin);
    }
  return "";
}

void Form::set(std::string_view name, std::string value) {
  for (auto& [key, old] : fields)
    if (key == name) {
      old = std::move(value);
      return;
    }
  fields.emplace_back(std::string(name), std::move(value));
}

}  // namespace nonrunner::page
