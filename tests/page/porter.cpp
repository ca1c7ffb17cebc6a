#include "page/porter.h"

#include "book/events/attach.h"
#include "book/ledger/query.h"
#include "page/page_shop.h"

using namespace nonrunner;
using namespace nonrunner::page;

namespace {

// A shop whose door is asked as the network asks it: a head first, then the whole.
struct Door : PageShop {
  Limits limits;
  Porter porter{ours_of("http", "127.0.0.1", 8417), limits, "ada"};
  std::string cookie;
  double seconds = 0;

  Head head(const std::string& method, const std::string& target) {
    Head head;
    head.method = method;
    head.target = target;
    head.hosts = {"127.0.0.1:8417"};
    if (method != "GET" && method != "HEAD") head.origins = {"http://127.0.0.1:8417"};
    if (!cookie.empty()) head.cookies = {cookie};
    return head;
  }
  Reply ask(const Head& head, const std::string& form = "") {
    Admission admission = porter.admit(head, book(), seconds += 1);
    if (admission.to == Admission::To::nobody) return admission.refused;
    admission.request.form = Form::read(form);
    return porter.answer(admission, book(), {today, now});
  }
  int status(const Head& head) { return ask(head).answer.status; }
  std::string open_code() {
    book::Recording recording(book(), now, today);
    std::string code = book::open_code(recording);
    recording.keep();
    return code;
  }
  Reply pair(const std::string& code, const std::string& name = "phone", const std::string& whose = "") {
    Head post = head("POST", "/pair");
    post.media_type = "application/x-www-form-urlencoded";
    post.length = 10;
    Form form;
    form.set("code", code);
    form.set("device", name);
    form.set("person", whose);
    return ask(post, form.encoded());
  }
  void let_in(const std::string& name = "phone") {
    const Reply reply = pair(open_code(), name);
    REQUIRE(reply.answer.status == 303);
    cookie = header(reply, "Set-Cookie");
    cookie = cookie.substr(0, cookie.find(';'));
  }
  static std::string header(const Reply& reply, const std::string& name) {
    for (const auto& [key, value] : headers_of(reply))
      if (key == name) return value;
    return "";
  }
};

}  // namespace

TEST_CASE("without pairing only the pairing page and what it is made of are answered", "[page][pairing]") {
  Door door;
  CHECK(door.status(door.head("GET", "/pair")) == 200);
  CHECK(door.status(door.head("HEAD", "/pair")) == 200);
  CHECK(door.status(door.head("GET", "/style.css")) == 200);
  CHECK(door.status(door.head("GET", "/pair.js")) == 200);
  CHECK(door.status(door.head("GET", "/worker.js")) == 200);
  for (const char* path : {"/", "/receipt", "/page.js", "/car/pip", "/nowhere", "/photo/x"}) {
    INFO(path);
    const Reply reply = door.ask(door.head("GET", path));
    CHECK(reply.answer.status == 303);
    CHECK(Door::header(reply, "Location") == "/pair");
    Head by_script = door.head("GET", path);
    by_script.accept = "application/json";
    CHECK(door.status(by_script) == 401);
  }
  CHECK(door.status(door.head("POST", "/entry")) == 401);
  CHECK(door.status(door.head("PUT", "/entry/0123456789abcdef0123456789abcdef")) == 401);
}

TEST_CASE("a device that is nobody else's is the owner's, whose clock is the prompt's", "[page][pairing]") {
  Door door;
  door.let_in();
  CHECK(book::devices(door.book())[0].person == "me");
  CHECK(door.porter.admit(door.head("GET", "/"), door.book(), 9).request.person == "me");
  // One that was paired before, under the name of the login.
  Door older;
  const Reply paired = older.pair(older.open_code(), "phone", "ada");
  older.cookie = Door::header(paired, "Set-Cookie");
  older.cookie = older.cookie.substr(0, older.cookie.find(';'));
  CHECK(older.porter.admit(older.head("GET", "/"), older.book(), 9).request.person == "me");
}

