// Text that may stand in a page. Only a literal of this program and safe() make it, so that what somebody
// typed cannot become markup: forgetting to escape does not compile.
//
//   html("<p class=\"car\">{}: {}</p>", tag, shown)      tag and shown are escaped, an Html part is not
//
// In a pattern each {} takes the next part; a number of parts that does not match does not compile. Attributes
// stand in double quotes; no part stands in a script or a style, since no page has either inline.
#pragma once
#include <array>
#include <concepts>
#include <string>
#include <string_view>
#include <vector>

namespace nonrunner::page {

class Html {
 public:
  Html() = default;
  const std::string& text() const { return text_; }
  bool empty() const { return text_.empty(); }
  Html& operator+=(const Html& more) {
    text_ += more.text_;
    return *this;
  }
  friend Html operator+(Html a, const Html& b) { return a += b; }

 private:
  friend Html safe(std::string_view);
  friend Html filled(std::string_view, const Html* const*, std::size_t);
  explicit Html(std::string text) : text_(std::move(text)) {}
  std::string text_;
};

// & < > " and ' as references; what no page may hold (control characters but for new lines) as U+FFFD.
Html safe(std::string_view text);
inline const Html& safe(const Html& html) { return html; }

Html filled(std::string_view pattern, const Html* const* parts, std::size_t count);

// A literal with as many {} as there are parts.
template <std::size_t count>
class Pattern {
 public:
  template <std::size_t size>
  consteval Pattern(const char (&literal)[size]) : text_(literal, size - 1) {  // NOLINT: meant to convert
    std::size_t found = 0;
    for (std::size_t i = 0; i + 1 < text_.size(); ++i)
      if (text_[i] == '{' && text_[i + 1] == '}') ++found;
    if (found != count) throw "as many {} are expected as there are parts";
  }
  std::string_view text() const { return text_; }

 private:
  std::string_view text_;
};

template <class Part>
concept Fills = std::same_as<Part, Html> || std::convertible_to<const Part&, std::string_view>;

template <Fills... Parts>
Html html(Pattern<sizeof...(Parts)> pattern, const Parts&... parts) {
  if constexpr (sizeof...(Parts) == 0) {
    return filled(pattern.text(), nullptr, 0);
  } else {
    const std::array<Html, sizeof...(Parts)> safe_parts{Html(safe(parts))...};
    std::array<const Html*, sizeof...(Parts)> pointers{};
    for (std::size_t i = 0; i < sizeof...(Parts); ++i) pointers[i] = &safe_parts[i];
    return filled(pattern.text(), pointers.data(), pointers.size());
  }
}

}  // namespace nonrunner::page
