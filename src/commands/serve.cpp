// The page of the shop, for the browsers of this machine and, where an address is named, of the home network.
#include <cstdlib>
#include <ctime>

#include "answers/question.h"
#include "book/care/devices.h"
#include "book/care/heads.h"
#include "commands/ask.h"
#include "commands/at_login.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/moment.h"
#include "commands/qr_code.h"
#include "exact/ends.h"
#include "page/authority.h"
#include "page/house.h"
#include "page/serving.h"
#include "words/paired.h"

namespace nonrunner::commands {

namespace {

constexpr int usual_port = 8417;

page::Moment moment_now() {
  const std::time_t now = std::time(nullptr);
  return {local_day(now), utc_moment(now)};
}

// A book that stays open: what is kept in it is remembered on the day that it is then. Whether it is the one that was
// seen here last was told when the command opened it.
book::Book book_of_the_house(const std::filesystem::path& path, const Terminal& terminal) {
  book::Book book = book::Book::open(path);
  // Nobody waits a minute for a page.
  book.database().setBusyTimeout(5'000);
  if (const auto folder = terminal.heads())
    book.after_keeping = [folder = *folder, left = book::HeadsAsLeft{}](const book::Book& kept) mutable {
      book::remember_head(kept, folder, moment_now().today, true, &left);
    };
  return book;
}

int port_of(const Given& given, int else_port = usual_port) {
  const auto text = given.text("port");
  if (!text) return else_port;
  const bool digits =
      !text->empty() && text->size() <= 5 && text->find_first_not_of("0123456789") == std::string::npos;
  const int port = digits ? std::stoi(*text) : -1;
  if (port < 0 || port > 65535)
    given.wrong(
        fmt::format("--port: found \"{}\", expected a number up to 65535, or 0 for a free one", *text));
  return port;
}

int list_devices(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  const auto all = book::devices(book);
  if (given.json()) {
    terminal.out << words::devices_as_json(all);
    return 0;
  }
  if (all.empty()) {
    terminal.out << "no device is paired\n";
    return 0;
  }
  for (const book::Device& device : all)
    terminal.out << fmt::format(
        "{}  of {}, by {}, paired {}, last seen {}{}\n", device.name,
        device.person == "me" ? "you" : device.person, device.origin, device.paired.substr(0, 10),
        device.seen.substr(0, 10),
        device.forgotten.empty() ? "" : ", forgotten " + device.forgotten.substr(0, 10));
  return 0;
}

int forget(const Given& given, Terminal& terminal, const std::string& name) {
  book::Book book = open_book(given, terminal);
  book::Recording recording(book, terminal.now, terminal.today);
  try {
    book::forget_device(recording, name);
  } catch (const Refusal& refusal) {
    const std::string what = refusal.what();
    throw Refusal(what.ends_with("?") ? what : what + "; see: nonrunner serve --devices");
  }
  recording.keep();
  terminal.out << fmt::format("{} is forgotten: it is asked to pair again\n", name);
  return 0;
}

std::string new_code(book::Book& book, const page::Moment& moment) {
  book::Recording recording(book, moment.now, moment.today);
  std::string code = book::open_code(recording);
  recording.keep();
  return code;
}

// With a picture of it for a phone's camera, where the address is one that a phone reaches.
void show_code(Terminal& terminal, const std::string& origin, const std::string& code) {
  const std::string address = fmt::format("{}/pair#{}", origin, code);
  terminal.out << fmt::format("to pair a device, within {} minutes: {}\n", book::code_minutes, address);
  const bool here =
      origin.find("//127.0.0.1") != std::string::npos || origin.find("//[::1]") != std::string::npos;
  if (!here && terminal.out_is_terminal) terminal.out << qr_in_half_blocks(address);
}

// For a house that is open already, in another terminal or by itself.
int pair_one_more(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const std::string where = page::Serving::where(book.path());
  if (where.empty()) throw Refusal("serve: the book is not served just now; open the house: nonrunner serve");
  const std::string code = new_code(book, {terminal.today, terminal.now});
  for (std::size_t at = 0; at < where.size();) {
    const std::size_t end = std::min(where.find(' ', at), where.size());
    show_code(terminal, where.substr(at, end - at), code);
    at = end + 1;
  }
  return 0;
}

// How the home network reaches the house: as it was served there last, else as is said, else as is answered.
book::HouseAddress home_address(const Given& given, Terminal& terminal, const book::Book& book, int port) {
  const std::string address = *given.text("lan");
  if (!page::is_private_address(address))
    given.wrong(fmt::format(
        "--lan: found \"{}\", expected one private address of this machine, such as 192.168.1.20", address));
  if (port == 0) given.wrong("--port: found 0, expected a port that stays, for the home network");
  if (given.flag("plain") && given.flag("authority"))
    given.wrong("found --plain and --authority, expected one of them");
  if (given.flag("plain")) return {"http", address, port};
  if (given.flag("authority")) return {"https", address, port};
  if (const auto before = book::house_address(book)) return {before->scheme, address, port};
  const answers::Question question{"serve",
                                   "in the home network the page can go two ways",
                                   {{"p",
                                     "nothing to install; everybody in this network can read along, and away "
                                     "from home the page opens but not "
                                     "after a reload",
                                     "plain", ""},
                                    {"a",
                                     "under TLS, by an authority of the shop that you install once on each "
                                     "device; away from home the page opens "
                                     "in every way",
                                     "authority", ""}},
                                   std::nullopt};
  return {ask(question, terminal) == 0 ? "http" : "https", address, port};
}

// Refused before anything listens; remembered once it does.
void expect_movable(book::Book& book, const book::HouseAddress& home, bool move) {
  const page::Moment moment = moment_now();
  book::Recording recording(book, moment.now, moment.today);
  try {
    book::set_house_address(recording, home, move);
  } catch (const Refusal& refusal) {
    throw Refusal(std::string(refusal.what()) + ": --move, or --forget NAME");
  }
}
void remember_home(book::Book& book, const book::HouseAddress& home, bool move) {
  const page::Moment moment = moment_now();
  book::Recording recording(book, moment.now, moment.today);
  book::set_house_address(recording, home, move);
  recording.keep();
}

std::vector<page::Listening> doors(int port, const std::optional<book::HouseAddress>& home,
                                   const std::optional<page::Authority>& authority) {
  std::vector<page::Listening> at{{"http", "127.0.0.1", port, {}, false, ""},
                                  {"http", "::1", port, {}, true, ""}};
  if (!home) return at;
  at.push_back({home->scheme, home->address, home->port, {}, false, ""});
  if (!authority) return at;
  at.back().certificate = page::certificate_for(*authority, home->address);
  at.push_back(
      {"http", home->address, port == 65535 ? port - 1 : port + 1, {}, false, authority->certificate});
  return at;
}

void say_where(Terminal& terminal, const book::Book& book, const page::House& house,
               const std::optional<book::HouseAddress>& home,
               const std::optional<page::Authority>& authority) {
  terminal.out << fmt::format("the page of {}: {}/\n", book.path().string(), house.ours().front().origin());
  if (!home) return;
  terminal.out << fmt::format("in the home network: {}/\n", home->origin());
  if (!authority) {
    terminal.out << "everybody in this network can read along\n";
    return;
  }
  const std::string its_file = house.ours().back().origin() + "/authority.crt";
  terminal.out << fmt::format(
      "the authority that each device has to install once, while a code is open: {}\n"
      "its SHA-256 fingerprint: {}\n",
      its_file, authority->fingerprint);
  if (terminal.out_is_terminal) terminal.out << qr_in_half_blocks(its_file);
}

// In the home network the port stays what it was: what a phone keeps hangs on it.
int port_with_home(const Given& given, const book::Book& book) {
  const auto before = given.text("lan") ? book::house_address(book) : std::nullopt;
  return port_of(given, before ? before->port : usual_port);
}

int open_house(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const int port = port_with_home(given, book);
  std::optional<book::HouseAddress> home;
  if (given.text("lan"))
    home = home_address(given, terminal, book, port);
  else if (given.flag("plain") || given.flag("authority") || given.flag("move"))
    given.wrong("found --plain, --authority or --move, expected them with --lan ADDRESS");
  if (home) expect_movable(book, *home, given.flag("move"));
  std::optional<page::Authority> authority;
  if (home && home->scheme == "https") authority = page::authority_of(book.path());
  page::HouseKeeping keeping;
  keeping.at = doors(port, home, authority);
  keeping.open_book = [&] { return book_of_the_house(book.path(), terminal); };
  keeping.now = moment_now;
  keeping.owner = terminal.login().empty() ? "owner" : terminal.login();
  keeping.log = book.path().string() + ".log";
  page::House house(std::move(keeping));
  if (home) remember_home(book, *home, given.flag("move"));
  say_where(terminal, book, house, home, authority);
  if (!given.flag("no-code"))
    show_code(terminal, home ? home->origin() : house.ours().front().origin(), new_code(book, moment_now()));
  terminal.out << "Ctrl-C ends it\n" << std::flush;
  if (!house.run()) std::_Exit(0);  // a long computation that changes nothing is not waited for
  terminal.out << "the page is closed\n";
  return 0;
}

std::filesystem::path configuration_of(const Terminal& terminal) {
  for (const auto& [name, below] : {std::pair("XDG_CONFIG_HOME", ""), std::pair("HOME", ".config")})
    if (const auto found = terminal.environment.find(name);
        found != terminal.environment.end() && !found->second.empty())
      return std::filesystem::path(found->second) / below;
  throw WrongUsage("serve: --at-login: HOME is not set, expected the folder of a login");
}

// What it was called with, without what is asked or said once: it has to open the same house with nobody there.
std::vector<std::string> same_again(const book::Book& book, const std::optional<book::HouseAddress>& home,
                                    int port) {
  std::error_code error;
  std::vector<std::string> words{std::filesystem::read_symlink("/proc/self/exe", error).string(),
                                 "serve",
                                 "--no-code",
                                 "--book",
                                 std::filesystem::absolute(book.path()).lexically_normal().string(),
                                 "--port",
                                 std::to_string(port)};
  if (home)
    words.insert(words.end(), {"--lan", home->address, home->scheme == "http" ? "--plain" : "--authority"});
  return words;
}

// How the home network reaches it then: as is said, else as it was reached before, since a phone that was paired so
// reaches it in no other way.
std::optional<book::HouseAddress> home_at_login(const Given& given, Terminal& terminal,
                                                const book::Book& book) {
  if (given.text("lan")) return home_address(given, terminal, book, port_with_home(given, book));
  if (given.flag("plain") || given.flag("authority") || given.flag("move"))
    given.wrong("found --plain, --authority or --move, expected them with --lan ADDRESS");
  auto before = book::house_address(book);
  if (!before) return std::nullopt;
  const std::string origin = before->origin();
  const auto all = book::devices(book);
  if (std::none_of(all.begin(), all.end(), [&](const book::Device& device) {
        return device.forgotten.empty() && device.origin == origin;
      }))
    return std::nullopt;
  before->port = port_of(given, before->port);
  return before;
}

int at_login(const Given& given, Terminal& terminal, const std::string& wish) {
  if (wish != "on" && wish != "off")
    given.wrong(fmt::format("--at-login: found \"{}\", expected on or off", wish));
  const std::filesystem::path configuration = configuration_of(terminal);
  if (wish == "off") {
    terminal.out << (remove_unit(configuration)
                         ? "the page opens at login no more; one that is open stays open\n"
                         : "the page did not open at login\n");
    return 0;
  }
  const book::Book book = open_book(given, terminal);
  const auto home = home_at_login(given, terminal, book);
  const int port = home ? home->port : port_of(given);
  const auto unit = write_unit(configuration, unit_text(same_again(book, home, port)));
  terminal.out << fmt::format("{}: from the next login on the page is open\n", unit.string());
  if (home && home->scheme == "http") terminal.out << "everybody in this network can read along\n";
  terminal.out << (home ? fmt::format("in the home network: {}/\n", home->origin())
                        : std::string("on this machine only: with --lan ADDRESS a phone reaches it too\n"));
  std::error_code error;
  if (std::filesystem::exists("/run/systemd/system", error))
    terminal.out << "at once: systemctl --user daemon-reload && systemctl --user start nonrunner\n"
                    "a code to pair a device: nonrunner serve --pair\n";
  else
    terminal.out
        << "but this machine is not run by systemd: nothing will open it; begin it as your desktop begins "
           "other programs\n";
  return 0;
}

int run_serve(const Given& given, Terminal& terminal) {
  if (const auto wish = given.text("at-login")) return at_login(given, terminal, *wish);
  port_of(given);  // a slip is said before anything is done
  if (given.flag("devices")) return list_devices(given, terminal);
  if (const auto name = given.text("forget")) return forget(given, terminal, *name);
  if (given.flag("pair")) return pair_one_more(given, terminal);
  return open_house(given, terminal);
}

}  // namespace

extern const Command serve;
const Command serve{
    {"serve",
     "",
     "the shop as a page in the browser, here or in the home network",
     "nonrunner serve",
     {{"port", "N", "the port (else 8417)"},
      {"lan", "ADDRESS", "in the home network as well, by this private address of this machine"},
      {"plain", "", "with --lan: http; everybody in the network can read along"},
      {"authority", "", "with --lan: https, by an authority of the shop that each device installs"},
      {"move", "", "with --lan: by another address than its devices were paired by"},
      {"pair", "", "a new pairing code for the house that is open already"},
      {"no-code", "", "opens the house without a pairing code"},
      {"at-login", "on|off", "opens the house by itself at each login (a systemd unit of yours), or no more"},
      {"devices", "", "lists the devices that were paired"},
      {"forget", "NAME", "lets that device in no more"}},
     true,
     "A device is let in once it is paired: open the address with its code in the browser of that "
     "device. What a phone keeps away from home hangs on scheme, address and port: give this machine "
     "a fixed address in the settings of your router. The authority lies in BOOK.authority, its key "
     "readable by you alone; it can speak for private addresses only. What was asked for is written in "
     "BOOK.log."},
    run_serve};

}  // namespace nonrunner::commands