TEST_CASE("a code lets one device in, once", "[page][pairing]") {
  Door door;
  const std::string code = door.open_code();
  CHECK(code.size() == 16);
  const Reply paired = door.pair(code, "kitchen phone", "bea");
  CHECK(paired.answer.status == 303);
  CHECK(Door::header(paired, "Location") == "/");
  const std::string cookie = Door::header(paired, "Set-Cookie");
  CHECK(cookie.substr(0, 15) == "nonrunner-8417=");
  CHECK(cookie.substr(15 + 64) == "; Path=/; Max-Age=31536000; HttpOnly; SameSite=Strict");
  CHECK(door.pair(code, "another").answer.status == 403);
  const auto all = book::devices(door.book());
  REQUIRE(all.size() == 1);
  CHECK(all[0].name == "kitchen phone");
  CHECK(all[0].person == "bea");
  CHECK(all[0].origin == "http://127.0.0.1:8417");
  // Of the token only its hash is in the book.
  door.cookie = cookie.substr(0, 15 + 64);
  CHECK(door.status(door.head("GET", "/pair")) == 200);
  CHECK(door.status(door.head("GET", "/nowhere")) == 404);
  CHECK(book::first<int>(door.book(), "SELECT count(*) FROM device WHERE token = :token",
                         {{":token", cookie.substr(15, 64)}}) == 0);
  CHECK(book::first<int>(door.book(), "SELECT count(*) FROM device WHERE token = :token",
                         {{":token", book::sha256_of(cookie.substr(15, 64))}}) == 1);
  door.cookie.back() = door.cookie.back() == '0' ? '1' : '0';
  CHECK(door.status(door.head("GET", "/nowhere")) == 303);
}

TEST_CASE("five wrong codes end the pairing until a new code is made", "[page][pairing]") {
  Door door;
  const std::string code = door.open_code();
  for (int i = 0; i < 4; ++i) {
    const Reply reply = door.pair("0123456789abcdef");
    CHECK(reply.answer.status == 403);
    CHECK(reply.answer.body.find("this is not the code that is open") != std::string::npos);
  }
  CHECK(door.pair("").answer.status == 429);
  CHECK(door.pair(code).answer.status == 429);
  CHECK(door.pair(door.open_code()).answer.status == 303);
}

TEST_CASE("a code is over after ten minutes, and when another one is made", "[page][pairing]") {
  Door door;
  door.now = "2025-12-31T23:55:30Z";
  const std::string code = door.open_code();
  door.now = "2026-01-01T00:05:29Z";
  CHECK(book::code_is_open(door.book(), door.now));
  door.now = "2026-01-01T00:05:30Z";
  CHECK_FALSE(book::code_is_open(door.book(), door.now));
  CHECK(door.pair(code).answer.status == 403);
  const std::string second = door.open_code(), third = door.open_code();
  CHECK(door.pair(second).answer.status == 403);
  CHECK(door.pair(third).answer.status == 303);
}

TEST_CASE("a device without a name or with that of another is asked for one, and the code stays",
          "[page][pairing]") {
  Door door;
  door.let_in("phone");
  const std::string code = door.open_code();
  CHECK(door.pair(code, "").answer.status == 422);
  CHECK(door.pair(code, std::string(41, 'x')).answer.status == 422);
  CHECK(door.pair(code,
                  "a\xe2\x80\xae"
                  "b")
            .answer.status == 422);
  CHECK(door.pair(code, "phone").answer.status == 422);
  CHECK(door.pair(code, "<img src=x>").answer.status == 303);
}

