#include "page/house.h"

#include <fmt/format.h>
#include <sys/stat.h>

#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/ip/v6_only.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/ssl.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>
#include <boost/beast/ssl.hpp>
#include <chrono>
#include <csignal>
#include <ctime>
#include <fstream>
#include <limits>
#include <map>
#include <set>
#include <utility>

#include "exact/ends.h"
#include "page/house_log.h"
#include "page/serving.h"
#include "words/ending.h"

namespace nonrunner::page {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = boost::beast::http;
namespace fs = std::filesystem;
using asio::ip::tcp;
using boost::system::error_code;
using std::chrono::seconds;
using Clock = std::chrono::steady_clock;

namespace {

// The wire of one visitor, bare or under TLS, as one kind of stream: the rest is compiled once.
class Wire {
 public:
  using executor_type = beast::tcp_stream::executor_type;
  Wire(tcp::socket socket, asio::ssl::context* tls) : tcp_(std::move(socket)) {
    if (tls != nullptr) tls_.emplace(tcp_, *tls);
  }
  executor_type get_executor() { return tcp_.get_executor(); }
  beast::tcp_stream& bare() { return tcp_; }
  beast::ssl_stream<beast::tcp_stream&>* tls() { return tls_ ? &*tls_ : nullptr; }

  template <class Buffers, class Handler>
  auto async_read_some(const Buffers& buffers, Handler&& handler) {
    return asio::async_initiate<Handler, void(error_code, std::size_t)>(
        [this](auto done, const Buffers& into) {
          if (tls_)
            tls_->async_read_some(into, std::move(done));
          else
            tcp_.async_read_some(into, std::move(done));
        },
        handler, buffers);
  }
  template <class Buffers, class Handler>
  auto async_write_some(const Buffers& buffers, Handler&& handler) {
    return asio::async_initiate<Handler, void(error_code, std::size_t)>(
        [this](auto done, const Buffers& from) {
          if (tls_)
            tls_->async_write_some(from, std::move(done));
          else
            tcp_.async_write_some(from, std::move(done));
        },
        handler, buffers);
  }

 private:
  beast::tcp_stream tcp_;
  std::optional<beast::ssl_stream<beast::tcp_stream&>> tls_;
};

// An open book, opened again where another file has come to stand at its place: what would be written to the one that
// is gone would be lost.
class Desk {
 public:
  explicit Desk(std::function<book::Book()> open) : open_(std::move(open)) {}
  book::Book& book() {
    if (book_ && same_file()) return *book_;
    book_.reset();
    book_.emplace(open_());
    struct stat now {};
    if (::stat(book_->path().c_str(), &now) == 0) file_ = {now.st_dev, now.st_ino};
    after_keeping_ = std::exchange(book_->after_keeping, [this](const book::Book&) { has_kept_ = true; });
    return *book_;
  }
  // What follows a commit, once the answer is on its way; of a room apart, once it is made.
  void catch_up() {
    if (std::exchange(has_kept_, false) && book_ && after_keeping_) after_keeping_(*book_);
  }

