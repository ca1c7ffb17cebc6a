#include "reports/whole_package.h"

#include <zlib.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <fstream>
#include <vector>

namespace nonrunner::reports {

namespace {

constexpr std::uint32_t end_mark = 0x06054b50, entry_mark = 0x02014b50;
constexpr std::size_t end_size = 22, entry_size = 46, local_size = 30;

std::uint32_t number(const std::string& bytes, std::size_t at, std::size_t size) {
  std::uint32_t value = 0;
  for (std::size_t i = size; i-- > 0;) value = value << 8 | static_cast<unsigned char>(bytes[at + i]);
  return value;
}

std::string read(std::ifstream& file, std::uint64_t at, std::size_t size) {
  std::string bytes(size, '\0');
  file.clear();
  file.seekg(static_cast<std::streamoff>(at));
  file.read(bytes.data(), static_cast<std::streamsize>(size));
  bytes.resize(static_cast<std::size_t>(file.gcount()));
  return bytes;
}

// The head and the tail of a part: all that is needed to see whether its root is closed.
class Ends {
 public:
  void take(const char* bytes, std::size_t size) {
    if (head_.size() < kept) head_.append(bytes, std::min(size, kept - head_.size()));
    if (size >= kept)
      tail_.assign(bytes + (size - kept), kept);
    else if (tail_.append(bytes, size).size() > 2 * kept)
      tail_.erase(0, tail_.size() - kept);
  }
  bool root_is_closed() const {
    std::size_t at = head_.find("?>");
    at = at == std::string::npos ? 0 : at + 2;
    at = head_.find('<', at);
    if (at == std::string::npos) return false;
    const std::size_t end = head_.find_first_of(" />\r\n", at + 1);
    const std::string root = "</" + head_.substr(at + 1, end - at - 1) + ">";
    std::size_t last = tail_.find_last_not_of(" \r\n");
    if (last == std::string::npos) return false;
    const std::string rest = tail_.substr(0, last + 1);
    if (rest.size() >= root.size() && rest.compare(rest.size() - root.size(), root.size(), root) == 0)
      return true;
    // A root without content closes itself, and nothing else opens in such a part.
    return head_.size() < kept && rest.size() > 2 && rest.compare(rest.size() - 2, 2, "/>") == 0 &&
           head_.find('<', at + 1) == std::string::npos;
  }