TEST_CASE("a device that is forgotten is let in no more, and stays in the list", "[page][pairing]") {
  Door door;
  door.let_in("phone");
  CHECK(door.status(door.head("GET", "/nowhere")) == 404);
  door.record([](book::Recording& recording) { book::forget_device(recording, "phone"); });
  CHECK(door.status(door.head("GET", "/nowhere")) == 303);
  CHECK(book::devices(door.book()).size() == 1);
  CHECK(door.refusal_of([](book::Recording& recording) { book::forget_device(recording, "phon"); }) ==
        "forget: found the device \"phon\", expected the name of one that is paired");
  CHECK(door.sql("DELETE FROM device").find("devices are forgotten, not deleted") != std::string::npos);
  CHECK(door.sql("UPDATE device SET forgotten = NULL").find("a device is what it was when it was paired") !=
        std::string::npos);
  door.let_in("phone");  // the name is free again
  CHECK(door.health().sound);
}

TEST_CASE("roads, methods and bodies that are none are refused by their head", "[page]") {
  Door door;
  door.let_in();
  CHECK(door.status(door.head("GET", "/../../etc/passwd")) == 404);
  CHECK(door.status(door.head("GET", "/car/%2e%2e%2fx/more/y")) == 404);
  CHECK(door.status(door.head("GET", "/%00")) == 400);
  const Reply put = door.ask(door.head("PUT", "/pair"));
  CHECK(put.answer.status == 405);
  CHECK(Door::header(put, "Allow") == "GET, POST");
  Head long_form = door.head("POST", "/pair");
  long_form.media_type = "application/x-www-form-urlencoded";
  long_form.length = (64 << 10) + 1;
  CHECK(door.status(long_form) == 413);
  Head json = door.head("POST", "/pair");
  json.media_type = "application/json";
  json.length = 2;
  CHECK(door.status(json) == 415);
  Head with_body = door.head("GET", "/pair");
  with_body.length = 1;
  CHECK(door.status(with_body) == 413);
  with_body.length.reset();
  with_body.chunked = true;
  CHECK(door.status(with_body) == 413);
}

TEST_CASE("a photo is let in only while the disk keeps room for the book", "[page]") {
  Door door;
  door.let_in();
  Head photo = door.head("PUT", "/entry/0123456789abcdef0123456789abcdef/photo");
  photo.length = 1000;
  CHECK(door.porter.admit(photo, door.book(), 100).to == Admission::To::room);
  Limits limits;
  limits.free_disk = std::uint64_t{1} << 62;
  Porter porter(ours_of("http", "127.0.0.1", 8417), limits, "ada");
  const Admission refused = porter.admit(photo, door.book(), 100);
  CHECK(refused.to == Admission::To::nobody);
  CHECK(refused.refused.answer.status == 507);
  CHECK(refused.refused.answer.body ==
        "the disk is nearly full: make room on the machine that holds the book\n");
  // What was typed is small, and goes in.
  CHECK(porter.admit(door.head("POST", "/entry"), door.book(), 101).to == Admission::To::room);
}

TEST_CASE("every answer says what a browser may do with it", "[page]") {
  Door door;
  for (const Reply& reply : {door.ask(door.head("GET", "/pair")), door.ask(door.head("GET", "/")),
                             door.ask(door.head("DELETE", "/")), door.ask(door.head("GET", "/style.css"))}) {
    CHECK(
        Door::header(reply, "Content-Security-Policy") ==
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; "
        "manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'");
    CHECK(Door::header(reply, "X-Content-Type-Options") == "nosniff");
    CHECK(Door::header(reply, "Referrer-Policy") == "same-origin");
    CHECK(Door::header(reply, "Cross-Origin-Resource-Policy") == "same-origin");
    CHECK(Door::header(reply, "Cross-Origin-Opener-Policy") == "same-origin");
    CHECK(Door::header(reply, "Access-Control-Allow-Origin") == "");
  }
  CHECK(Door::header(door.ask(door.head("GET", "/pair")), "Cache-Control") == "no-store");
  CHECK(Door::header(door.ask(door.head("GET", "/style.css")), "Cache-Control") ==
        "private, max-age=2592000");
}