 private:
  bool same_file() const {
    struct stat now {};
    return ::stat(book_->path().c_str(), &now) == 0 && file_ == std::pair(now.st_dev, now.st_ino);
  }
  std::function<book::Book()> open_;
  std::optional<book::Book> book_;
  std::function<void(const book::Book&)> after_keeping_;
  bool has_kept_ = false;
  std::pair<dev_t, ino_t> file_{};
};

Head head_of(const http::request_parser<http::empty_body>& parser) {
  const auto& message = parser.get();
  Head head;
  const auto text = [](beast::string_view view) { return std::string(view.data(), view.size()); };
  const auto all = [&](http::field name) {
    std::vector<std::string> values;
    const auto [from, to] = message.equal_range(name);
    for (auto each = from; each != to; ++each) values.push_back(text(each->value()));
    return values;
  };
  head.method = text(message.method_string());
  head.target = text(message.target());
  head.version = static_cast<int>(message.version());
  head.hosts = all(http::field::host);
  head.origins = all(http::field::origin);
  head.cookies = all(http::field::cookie);
  head.site = text(message["Sec-Fetch-Site"]);
  head.mode = text(message["Sec-Fetch-Mode"]);
  head.accept = text(message[http::field::accept]);
  head.accept_coding = text(message[http::field::accept_encoding]);
  head.media_type = text(message[http::field::content_type]);
  head.coding = text(message[http::field::content_encoding]);
  head.chunked = message.chunked();
  // Any other coding would leave open where the body ends, and the next request begins.
  for (const std::string& coding : all(http::field::transfer_encoding))
    if (!beast::iequals(coding, "chunked")) head.coding = coding;
  if (const auto length = parser.content_length()) head.length = *length;
  return head;
}

std::string http_date() {
  const std::time_t now = std::time(nullptr);
  std::tm utc{};
  gmtime_r(&now, &utc);
  char text[40];
  std::strftime(text, sizeof text, "%a, %d %b %Y %H:%M:%S GMT", &utc);
  return text;
}

// Where a photo's bytes go; the file goes with it.
struct Upload {
  fs::path file;
  ~Upload() {
    std::error_code ignored;
    if (!file.empty()) fs::remove(file, ignored);
  }
};

std::string first_bytes(const fs::path& file) {
  std::string bytes(12, '\0');
  std::ifstream in(file, std::ios::binary);
  in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  bytes.resize(static_cast<std::size_t>(in.gcount()));
  return bytes;
}

}  // namespace

class House::Rooms {
 public:
  explicit Rooms(HouseKeeping);
  ~Rooms() { ending_ = false; }
  Rooms(const Rooms&) = delete;
  Rooms& operator=(const Rooms&) = delete;
  bool run();
  const std::vector<Ours>& ours() const { return ours_; }

 private:
  class Session;
  struct Door {  // one listening address
    tcp::acceptor acceptor;
    std::unique_ptr<asio::ssl::context> tls;
    std::unique_ptr<Porter> porter;
  };

  void listen_at(const Listening&, const fs::path& book);
  void accept(Door&);
  void end();
  void gone(Session*, const asio::ip::address&);

  HouseKeeping keeping_;
  Desk desk_, slow_desk_;
  std::optional<Serving> serving_;
  HouseLog log_;
  std::vector<Ours> ours_;
  std::string where_;  // where the page is, for the next one who wants to serve the same book
  std::set<Session*> sessions_;
  std::map<asio::ip::address, std::size_t> of_address_;
  bool ending_ = false;
  asio::io_context io_{1};  // after what its last handlers still reach
  asio::signal_set signals_{io_};
  asio::steady_timer last_call_{io_}, again_{io_};
  std::vector<std::unique_ptr<Door>> doors_;
  std::unique_ptr<asio::thread_pool> slow_ = std::make_unique<asio::thread_pool>(1);
};

// One visitor's wire: requests one after another, each read whole before it is answered, but for what is refused by its
// head.
class House::Rooms::Session : public std::enable_shared_from_this<Session> {
 public:
  Session(Rooms& rooms, Door& door, tcp::socket socket, const asio::ip::address& peer)
      : rooms_(rooms), porter_(*door.porter), peer_(peer), wire_(std::move(socket), door.tls.get()) {
    rooms_.sessions_.insert(this);
    ++rooms_.of_address_[peer_];
  }
  ~Session() { rooms_.gone(this, peer_); }
  Session(const Session&) = delete;
  Session& operator=(const Session&) = delete;

  void begin();
  bool in_hand() const { return in_hand_; }
  void close();

 private:
  const Limits& limits() const { return rooms_.keeping_.limits; }
  void clock(int of) { wire_.bare().expires_after(seconds(of)); }
  template <class Member>
  auto then(Member member) {
    return [self = shared_from_this(), member](error_code error, std::size_t = 0) {
      (self.get()->*member)(error);
    };
  }

  void wait();
  void read_head();
  void head_is_here(error_code);
  void read_form();
  void form_is_here(error_code);
  void begin_photo();
  void read_photo();
  void part_of_photo(error_code);
  void photo_is_here();
  void body_broke(error_code);
  void answer();
  void answer_apart();
  void send(Reply);
  template <class Body>
  void write(std::shared_ptr<http::response<Body>>);
  template <class Body>
  void write_on(std::shared_ptr<http::response<Body>>, std::shared_ptr<http::response_serializer<Body>>);
  void sent(bool keep);
  void linger(error_code = {});
  void refuse(int status, const std::string& says);

