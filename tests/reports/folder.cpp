#include "reports/folder.h"

#include <zlib.h>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace nonrunner::reports {

namespace fs = std::filesystem;

Folder::Folder() {
  std::string name = (fs::temp_directory_path() / "nonrunner-reports-XXXXXX").string();
  const char* made = ::mkdtemp(name.data());
  if (!made) throw std::runtime_error("no folder for a test");
  path = made;
}

Folder::~Folder() {
  std::error_code ignored;
  fs::remove_all(path, ignored);
}

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

std::string part_of(const std::string& package, const std::string& name) {
  constexpr std::size_t header = 30;  // its mark first; the lengths of name and extra field at 26 and 28
  const std::string begins = "PK\x03\x04";
  for (std::size_t at = package.find(begins); at != std::string::npos; at = package.find(begins, at + 1)) {
    if (package.compare(at + header, name.size(), name) != 0) continue;
    const auto length = [&](std::size_t place) {
      return static_cast<unsigned char>(package[at + place]) +
             256u * static_cast<unsigned char>(package[at + place + 1]);
    };
    std::string bytes = package.substr(at + header + length(26) + length(28));
    z_stream stream{};
    if (inflateInit2(&stream, -15) != Z_OK) throw std::runtime_error("nothing is unpacked");
    std::string out(4 << 20, '\0');
    stream.next_in = reinterpret_cast<Bytef*>(bytes.data());
    stream.avail_in = static_cast<uInt>(bytes.size());
    stream.next_out = reinterpret_cast<Bytef*>(out.data());
    stream.avail_out = static_cast<uInt>(out.size());
    const bool whole = inflate(&stream, Z_FINISH) == Z_STREAM_END;
    out.resize(stream.total_out);
    inflateEnd(&stream);
    if (!whole) throw std::runtime_error(name + " cannot be unpacked");
    return out;
  }
  return {};
}

std::size_t files_in(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

}  // namespace nonrunner::reports