TEST_CASE("nothing that was typed becomes a header", "[page]") {
  Reply reply;
  reply.answer.save_as = "a\"; x=\r\nSet-Cookie: y";
  reply.answer.location = "/a\r\nSet-Cookie: y";
  CHECK(Door::header(reply, "Content-Disposition") == "");
  CHECK(Door::header(reply, "Location") == "");
  reply.answer.location = "//evil.example/";
  CHECK(Door::header(reply, "Location") == "");
  reply.answer.save_as = "pip-profit.xlsx";
  CHECK(Door::header(reply, "Content-Disposition") == "attachment; filename=\"pip-profit.xlsx\"");
}

// RFC 4231, section 4.3, test case 2 (read from memory): key "Jefe".
TEST_CASE("the house proves itself by HMAC-SHA-256", "[page][outside]") {
  CHECK(book::hmac_sha256("4a656665", "what do ya want for nothing?") ==
        "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843");
  Door door;
  door.let_in();
  const std::string id = book::devices(door.book())[0].id;
  const std::string nonce(32, 'a');
  door.cookie.clear();
  const Reply proof = door.ask(door.head("GET", "/proof?device=" + id + "&nonce=" + nonce));
  CHECK(proof.answer.body ==
        "{\n  \"proof\": \"" + book::hmac_sha256(*book::proof_key(door.book(), id), nonce) + "\"\n}\n");
  CHECK(door.status(door.head("GET", "/proof?device=" + id + "&nonce=aa")) == 404);
  CHECK(door.status(door.head("GET", "/proof?device=" + std::string(32, '0') + "&nonce=" + nonce)) == 404);
  door.record([](book::Recording& recording) { book::forget_device(recording, "phone"); });
  CHECK(door.status(door.head("GET", "/proof?device=" + id + "&nonce=" + nonce)) == 404);
}

TEST_CASE("the address of the house stays while a device is let in by it", "[page]") {
  Door door;
  const book::HouseAddress first{"http", "192.168.1.20", 8417}, second{"https", "192.168.1.20", 8417};
  door.record([&](book::Recording& recording) { book::set_house_address(recording, first, false); });
  door.record([&](book::Recording& recording) { book::set_house_address(recording, second, false); });
  door.record([&](book::Recording& recording) { book::set_house_address(recording, first, false); });
  CHECK(book::house_address(door.book()) == first);
  door.record([&](book::Recording& recording) {
    const std::string code = book::open_code(recording);
    book::pair(recording, code, "phone", "ada", first.origin());
  });
  CHECK(door.refusal_of([&](book::Recording& recording) {
    book::set_house_address(recording, second, false);
  }) == "serve: found https://192.168.1.20:8417, expected http://192.168.1.20:8417, by which \"phone\" was "
        "paired: what "
        "it still holds could not reach the book by another address; empty it first, then say that it moves, "
        "or forget "
        "the device");
  door.record([&](book::Recording& recording) { book::set_house_address(recording, second, true); });
  CHECK(book::house_address(door.book()) == second);
}

TEST_CASE("text is packed for a browser that takes it so, figures are kept nowhere all the same", "[page]") {
  Door door;
  door.let_in();
  Head head = door.head("GET", "/paper/new");
  const Reply plain = door.ask(head);
  CHECK(Door::header(plain, "Content-Encoding") == "");
  CHECK(Door::header(plain, "Vary") == "Accept-Encoding");
  head.accept_coding = "gzip, deflate";
  const Reply packed = door.ask(head);
  CHECK(Door::header(packed, "Content-Encoding") == "gzip");
  CHECK(Door::header(packed, "Vary") == "Accept-Encoding");
  CHECK(Door::header(packed, "Cache-Control") == "no-store");
  CHECK(packed.answer.body.size() < plain.answer.body.size() / 2);
}

TEST_CASE("a page that is none has a way home for whoever is let in, and no page for a script", "[page]") {
  Door door;
  door.let_in();
  const Reply page = door.ask(door.head("GET", "/cars"));
  CHECK(page.answer.status == 404);
  CHECK(read_aloud(page.answer) == "There is no such page\n<Cars -> />\n");
  Head script = door.head("GET", "/cars");
  script.accept = "application/json";
  CHECK(door.ask(script).answer.type == "application/json");
}
