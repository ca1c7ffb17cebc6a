#include "page/packed.h"

#include <zlib.h>

#include <map>
#include <mutex>

#include "text/lower_case.h"
#include "text/typed_numbers.h"

namespace nonrunner::page {

namespace {

constexpr std::size_t worth_it = 1024;
constexpr int quick = 3, thorough = 9;  // of zlib's levels: a page is packed each time, a file once

// Empty where the library cannot; then it goes as it is.
std::string packed(const std::string& text, int level) {
  z_stream stream{};
  constexpr int as_gzip = 15 + 16, memory = 8;
  if (deflateInit2(&stream, level, Z_DEFLATED, as_gzip, memory, Z_DEFAULT_STRATEGY) != Z_OK) return {};
  std::string out(deflateBound(&stream, static_cast<uLong>(text.size())), '\0');
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(text.data()));
  stream.avail_in = static_cast<uInt>(text.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  const bool whole = deflate(&stream, Z_FINISH) == Z_STREAM_END;
  out.resize(whole ? stream.total_out : 0);
  deflateEnd(&stream);
  return out;
}

// The files of the page are few and never change while the house is open.
std::string packed_once(const std::string& text) {
  static std::mutex lock;
  static std::map<std::string, std::string> all;
  const std::lock_guard held(lock);
  const auto [found, is_new] = all.try_emplace(text);
  if (is_new) found->second = packed(text, thorough);
  return found->second;
}

bool is_text(const std::string& type) {
  return type.starts_with("text/") || type == "application/json" || type == "image/svg+xml";
}

}  // namespace

bool takes_gzip(const std::string& accepted) {
  for (const std::string& each : parted(lower_case(accepted), ',')) {
    std::string word;
    for (const char c : each)
      if (c != ' ' && c != '\t') word += c;
    if (word == "gzip") return true;
    if (!word.starts_with("gzip;q=")) continue;
    return word.find_first_not_of("0.", 7) != std::string::npos;
  }
  return false;
}

void pack(Answer& answer) {
  if (!is_text(answer.type) || answer.body.size() < worth_it || !answer.file.empty()) return;
  const bool is_kept = answer.is_fixed && answer.status == 200;
  std::string small = is_kept ? packed_once(answer.body) : packed(answer.body, quick);
  if (small.empty() || small.size() >= answer.body.size()) return;
  answer.body = std::move(small);
  answer.is_packed = true;
}

}  // namespace nonrunner::page