  Rooms& rooms_;
  Porter& porter_;
  asio::ip::address peer_;
  Wire wire_;
  beast::flat_buffer buffer_{64 << 10};
  std::optional<http::request_parser<http::empty_body>> head_;
  std::optional<http::request_parser<http::string_body>> form_;
  std::optional<http::request_parser<http::file_body>> photo_;
  Upload upload_;
  fs::path sent_file_;  // goes when it was sent
  Admission admission_;
  Clock::time_point began_, body_began_;
  bool in_hand_ = false, keep_ = false, looked_at_ = false;
  std::uint64_t to_drain_ = 0;  // bytes of a refused request that are still let in
};

void House::Rooms::Session::begin() {
  if (wire_.tls() == nullptr) return wait();
  clock(limits().patience);
  wire_.tls()->async_handshake(asio::ssl::stream_base::server, [self = shared_from_this()](error_code error) {
    if (!error) self->wait();
  });
}

void House::Rooms::Session::close() {
  error_code ignored;
  wire_.bare().socket().shutdown(tcp::socket::shutdown_both, ignored);
  wire_.bare().close();
}

// Between two requests: the clock of the next one begins with its first byte.
void House::Rooms::Session::wait() {
  if (rooms_.ending_) return close();
  if (buffer_.size() > 0) return read_head();
  clock(limits().patience);
  wire_.async_read_some(buffer_.prepare(4096),
                        [self = shared_from_this()](error_code error, std::size_t bytes) {
                          if (error) return self->close();
                          self->buffer_.commit(bytes);
                          self->read_head();
                        });
}

void House::Rooms::Session::read_head() {
  form_.reset();
  photo_.reset();
  admission_ = {};
  head_.emplace();
  head_->header_limit(static_cast<std::uint32_t>(limits().header));
  // Weighed by the porter, and counted by the parser that takes the body; "no limit" refuses all in Boost 1.74.
  head_->body_limit(std::numeric_limits<std::uint64_t>::max());
  clock(limits().patience);
  http::async_read_header(wire_, buffer_, *head_, then(&Session::head_is_here));
}

void House::Rooms::Session::head_is_here(error_code error) {
  began_ = Clock::now();
  keep_ = false;
  to_drain_ = error ? limits().form : limits().photo;
  if (error == http::error::end_of_stream || error == beast::error::timeout ||
      error == asio::error::operation_aborted)
    return close();
  if (error == http::error::header_limit) return refuse(431, "the head of the request is too long");
  if (error) return refuse(400, "this is no request of HTTP");
  keep_ = head_->get().keep_alive();
  try {
    admission_ = porter_.admit(head_of(*head_), rooms_.desk_.book(),
                               std::chrono::duration<double>(began_.time_since_epoch()).count());
  } catch (...) {
    const words::Ending ending = words::ending_of(std::current_exception(), "book");
    admission_.to = Admission::To::nobody;
    admission_.refused = plain_refusal(503, ending.message);
  }
  if (admission_.to == Admission::To::nobody) {
    keep_ = keep_ && head_->is_done();
    return send(std::move(admission_.refused));
  }
  body_began_ = began_;
  switch (admission_.body) {
    case Road::Body::photo:
      return begin_photo();
    case Road::Body::form:
      return read_form();
    case Road::Body::none:
      return answer();
  }
}

void House::Rooms::Session::read_form() {
  form_.emplace(std::move(*head_));
  form_->body_limit(admission_.limit);
  clock(limits().patience);
  http::async_read(wire_, buffer_, *form_, then(&Session::form_is_here));
}

void House::Rooms::Session::form_is_here(error_code error) {
  if (error) return body_broke(error);
  try {
    admission_.request.form = Form::read(form_->get().body());
  } catch (const Refusal& refused) {
    return refuse(400, refused.what());
  }
  answer();
}

void House::Rooms::Session::begin_photo() {
  error_code error;
  photo_.emplace(std::move(*head_));
  photo_->body_limit(admission_.limit);
  looked_at_ = false;
  upload_.file = upload_place(rooms_.desk_.book().path());
  photo_->get().body().open(upload_.file.c_str(), beast::file_mode::write_new, error);
  if (error) return refuse(503, "the photo cannot be written: " + error.message());
  read_photo();
}

void House::Rooms::Session::read_photo() {
  if (photo_->is_done()) return photo_is_here();
  const auto left = seconds(limits().photo_patience) - (Clock::now() - body_began_);
  wire_.bare().expires_after(std::min<Clock::duration>(seconds(limits().patience), left));
  http::async_read_some(wire_, buffer_, *photo_, then(&Session::part_of_photo));
}

void House::Rooms::Session::part_of_photo(error_code error) {
  if (error) return body_broke(error);
  // What is no photo is told so by its first bytes, not by its last.
  if (!looked_at_) {
    const std::string bytes = first_bytes(upload_.file);
    if (bytes.size() == 12) {
      looked_at_ = true;
      if (photo_type(bytes).empty()) return refuse(415, "expected a photo: JPEG, PNG or WebP");
    }
  }
  read_photo();
}

void House::Rooms::Session::photo_is_here() {
  photo_->get().body().close();
  admission_.request.media_type = photo_type(first_bytes(upload_.file));
  if (admission_.request.media_type.empty()) return refuse(415, "expected a photo: JPEG, PNG or WebP");
  admission_.request.uploaded = upload_.file;
  answer();
}

void House::Rooms::Session::body_broke(error_code error) {
  if (error == http::error::body_limit)
    return refuse(413, fmt::format("found more than {} bytes, expected fewer", admission_.limit));
  if (error == beast::error::timeout || error == http::error::partial_message ||
      error == http::error::end_of_stream ||
      error.category() != http::make_error_code(http::error::bad_chunk).category())
    return close();
  refuse(400, "this is no request of HTTP");
}

void House::Rooms::Session::answer() {
  in_hand_ = true;
  wire_.bare().expires_never();
  if (admission_.road != nullptr && admission_.road->slow) return answer_apart();
  try {
    send(porter_.answer(admission_, rooms_.desk_.book(), rooms_.keeping_.now()));
  } catch (const std::exception& error) {
    send(plain_refusal(503, words::ending_of(std::current_exception(), "book").message));
  }
  rooms_.desk_.catch_up();
}

void House::Rooms::Session::answer_apart() {
  asio::post(*rooms_.slow_, [self = shared_from_this()] {
    Rooms& rooms = self->rooms_;
    Reply reply;
    try {
      reply = self->porter_.answer(self->admission_, rooms.slow_desk_.book(), rooms.keeping_.now());
    } catch (const std::exception& error) {
      reply = plain_refusal(503, words::ending_of(std::current_exception(), "book").message);
    }
    rooms.slow_desk_.catch_up();
    // The session ends in the thread of the network, whatever becomes of it.
    asio::post(rooms.io_, [self, reply = std::move(reply)]() mutable { self->send(std::move(reply)); });
  });
}

void House::Rooms::Session::refuse(int status, const std::string& says) {
  keep_ = false;
  send(plain_refusal(status, says));
}

void House::Rooms::Session::send(Reply reply) {
  in_hand_ = true;
  if (!upload_.file.empty()) {
    std::error_code ignored;
    fs::remove(upload_.file, ignored);
    upload_.file.clear();
  }
  const auto fill = [&](auto& response) {
    response.version(11);
    response.result(static_cast<unsigned>(reply.answer.status));
    response.set(http::field::date, http_date());
    for (const auto& [name, value] : headers_of(reply)) response.insert(name, value);
    response.keep_alive(keep_ && !rooms_.ending_);
  };
  const double took = std::chrono::duration<double, std::milli>(Clock::now() - began_).count();
  rooms_.log_.line(rooms_.keeping_.now().now, admission_.request.device, admission_.request.method,
                   admission_.shown_road, reply.answer.status, took);
  if (!reply.answer.file.empty()) {
    error_code error;
    auto response = std::make_shared<http::response<http::file_body>>();
    response->body().open(reply.answer.file.c_str(), beast::file_mode::scan, error);
    if (reply.answer.file_goes) sent_file_ = reply.answer.file;
    if (error) return refuse(500, "the file that was made cannot be read: " + error.message());
    fill(*response);
    response->prepare_payload();
    return write(std::move(response));
  }
  auto response = std::make_shared<http::response<http::string_body>>();
  fill(*response);
  response->body() = std::move(reply.answer.body);
  response->prepare_payload();
  write(std::move(response));
}

template <class Body>
void House::Rooms::Session::write(std::shared_ptr<http::response<Body>> response) {
  auto serializer = std::make_shared<http::response_serializer<Body>>(*response);
  body_began_ = Clock::now();
  if (admission_.request.method != "HEAD") return write_on(std::move(response), std::move(serializer));
  clock(limits().patience);
  const bool keep = response->keep_alive();
  http::async_write_header(wire_, *serializer,
                           [self = shared_from_this(), response, serializer, keep](
                               error_code error, std::size_t) { self->sent(keep && !error); });
}

template <class Body>
void House::Rooms::Session::write_on(std::shared_ptr<http::response<Body>> response,
                                     std::shared_ptr<http::response_serializer<Body>> serializer) {
  const auto left = seconds(limits().photo_patience) - (Clock::now() - body_began_);
  wire_.bare().expires_after(std::min<Clock::duration>(seconds(limits().patience), left));
  auto& stands = *serializer;
  http::async_write_some(wire_, stands,
                         [self = shared_from_this(), response = std::move(response),
                          serializer = std::move(serializer)](error_code error, std::size_t) mutable {
                           if (error) return self->sent(false);
                           if (!serializer->is_done())
                             return self->write_on(std::move(response), std::move(serializer));
                           self->sent(response->keep_alive());
                         });
}

void House::Rooms::Session::sent(bool keep) {
  if (!sent_file_.empty()) {
    std::error_code ignored;
    fs::remove(sent_file_, ignored);
    sent_file_.clear();
  }
  in_hand_ = false;
  if (keep && !rooms_.ending_) return wait();
  if (rooms_.ending_) return close();
  error_code ignored;
  if (wire_.tls() == nullptr) wire_.bare().socket().shutdown(tcp::socket::shutdown_send, ignored);
  clock(2);
  linger();
}

// What still comes of a body that was refused is let in for a moment and thrown away, so that the answer arrives before
// the wire is cut.
void House::Rooms::Session::linger(error_code error) {
  if (error || to_drain_ == 0 || rooms_.ending_) return close();
  buffer_.clear();
  wire_.async_read_some(buffer_.prepare(16 << 10),
                        [self = shared_from_this()](error_code broken, std::size_t bytes) {
                          self->to_drain_ -= std::min<std::uint64_t>(self->to_drain_, bytes);
                          self->linger(broken);
                        });
}

House::Rooms::Rooms(HouseKeeping keeping)
    : keeping_(std::move(keeping)),
      desk_(keeping_.open_book),
      slow_desk_(keeping_.open_book),
      log_(keeping_.log) {
  // Before anybody is told that the house is open: what comes before run() waits for it.
  signals_.add(SIGINT);
  signals_.add(SIGTERM);
  const fs::path book = desk_.book().path();
  serving_.emplace(book);
  sweep_uploads(book);
  for (const Listening& listening : keeping_.at) listen_at(listening, book);
  serving_->at(where_);
}

void House::Rooms::listen_at(const Listening& listening, const fs::path&) {
  error_code error;
  // One port at every address: the second has the one that the machine chose for the first.
  const int wanted = listening.port != 0 || doors_.empty() ? listening.port
                                                           : doors_.front()->acceptor.local_endpoint().port();
  const auto address = asio::ip::make_address(listening.address, error);
  tcp::acceptor acceptor(io_);
  const tcp::endpoint place(address, static_cast<unsigned short>(wanted));
  if (!error) acceptor.open(place.protocol(), error);
  if (!error) acceptor.set_option(tcp::acceptor::reuse_address(true), error);
  if (!error && address.is_v6()) acceptor.set_option(asio::ip::v6_only(true), error);
  if (!error) acceptor.bind(place, error);
  if (!error) acceptor.listen(tcp::acceptor::max_listen_connections, error);
  if (error == asio::error::address_in_use)
    throw MachineFailure(
        fmt::format("serve: port {} of {} is taken by another program, expected a free one; choose "
                    "another port",
                    wanted, listening.address));
  if (error && listening.may_lack) return;
  if (error)
    throw MachineFailure(fmt::format("serve: {} cannot be listened at: {}; name an address of this machine",
                                     listening.address, error.message()));
  auto door = std::make_unique<Door>(Door{std::move(acceptor), nullptr, nullptr});
  if (listening.certificate) {
    door->tls = std::make_unique<asio::ssl::context>(asio::ssl::context::tls_server);
    door->tls->set_options(asio::ssl::context::default_workarounds | asio::ssl::context::no_sslv2 |
                           asio::ssl::context::no_sslv3 | asio::ssl::context::no_tlsv1 |
                           asio::ssl::context::no_tlsv1_1);
    const auto& [chain, key] = *listening.certificate;
    door->tls->use_certificate_chain(asio::buffer(chain), error);
    if (!error) door->tls->use_private_key(asio::buffer(key), asio::ssl::context::pem, error);
    if (error) throw MachineFailure("serve: the certificate of the house cannot be used: " + error.message());
  }
  const int port = door->acceptor.local_endpoint().port();
  ours_.push_back(ours_of(listening.scheme, listening.address, port));
  if (listening.offers.empty()) where_ += (where_.empty() ? "" : " ") + ours_.back().origin();
  door->porter = std::make_unique<Porter>(ours_.back(), keeping_.limits, keeping_.owner, listening.offers);
  doors_.push_back(std::move(door));
}

void House::Rooms::accept(Door& door) {
  door.acceptor.async_accept([this, &door](error_code error, tcp::socket socket) {
    if (error == asio::error::operation_aborted || ending_) return;
    if (error) {  // no more files, for instance: the next try a little later
      again_.expires_after(std::chrono::milliseconds(100));
      again_.async_wait([this, &door](error_code) {
        if (!ending_) accept(door);
      });
      return;
    }
    error_code broken;
    const auto peer = socket.remote_endpoint(broken).address();
    const auto known = of_address_.find(peer);
    const std::size_t of_peer = known == of_address_.end() ? 0 : known->second;
    if (!broken && sessions_.size() < keeping_.limits.in_all && of_peer < keeping_.limits.an_address) {
      socket.set_option(tcp::no_delay(true), broken);
      std::make_shared<Session>(*this, door, std::move(socket), peer)->begin();
    }
    accept(door);
  });
}

void House::Rooms::gone(Session* session, const asio::ip::address& peer) {
  sessions_.erase(session);
  const auto found = of_address_.find(peer);
  if (found != of_address_.end() && --found->second == 0) of_address_.erase(found);
  if (ending_ && sessions_.empty()) last_call_.cancel();
}

void House::Rooms::end() {
  ending_ = true;
  error_code ignored;
  for (const auto& door : doors_) door->acceptor.close(ignored);
  again_.cancel();
  // Closing one may end others' last reference only later: a copy is walked.
  const std::vector<Session*> all(sessions_.begin(), sessions_.end());
  for (Session* session : all)
    if (!session->in_hand()) session->close();
  if (sessions_.empty()) return;
  last_call_.expires_after(seconds(keeping_.limits.to_finish));
  last_call_.async_wait([this](error_code error) {
    if (!error) io_.stop();
  });
}

bool House::Rooms::run() {
  signals_.async_wait([this](error_code error, int) {
    if (!error) end();
  });
  for (const auto& door : doors_) accept(*door);
  io_.run();
  return sessions_.empty();
}

House::House(HouseKeeping keeping) : rooms_(std::make_unique<Rooms>(std::move(keeping))) {}
House::~House() = default;
const std::vector<Ours>& House::ours() const { return rooms_->ours(); }
bool House::run() { return rooms_->run(); }

}  // namespace nonrunner::page