 private:
  static constexpr std::size_t kept = 4096;
  std::string head_, tail_;
};

template <class Taker>
bool inflated(std::ifstream& file, std::uint64_t at, std::uint64_t packed, Taker& ends) {
  z_stream stream{};
  if (inflateInit2(&stream, -MAX_WBITS) != Z_OK) return false;
  std::vector<char> in(1 << 16), out(1 << 17);
  file.clear();
  file.seekg(static_cast<std::streamoff>(at));
  int status = Z_OK;
  while (status == Z_OK && packed > 0) {
    const auto want = static_cast<std::streamsize>(std::min<std::uint64_t>(packed, in.size()));
    file.read(in.data(), want);
    if (file.gcount() != want) break;
    packed -= static_cast<std::uint64_t>(want);
    stream.next_in = reinterpret_cast<Bytef*>(in.data());
    stream.avail_in = static_cast<uInt>(want);
    do {
      stream.next_out = reinterpret_cast<Bytef*>(out.data());
      stream.avail_out = static_cast<uInt>(out.size());
      status = inflate(&stream, Z_NO_FLUSH);
      ends.take(out.data(), out.size() - stream.avail_out);
    } while (status == Z_OK && stream.avail_out == 0);
    if (status == Z_BUF_ERROR) status = Z_OK;  // it only wants more
  }
  inflateEnd(&stream);
  return status == Z_STREAM_END;
}

}  // namespace

namespace {

// Somebody else's file may lie at the place: of its list and of the part that is read no more is taken than ours has.
constexpr std::uint32_t longest_list = 1 << 20, longest_part = 1 << 16;

struct AllOf {
  std::string text;
  void take(const char* bytes, std::size_t size) {
    text.append(bytes,
                std::min<std::size_t>(size, longest_part - std::min<std::size_t>(text.size(), longest_part)));
  }
};

}  // namespace

bool is_as_we_wrote_it(const std::filesystem::path& package) {
  std::ifstream file(package, std::ios::binary);
  file.seekg(0, std::ios::end);
  const auto size = static_cast<std::uint64_t>(std::max<std::streamoff>(file.tellg(), 0));
  if (!file || size < end_size) return false;
  const std::string end = read(file, size - end_size, end_size);
  if (end.size() < end_size || number(end, 0, 4) != end_mark) return false;
  if (number(end, 12, 4) > longest_list) return false;
  const std::string list = read(file, number(end, 16, 4), number(end, 12, 4));
  constexpr std::uint32_t our_day = 1U << 5 | 1U;  // 1980-01-01 as the format writes days
  bool ours = false;
  std::size_t at = 0;
  for (std::uint32_t i = 0; i < number(end, 10, 2); ++i) {
    if (at + entry_size > list.size() || number(list, at, 4) != entry_mark) return false;
    if (number(list, at + 14, 2) != our_day) return false;
    const std::uint32_t packed = number(list, at + 20, 4), name_size = number(list, at + 28, 2);
    const std::uint64_t local = number(list, at + 42, 4);
    if (list.substr(at + entry_size, name_size) == "docProps/core.xml" && number(list, at + 10, 2) == 8) {
      const std::string header = read(file, local, local_size);
      if (header.size() < local_size || packed > longest_part) return false;
      AllOf core;
      if (!inflated(file, local + local_size + number(header, 26, 2) + number(header, 28, 2), packed, core))
        return false;
      ours = core.text.find("<dc:creator>nonrunner</dc:creator>") != std::string::npos;
    }
    at += entry_size + name_size + number(list, at + 30, 2) + number(list, at + 32, 2);
  }
  return ours;
}

std::string what_is_not_whole(const std::filesystem::path& package) {
  std::ifstream file(package, std::ios::binary);
  file.seekg(0, std::ios::end);
  const auto size = static_cast<std::uint64_t>(std::max<std::streamoff>(file.tellg(), 0));
  if (!file || size < end_size) return "the file is too short";
  const std::string end = read(file, size - end_size, end_size);
  if (end.size() < end_size || number(end, 0, 4) != end_mark) return "the list of its parts is cut off";
  const std::uint32_t parts = number(end, 10, 2);
  const std::string list = read(file, number(end, 16, 4), number(end, 12, 4));
  std::size_t at = 0;
  for (std::uint32_t i = 0; i < parts; ++i) {
    if (at + entry_size > list.size() || number(list, at, 4) != entry_mark)
      return "the list of its parts is cut off";
    const std::uint32_t method = number(list, at + 10, 2), packed = number(list, at + 20, 4),
                        name_size = number(list, at + 28, 2);
    const std::uint64_t local = number(list, at + 42, 4);
    const std::string name = list.substr(at + entry_size, name_size);
    at += entry_size + name_size + number(list, at + 30, 2) + number(list, at + 32, 2);
    const std::string header = read(file, local, local_size);
    if (header.size() < local_size) return name + " is not there";
    const std::uint64_t data = local + local_size + number(header, 26, 2) + number(header, 28, 2);
    Ends ends;
    bool read_well = false;
    if (method == 8) {
      read_well = inflated(file, data, packed, ends);
    } else {
      const std::string stored = read(file, data, packed);
      ends.take(stored.data(), stored.size());
      read_well = stored.size() == packed;
    }
    if (!read_well) return name + " cannot be read back";
    if (!ends.root_is_closed()) return name + " ends in the middle";
  }
  return parts == 0 ? "it has no parts" : "";
}

}  // namespace nonrunner::reports
