// Who asks, and from where: what is looked at before anything else of a request is, as pure functions of its head.
//
// Any web page that is open in the same browser may send requests to this house, by an address that its owner chose
// (a name that now leads here) or from a page of its own. So exactly one Host of ours is expected, and for whatever
// changes something exactly one Origin of ours; where the browser says from what site the request comes, that too.
#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "page/request.h"

namespace nonrunner::page {

struct Limits {
  std::uint64_t header = 16 << 10, form = 64 << 10, photo = 20 << 20;
  std::size_t target = 2 << 10;
  int patience = 15;  // seconds for a header, for a whole form, and without progress in a photo or an answer
  int photo_patience = 600;                   // seconds for a whole photo or an answer
  std::size_t an_address = 64, in_all = 256;  // connections
  double changes_a_second = 30;               // of one device
  std::uint64_t free_disk = std::uint64_t{1} << 30;
  int to_finish = 2;  // seconds for what is in hand when the house is closed
};

// What a request says before its body. A header that stands there more than once is there as often.
struct Head {
  std::string method, target;
  int version = 11;
  std::vector<std::string> hosts, origins, cookies;
  std::string site, mode;  // Sec-Fetch-Site, Sec-Fetch-Mode
  std::string accept, accept_coding, media_type, coding;
  std::optional<std::uint64_t> length;
  bool chunked = false;
};

bool reads(const Head&);  // asks for something, and changes nothing

// Under which names one listening address is ours: "http", {"127.0.0.1:8417", "localhost:8417"}.
struct Ours {
  std::string scheme;
  std::vector<std::string> hosts;
  const std::string& host() const { return hosts.front(); }
  std::string origin() const { return scheme + "://" + host(); }
};
Ours ours_of(const std::string& scheme, const std::string& address, int port);

struct Refused {
  int status = 0;
  std::string says;
};
// The first that applies:
//   505 not HTTP/1.1   421 not exactly one Host, or none of ours; a target that names another house
//   405 a method that no road has   414 a target that is too long   403 another site's page asks
//   403 it changes something and has not exactly one Origin of ours   415 its body is packed
std::optional<Refused> guard(const Head&, const Ours&, const Limits&);

// Path and query of a target; throws Refusal where they are no text. "%2F" never divides a path.
void read_target(const std::string& target, Request&);

// The value of our cookie among all that were sent; empty where there is none or more than one.
std::string cookie_of(const Head&, const std::string& name);
std::string cookie_name(int port);  // cookies do not know ports, so the name does

// Whether a device may change something once more: so many a second, and as many at once.
class Pace {
 public:
  explicit Pace(double a_second) : a_second_(a_second) {}
  bool goes(const std::string& device, double now);  // seconds of a clock that never goes back

 private:
  struct Left {
    double left = 0, at = 0;
  };
  double a_second_;
  std::map<std::string, Left> of_;
};

// What the first bytes say it is: image/jpeg, image/png, image/webp; empty for anything else. Twelve bytes are enough.
std::string photo_type(std::string_view first_bytes);

}  // namespace nonrunner::page
