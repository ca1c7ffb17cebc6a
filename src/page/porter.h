// At the door of the house, without the network: what becomes of a request when its head is known, and of the whole of
// it. house.h feeds this one, and tests do.
//
// Without pairing only the pairing page, what it is made of, and the house's proof of itself are answered; on the
// machine's own address too, since other people and programs of the machine reach that as well.
#pragma once
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "book/care/devices.h"
#include "book/ledger/book.h"
#include "page/guards.h"
#include "page/visit.h"

namespace nonrunner::page {

// What the clocks say: the shop's day, and the moment in UTC.
struct Moment {
  Day today;
  std::string now;
};

// An answer and what else stands at its head.
struct Reply {
  Answer answer;
  std::vector<std::pair<std::string, std::string>> more;  // Set-Cookie, Retry-After, Allow
};

struct Admission {
  enum class To { nobody, file, pairing, proof, authority, room } to = To::nobody;
  Reply refused;  // where it goes to nobody
  Request request;
  std::optional<book::Device> device;
  const Road* road = nullptr;
  std::vector<std::string> stars;
  Road::Body body = Road::Body::none;
  std::uint64_t limit = 0;  // bytes of its body
  std::string shown_road;   // for the log: what was asked for without what was typed
};

class Porter {
 public:
  // `owner`: whose a device is that says nothing of it. `offers`: the shop's authority, where that is all that is
  // answered here.
  Porter(Ours ours, const Limits& limits, std::string owner, std::string offers = "");

  // Looks at the head. Refused after what guard() refuses, the first that applies:
  //   400 a target that is no text   303, 401 no device of ours   404 no such road   405 not so
  //   429 too many changes at once   413 a body that is too long, or where none is expected   415 not of this kind
  //   507 the disk is nearly full
  Admission admit(const Head&, const book::Book&, double seconds);

  // Answers what was admitted and has come in whole. Throws nothing.
  Reply answer(Admission&, book::Book&, const Moment&);

  const Ours& ours() const { return ours_; }

 private:
  std::optional<Reply> to_its_place(const Head&, const book::Book&, Admission&) const;
  std::optional<Reply> weighed(const Head&, const book::Book&, Admission&) const;
  Reply answered(Admission&, book::Book&, const Moment&);
  Reply pair(const Request&, book::Book&, const Moment&);
  Reply pairing_page(const std::string& says, int status) const;
  Ours ours_;
  Limits limits_;
  std::string owner_, offers_, cookie_;
  Pace pace_;
};

// The whole head of the answer, in order: what is said of the content, and what holds for every answer.
std::vector<std::pair<std::string, std::string>> headers_of(const Reply&);
// A page of one line, for whoever is not let in; no name of a device, car or person stands in it.
Reply plain_refusal(int status, const std::string& says);

}  // namespace nonrunner::page
