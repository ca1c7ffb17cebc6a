// What a request says before its body, a line each: "GET /car/pip?x=1", then "host: 127.0.0.1:8417" and the like. The
// guards let nothing through that is not for this house; what they let through by a paired device is answered, whatever
// page and query it asks for, and never by a mistake of ours.
#include <sstream>

#include "fuzz/fuzzed.h"
#include "page/porter.h"

namespace {

using namespace nonrunner;

page::Head head_of(const std::string& text, const std::string& token) {
  page::Head head;
  std::istringstream lines(text);
  std::string line;
  std::getline(lines, line);
  const std::size_t blank = line.find(' ');
  head.method = line.substr(0, blank);
  head.target = blank == std::string::npos ? "" : line.substr(blank + 1);
  while (std::getline(lines, line)) {
    const std::size_t colon = line.find(": ");
    if (colon == std::string::npos) continue;
    const std::string name = line.substr(0, colon), value = line.substr(colon + 2);
    if (name == "host") head.hosts.push_back(value);
    if (name == "origin") head.origins.push_back(value);
    if (name == "cookie") head.cookies.push_back(value == "ours" ? "nonrunner-8417=" + token : value);
    if (name == "site") head.site = value;
    if (name == "mode") head.mode = value;
    if (name == "accept") head.accept = value;
    if (name == "type") head.media_type = value;
    if (name == "coding") head.coding = value;
    if (name == "length") head.length = value.size();
    if (name == "chunked") head.chunked = true;
  }
  return head;
}

const std::string& token_of_the_device() {
  static const std::string token = [] {
    book::Recording recording(fuzzed::shop(), "2026-03-01T10:00:00Z", Day(2026, 3, 1));
    const std::string code = book::open_code(recording);
    const book::Paired paired = book::pair(recording, code, "phone", "ada", "http://127.0.0.1:8417");
    recording.keep();
    return paired.token;
  }();
  return token;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const page::Head head =
      head_of(std::string(reinterpret_cast<const char*>(data), size), token_of_the_device());
  page::Porter porter(page::ours_of("http", "127.0.0.1", 8417), {}, "ada");
  const bool reads = head.method == "GET" || head.method == "HEAD";
  page::Admission admission = porter.admit(head, fuzzed::shop(), 0);
  if (admission.to != page::Admission::To::nobody) {
    fuzzed::must(head.hosts.size() == 1, "one host");
    fuzzed::must(head.hosts[0] == "127.0.0.1:8417" || head.hosts[0] == "localhost:8417", "a host of ours");
    fuzzed::must(reads || (head.origins.size() == 1 && head.origins[0] == "http://" + head.hosts[0]) ||
                     head.origins[0] == "http://127.0.0.1:8417" || head.origins[0] == "http://localhost:8417",
                 "an origin of ours");
    fuzzed::must(head.target.front() == '/', "a path");
  }
  // Changes are the matter of another target: nothing is kept here.
  if (!reads && admission.to == page::Admission::To::room) return 0;
  if (!reads && admission.to == page::Admission::To::pairing) return 0;
  const page::Reply reply =
      porter.answer(admission, fuzzed::shop(), {Day(2026, 3, 1), "2026-03-01T10:00:00Z"});
  fuzzed::must(reply.answer.status != 500, "no mistake of ours");
  for (const auto& [name, value] : page::headers_of(reply))
    for (const char c : value)
      fuzzed::must(static_cast<unsigned char>(c) >= ' ' && c != 0x7f, "headers are one line");
  fuzzed::must(reply.answer.body.find("<script>") == std::string::npos,
               "nothing that was asked for is a script");
  return 0;
}
