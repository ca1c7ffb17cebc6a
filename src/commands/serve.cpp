// The page of the shop, for the browsers of this machine and, where an address is named, of the home network.
#include <cstdlib>
#include <ctime>

#include "book/care/devices.h"
#include "book/care/heads.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/moment.h"
#include "exact/ends.h"
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

// A book that stays open: what is kept in it is remembered on the day that it is then.
book::Book book_of_the_house(const Given& given, const Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  // Nobody waits a minute for a page.
  book.database().setBusyTimeout(5'000);
  if (const auto folder = terminal.heads())
    book.after_keeping = [folder = *folder](const book::Book& kept) {
      book::remember_head(kept, folder, moment_now().today, true);
    };
  return book;
}

int port_of(const Given& given) {
  const auto text = given.text("port");
  if (!text) return usual_port;
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
        "{}  of {}, by {}, paired {}, last seen {}{}\n", device.name, device.person, device.origin,
        device.paired.substr(0, 10), device.seen.substr(0, 10),
        device.forgotten.empty() ? "" : ", forgotten " + device.forgotten.substr(0, 10));
  return 0;
}

int forget(const Given& given, Terminal& terminal, const std::string& name) {
  book::Book book = open_book(given, terminal);
  book::Recording recording(book, terminal.now, terminal.today);
  book::forget_device(recording, name);
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

void show_code(Terminal& terminal, const std::string& origin, const std::string& code) {
  terminal.out << fmt::format("to pair a device, within {} minutes: {}/pair#{}\n", book::code_minutes, origin,
                              code);
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

int run_serve(const Given& given, Terminal& terminal) {
  if (given.flag("devices")) return list_devices(given, terminal);
  if (const auto name = given.text("forget")) return forget(given, terminal, *name);
  if (given.flag("pair")) return pair_one_more(given, terminal);
  const int port = port_of(given);
  book::Book book = book_of_the_house(given, terminal);
  page::HouseKeeping keeping;
  keeping.at = {{"http", "127.0.0.1", port, {}, false}, {"http", "::1", port, {}, true}};
  keeping.open_book = [&] { return book_of_the_house(given, terminal); };
  keeping.now = moment_now;
  keeping.owner = terminal.login().empty() ? "owner" : terminal.login();
  keeping.log = book.path().string() + ".log";
  page::House house(std::move(keeping));
  terminal.out << fmt::format("the page of {}: {}/\n", book.path().string(), house.ours().front().origin());
  if (!given.flag("no-code"))
    show_code(terminal, house.ours().front().origin(), new_code(book, moment_now()));
  terminal.out << "Ctrl-C ends it\n" << std::flush;
  if (!house.run()) std::_Exit(0);  // a long computation that changes nothing is not waited for
  terminal.out << "the page is closed\n";
  return 0;
}

}  // namespace

extern const Command serve;
const Command serve{
    {"serve",
     "",
     "the shop as a page in the browser, here or in the home network",
     "nonrunner serve",
     {{"port", "N", "the port (else 8417)"},
      {"pair", "", "a new pairing code for the house that is open already"},
      {"no-code", "", "opens the house without a pairing code"},
      {"devices", "", "lists the devices that were paired"},
      {"forget", "NAME", "lets that device in no more"}},
     true,
     "A device is let in once it is paired: open the address with its code in the browser of that "
     "device."},
    run_serve};

}  // namespace nonrunner::commands
