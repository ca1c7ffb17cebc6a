#include "page/porter.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "exact/ends.h"
#include "page/files.h"
#include "page/packed.h"
#include "words/ending.h"
#include "words/entered.h"
#include "words/paired.h"

namespace nonrunner::page {

namespace {

constexpr const char* the_owner = "me";  // as the prompt calls whose clock it is

using Body = Road::Body;
using To = Admission::To;

constexpr const char* own_content_only =
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; "
    "manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

Answer bare_page(const std::string& title, const Html& content, bool pairs = false) {
  const Html script = pairs ? html("<script src=\"{}\" defer></script>\n", web_path("pair.js")) : Html();
  Answer answer;
  answer.body =
      html(
          "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
          "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
          "<title>{} - Nonrunner</title>\n<link rel=\"stylesheet\" href=\"{}\">\n{}</head>\n<body>\n<main>\n"
          "<h1>{}</h1>\n{}</main>\n</body>\n</html>\n",
          title, web_path("style.css"), script, title, content)
          .text();
  return answer;
}

Reply refusal(int status, const std::string& says, bool wants_json) {
  Reply reply = plain_refusal(status, says);
  if (wants_json) {
    reply.answer.type = "application/json";
    reply.answer.body = words::entered_as_json("refused", 0, says);
  }
  return reply;
}

Html labelled(const char* name, const char* label, const char* more) {
  return html("<label><span>{}</span> <input name=\"{}\" autocomplete=\"off\" maxlength=\"40\">{}</label>\n",
              label, name, html("<small class=\"small\">{}</small>", more));
}

bool is_form(const Head& head) {
  const std::string kind = head.media_type.substr(0, head.media_type.find(';'));
  return kind == "application/x-www-form-urlencoded";
}

bool has_body(const Head& head) { return head.chunked || head.length.value_or(0) > 0; }

bool is_full(const std::filesystem::path& place, std::uint64_t kept_free, std::uint64_t more) {
  std::error_code error;
  const auto space = std::filesystem::space(place.parent_path().empty() ? "." : place.parent_path(), error);
  return !error && space.available < kept_free + more;
}

std::string allowed(const std::string& path) {
  std::string methods;
  for (const char* method : {"GET", "POST", "PUT"}) {
    std::vector<std::string> stars;
    bool known = false;
    if (road_of(method, path, stars, known)) methods += std::string(methods.empty() ? "" : ", ") + method;
  }
  return methods;
}

}  // namespace

Reply plain_refusal(int status, const std::string& says) {
  Reply reply;
  reply.answer.status = status;
  reply.answer.type = "text/plain; charset=utf-8";
  reply.answer.body = says + "\n";
  return reply;
}

Porter::Porter(Ours ours, const Limits& limits, std::string owner, std::string offers)
    : ours_(std::move(ours)),
      limits_(limits),
      owner_(std::move(owner)),
      offers_(std::move(offers)),
      pace_(limits.changes_a_second) {
  const std::string& host = ours_.host();
  const std::size_t colon = host.rfind(':');
  const bool has_port = colon != std::string::npos && host.find(']', colon) == std::string::npos;
  cookie_ = cookie_name(has_port ? std::stoi(host.substr(colon + 1)) : ours_.scheme == "https" ? 443 : 80);
}

namespace {

Reply not_so(const std::string& methods, bool wants_json) {
  Reply reply = refusal(405, "nothing here is asked for so", wants_json);
  reply.more.emplace_back("Allow", methods);
  return reply;
}

// For a person whose device is let in: with a way on.
Reply no_such_page() {
  Reply reply;
  reply.answer = bare_page("There is no such page", html("<p><a href=\"/\">Cars</a></p>\n"));
  reply.answer.status = 404;
  return reply;
}

Reply not_paired(const Head& head, bool wants_json) {
  Reply reply =
      refusal(reads(head) && !wants_json ? 303 : 401, "this device is not paired: pair again", wants_json);
  if (reply.answer.status == 303) reply.answer.location = "/pair";
  return reply;
}

}  // namespace

// Where it goes, of what everybody may ask for and of what only a paired device may.
std::optional<Reply> Porter::to_its_place(const Head& head, const book::Book& book,
                                          Admission& admission) const {
  Request& request = admission.request;
  const auto goes = [&](To to) {
    admission.to = to;
    admission.shown_road = request.path;
    return std::nullopt;
  };
  if (!offers_.empty()) {
    if (reads(head) && request.path == "/authority.crt") return goes(To::authority);
    return refusal(404, "there is no such page", false);
  }
  if (request.path == "/pair") {
    if (head.method == "PUT") return not_so("GET, POST", request.wants_json);
    if (!reads(head)) admission.body = Body::form;
    return goes(To::pairing);
  }
  if (reads(head) && request.path == "/proof") return goes(To::proof);
  if (reads(head) &&
      (request.path == "/style.css" || request.path == "/pair.js" || request.path == "/worker.js"))
    return goes(To::file);
  admission.device = book::device_of(book, cookie_of(head, cookie_));
  if (!admission.device) return not_paired(head, request.wants_json);
  request.device = admission.device->name;
  // Paired before the owner was "me" here as at the prompt: one person has one clock.
  request.person = admission.device->person == owner_ ? the_owner : admission.device->person;
  bool known = false;
  admission.road = road_of(head.method, request.path, admission.stars, known);
  if (admission.road) {
    goes(To::room);
    admission.shown_road = admission.road->path;
    admission.body = admission.road->body;
    return std::nullopt;
  }
  if (reads(head) && web_file(request.path)) return goes(To::file);
  if (known) return not_so(allowed(request.path), request.wants_json);
  return reads(head) && !request.wants_json ? no_such_page()
                                            : refusal(404, "there is no such page", request.wants_json);
}

// Whether its body may come in.
std::optional<Reply> Porter::weighed(const Head& head, const book::Book& book, Admission& admission) const {
  const bool json = admission.request.wants_json;
  admission.limit = admission.body == Body::photo  ? limits_.photo
                    : admission.body == Body::form ? limits_.form
                                                   : 0;
  if (head.length.value_or(0) > admission.limit || (admission.limit == 0 && head.chunked))
    return refusal(413, fmt::format("found more than {} bytes, expected fewer", admission.limit), json);
  if (admission.body == Body::form && has_body(head) && !is_form(head))
    return refusal(415, "expected application/x-www-form-urlencoded", json);
  if (admission.body == Body::photo && is_full(book.path(), limits_.free_disk, limits_.photo))
    return refusal(507, "the disk is nearly full: make room on the machine that holds the book", json);
  return std::nullopt;
}

Admission Porter::admit(const Head& head, const book::Book& book, double seconds) {
  Admission admission;
  Request& request = admission.request;
  request.wants_json = head.accept.starts_with("application/json");
  request.takes_gzip = takes_gzip(head.accept_coding);
  request.method = head.method;
  const auto no = [&](Reply reply) {
    admission.to = To::nobody;
    admission.refused = std::move(reply);
    return admission;
  };
  if (const auto refused = guard(head, ours_, limits_))
    return no(refused->status == 405 ? not_so("GET, HEAD, POST, PUT", request.wants_json)
                                     : refusal(refused->status, refused->says, request.wants_json));
  try {
    read_target(head.target, request);
  } catch (const Refusal& refused) {
    return no(refusal(400, refused.what(), request.wants_json));
  }
  if (auto refused = to_its_place(head, book, admission)) return no(std::move(*refused));
  if (admission.device && !reads(head) && !pace_.goes(admission.device->id, seconds)) {
    Reply reply = refusal(429, "too many at once: once more in a second", request.wants_json);
    reply.more.emplace_back("Retry-After", "1");
    return no(std::move(reply));
  }
  if (auto refused = weighed(head, book, admission)) return no(std::move(*refused));
  return admission;
}

Reply Porter::pairing_page(const std::string& says, int status) const {
  const Html said = says.empty() ? Html() : html("<p class=\"reason\" role=\"alert\">{}</p>\n", says);
  const Html trusted = ours_.scheme == "https"
                           ? html(
                                 "<details>\n<summary>The browser warned of this page</summary>\n<p>It does "
                                 "not know the authority of the shop "
                                 "yet. As long as the warning is only clicked away it keeps nothing of the "
                                 "page: away from home there is none. "
                                 "The terminal names the address of the authority's file, and its "
                                 "fingerprint. Fetch it, compare the fingerprint "
                                 "in the device's settings, install it there as an authority, and open this "
                                 "page anew. It speaks for private "
                                 "addresses only, and is installed once.</p>\n</details>\n")
                           : Html();
  const Html fields =
      labelled("code", "Code", "sixteen letters and digits") +
      labelled("device", "Name of this device", "as it stands in the list of devices: kitchen phone") +
      labelled("person", "Whose is it", "left empty: the owner's");
  Reply reply;
  reply.answer =
      bare_page("Pair this device",
                html("{}<p>Only devices of this shop are let in. The code stands in the terminal in which "
                     "the house was opened; "
                     "it holds once and for ten minutes.</p>\n<form method=\"post\" "
                     "action=\"/pair\">\n{}<button>Pair</button>\n"
                     "</form>\n<p class=\"small\">Paired already? <a href=\"/\">Open the shop</a></p>\n{}",
                     said, fields, trusted),
                true);
  reply.answer.status = status;
  return reply;
}

Reply Porter::pair(const Request& request, book::Book& book, const Moment& moment) {
  const std::string person = request.form.get("person");
  book::Recording recording(book, moment.now, moment.today);
  const book::Paired paired = book::pair(recording, request.form.get("code"), request.form.get("device"),
                                         person.empty() ? the_owner : person, ours_.origin());
  recording.keep();
  const auto no = [&](int status, const std::string& says) {
    return request.wants_json ? refusal(status, says, true) : pairing_page(says, status);
  };
  switch (paired.why) {
    case book::Paired::Why::no_code:
      return no(403, "no code is open: have a new one made at the terminal");
    case book::Paired::Why::wrong:
      return no(403, "this is not the code that is open");
    case book::Paired::Why::too_many:
      return no(429, "five codes were wrong: have a new one made at the terminal");
    case book::Paired::Why::bad_name:
      return no(422, "found no name for the device, expected one of at most 40 bytes, such as kitchen phone");
    case book::Paired::Why::name_is_taken:
      return no(422, "another device has this name already: choose another one");
    case book::Paired::Why::paired:
      break;
  }
  Reply reply;
  if (request.wants_json) {
    reply.answer.type = "application/json";
    reply.answer.body = words::paired_as_json(
        paired.device.id, book::proof_key(book, paired.device.id).value_or(""), paired.device.name);
  } else {
    reply.answer = see_other("/");
  }
  reply.more.emplace_back("Set-Cookie",
                          fmt::format("{}={}; Path=/; Max-Age=31536000; HttpOnly; SameSite=Strict{}", cookie_,
                                      paired.token, ours_.scheme == "https" ? "; Secure" : ""));
  return reply;
}

namespace {

// Seen or not is no reason to refuse anything: where the book is held just now, the next hour remembers it.
void remember(const book::Device& device, book::Book& book, const Moment& moment) {
  if (book::was_seen(device, moment.now)) return;
  try {
    book::Recording recording(book, moment.now, moment.today);
    book::remember_seen(recording, device);
    recording.keep();
  } catch (const MachineFailure&) {
  }
}

Reply proof(const Request& request, const book::Book& book) {
  const std::string nonce = request.query.get("nonce");
  const bool fits = nonce.size() >= 32 && nonce.size() <= 128 &&
                    nonce.find_first_not_of("0123456789abcdef") == std::string::npos;
  const auto key = fits ? book::proof_key(book, request.query.get("device")) : std::nullopt;
  if (!key) return refusal(404, "this house does not know the device", true);
  Reply reply;
  reply.answer.type = "application/json";
  reply.answer.body = words::proof_as_json(book::hmac_sha256(*key, nonce));
  return reply;
}

Reply authority_file(const std::string& certificate) {
  Reply reply;
  reply.answer.type = "application/x-x509-ca-cert";
  reply.answer.save_as = "authority.crt";
  reply.answer.body = certificate;
  return reply;
}

Reply file(const Request& request) {
  Reply reply;
  reply.answer = file_answer(request.path);
  return reply;
}

}  // namespace

Reply Porter::answer(Admission& admission, book::Book& book, const Moment& moment) {
  Reply reply = answered(admission, book, moment);
  if (admission.request.takes_gzip) pack(reply.answer);
  return reply;
}

Reply Porter::answered(Admission& admission, book::Book& book, const Moment& moment) {
  const Request& request = admission.request;
  try {
    switch (admission.to) {
      case To::nobody:
        return admission.refused;
      case To::file:
        return file(request);
      case To::authority:
        if (!book::code_is_open(book, moment.now)) return plain_refusal(404, "there is no such page");
        return authority_file(offers_);
      case To::proof:
        return proof(request, book);
      case To::pairing:
        return request.method == "POST" ? pair(request, book, moment) : pairing_page("", 200);
      case To::room:
        break;
    }
    remember(*admission.device, book, moment);
    Visit visit{book, request, moment.today, moment.now, admission.stars};
    return {page::answer(*admission.road, visit), {}};
  } catch (...) {
    const words::Ending ending = words::ending_of(std::current_exception(), book.path());
    return refusal(ending.kind == words::Ending::Kind::failed ? 503 : 422, ending.message,
                   request.wants_json);
  }
}

std::vector<std::pair<std::string, std::string>> headers_of(const Reply& reply) {
  const Answer& answer = reply.answer;
  std::vector<std::pair<std::string, std::string>> headers;
  if (!answer.type.empty()) headers.emplace_back("Content-Type", answer.type);
  headers.emplace_back("Cache-Control",
                       answer.is_shell && answer.status == 200 ? "private, max-age=2592000" : "no-store");
  headers.emplace_back("Vary", "Accept-Encoding");
  if (answer.is_packed) headers.emplace_back("Content-Encoding", "gzip");
  headers.emplace_back("Content-Security-Policy", own_content_only);
  headers.emplace_back("X-Content-Type-Options", "nosniff");
  // Nothing to other sites. With "no-referrer" a browser gives a form that is posted without script the origin "null",
  // and the guard would refuse every one of them.
  headers.emplace_back("Referrer-Policy", "same-origin");
  headers.emplace_back("Cross-Origin-Resource-Policy", "same-origin");
  headers.emplace_back("Cross-Origin-Opener-Policy", "same-origin");
  headers.emplace_back("X-Frame-Options", "DENY");
  const auto plain = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '.';
  };
  if (!answer.save_as.empty() && std::all_of(answer.save_as.begin(), answer.save_as.end(), plain))
    headers.emplace_back("Content-Disposition", "attachment; filename=\"" + answer.save_as + "\"");
  const auto visible = [](char c) { return c > ' ' && c < 0x7f; };
  if (!answer.location.empty() && answer.location.front() == '/' && !answer.location.starts_with("//") &&
      std::all_of(answer.location.begin(), answer.location.end(), visible))
    headers.emplace_back("Location", answer.location);
  headers.insert(headers.end(), reply.more.begin(), reply.more.end());
  return headers;
}

}  // namespace nonrunner::page
