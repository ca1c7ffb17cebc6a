#include "book/care/devices.h"

#include <fmt/format.h>
#include <nettle/hmac.h>
#include <nettle/memops.h>
#include <nettle/sha2.h>
#include <sys/random.h>

#include <array>

#include "book/events/attach.h"
#include "book/ledger/query.h"
#include "exact/ends.h"
#include "exact/nearest.h"
#include "text/unicode.h"

namespace nonrunner::book {

namespace {

constexpr std::size_t longest_name = 40;

std::string hex_of(const std::uint8_t* bytes, std::size_t count) {
  std::string text;
  for (std::size_t i = 0; i < count; ++i) text += fmt::format("{:02x}", bytes[i]);
  return text;
}

std::string bytes_of(std::string_view hex) {
  const auto digit = [](char c) { return c <= '9' ? c - '0' : c - 'a' + 10; };
  std::string bytes;
  for (std::size_t i = 0; i + 1 < hex.size(); i += 2)
    bytes += static_cast<char>(digit(hex[i]) * 16 + digit(hex[i + 1]));
  return bytes;
}

bool is_hex(std::string_view text, std::size_t digits) {
  return text.size() == digits && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

bool same(std::string_view a, std::string_view b) {
  return a.size() == b.size() && memeql_sec(a.data(), b.data(), a.size()) == 1;
}

// "2026-05-02T10:00:00Z" and so many minutes; the order of such texts is that of the moments.
std::string later(const std::string& moment, int minutes) {
  const int of_day = std::stoi(moment.substr(11, 2)) * 60 + std::stoi(moment.substr(14, 2)) + minutes;
  const Day day = Day::parse(moment.substr(0, 10)).plus(of_day / 1440);
  return fmt::format("{}T{:02}:{:02}{}", day.iso(), of_day % 1440 / 60, of_day % 60, moment.substr(16));
}

constexpr const char* columns =
    "SELECT device, id, name, person, origin, paired, seen, coalesce(forgotten, '') FROM device ";

void take(const Row& row, Device& device) {
  row.into(device.number, device.id, device.name, device.person, device.origin, device.paired, device.seen,
           device.forgotten);
}

bool is_name(const std::string& name) {
  return !name.empty() && name.size() <= longest_name && !unseen(name) && name.front() != ' ' &&
         name.back() != ' ';
}

}  // namespace

std::string random_hex(std::size_t bytes) {
  std::array<std::uint8_t, 64> random{};
  if (bytes > random.size() || getrandom(random.data(), bytes, 0) != static_cast<ssize_t>(bytes))
    throw MachineFailure("the machine gives no random numbers; nothing was recorded");
  return hex_of(random.data(), bytes);
}

std::string hmac_sha256(std::string_view key, std::string_view message) {
  const std::string secret = bytes_of(key);
  hmac_sha256_ctx state;
  hmac_sha256_set_key(&state, secret.size(), reinterpret_cast<const std::uint8_t*>(secret.data()));
  hmac_sha256_update(&state, message.size(), reinterpret_cast<const std::uint8_t*>(message.data()));
  std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
  hmac_sha256_digest(&state, digest.size(), digest.data());
  return hex_of(digest.data(), digest.size());
}

std::string open_code(Recording& recording) {
  std::string code = random_hex(8);
  change(recording.book(),
         "INSERT INTO pairing_code (one, code, until) VALUES (1, :code, :until) ON CONFLICT (one) DO UPDATE "
         "SET code = excluded.code, until = excluded.until, wrong = 0",
         {{":code", sha256_of(code)}, {":until", later(recording.now(), code_minutes)}});
  return code;
}

namespace {

struct OpenCode {
  std::string code, until;
  int wrong = 0;
};
std::optional<OpenCode> kept_code(const Book& book) {
  std::optional<OpenCode> code;
  row(book, "SELECT code, until, wrong FROM pairing_code", {}, [&](const Row& found) {
    code.emplace();
    found.into(code->code, code->until, code->wrong);
  });
  return code;
}

// Why the code is not taken; counts a wrong one.
std::optional<Paired::Why> refused_code(Recording& recording, std::string_view code) {
  const auto open = kept_code(recording.book());
  if (!open || open->until <= recording.now()) return Paired::Why::no_code;
  if (open->wrong >= most_tries) return Paired::Why::too_many;
  if (same(sha256_of(code), open->code)) return std::nullopt;
  change(recording.book(), "UPDATE pairing_code SET wrong = wrong + 1", {});
  return open->wrong + 1 >= most_tries ? Paired::Why::too_many : Paired::Why::wrong;
}

}  // namespace

bool code_is_open(const Book& book, const std::string& now) {
  const auto open = kept_code(book);
  return open && open->until > now && open->wrong < most_tries;
}

Paired pair(Recording& recording, std::string_view code, const std::string& name, const std::string& person,
            const std::string& origin) {
  Book& book = recording.book();
  Paired paired;
  if (const auto why = refused_code(recording, code)) {
    paired.why = *why;
    return paired;
  }
  paired.why =
      !is_name(name) || !is_name(person) ? Paired::Why::bad_name
      : first<int>(book, "SELECT 1 FROM device WHERE name = :name AND forgotten IS NULL", {{":name", name}})
          ? Paired::Why::name_is_taken
          : Paired::Why::paired;
  if (paired.why != Paired::Why::paired) return paired;
  paired.token = random_hex(32);
  paired.device = {0, random_hex(16), name, person, origin, recording.now(), recording.now(), ""};
  change(book,
         "INSERT INTO device (id, name, person, token, origin, paired, seen) VALUES (:id, :name, :person, "
         ":token, "
         ":origin, :now, :now)",
         {{":id", paired.device.id},
          {":name", name},
          {":person", person},
          {":token", sha256_of(paired.token)},
          {":origin", origin},
          {":now", recording.now()}});
  change(book, "DELETE FROM pairing_code", {});
  paired.device.number = first<std::int64_t>(book, "SELECT max(device) FROM device", {}).value_or(0);
  return paired;
}

std::optional<Device> device_of(const Book& book, std::string_view token) {
  if (!is_hex(token, 64)) return std::nullopt;
  std::optional<Device> device;
  row(book, fmt::format("{}WHERE token = :token AND forgotten IS NULL", columns),
      {{":token", sha256_of(token)}}, [&](const Row& found) { take(found, device.emplace()); });
  return device;
}

bool was_seen(const Device& device, const std::string& now) {
  return device.seen.substr(0, 13) >= now.substr(0, 13);
}

void remember_seen(Recording& recording, const Device& device) {
  if (was_seen(device, recording.now())) return;
  change(recording.book(), "UPDATE device SET seen = :now WHERE device = :device AND seen < :now",
         {{":now", recording.now()}, {":device", device.number}});
}

std::vector<Device> devices(const Book& book) {
  std::vector<Device> all;
  rows(book, fmt::format("{}ORDER BY device", columns), {},
       [&](const Row& found) { take(found, all.emplace_back()); });
  return all;
}

std::optional<Device> seen_last(const Book& book) {
  std::optional<Device> last;
  rows(book, fmt::format("{}WHERE forgotten IS NULL ORDER BY seen DESC, device LIMIT 1", columns), {},
       [&](const Row& found) { take(found, last.emplace()); });
  return last;
}

void forget_device(Recording& recording, const std::string& name) {
  if (change(recording.book(), "UPDATE device SET forgotten = :now WHERE name = :name AND forgotten IS NULL",
             {{":now", recording.now()}, {":name", name}}) > 0)
    return;
  std::vector<std::string> names;
  for (const Device& device : devices(recording.book()))
    if (device.forgotten.empty()) names.push_back(device.name);
  const std::string near = did_you_mean(name, names);
  throw Refusal(
      fmt::format("forget: found the device \"{}\", expected the name of one that is paired{}", name, near));
}

std::optional<std::string> proof_key(const Book& book, std::string_view id) {
  if (!is_hex(id, 32)) return std::nullopt;
  const auto token = first<std::string>(book, "SELECT token FROM device WHERE id = :id AND forgotten IS NULL",
                                        {{":id", std::string(id)}});
  return token ? std::optional(hmac_sha256(*token, "the house proves itself")) : std::nullopt;
}

std::string HouseAddress::origin() const {
  const std::string host = address.find(':') == std::string::npos ? address : "[" + address + "]";
  return port == (scheme == "https" ? 443 : 80) ? fmt::format("{}://{}", scheme, host)
                                                : fmt::format("{}://{}:{}", scheme, host, port);
}

std::optional<HouseAddress> house_address(const Book& book) {
  std::optional<HouseAddress> house;
  row(book, "SELECT scheme, address, port FROM house", {}, [&](const Row& found) {
    house.emplace();
    found.into(house->scheme, house->address, house->port);
  });
  return house;
}

void set_house_address(Recording& recording, const HouseAddress& house, bool move) {
  const Book& book = recording.book();
  const auto before = house_address(book);
  if (before == house) return;
  if (before && !move)
    for (const Device& device : devices(book))
      if (device.forgotten.empty() && device.origin == before->origin())
        throw Refusal(
            fmt::format("serve: found {}, expected {}, by which \"{}\" was paired: what it still holds could "
                        "not reach the book "
                        "by another address; empty it first, then say that it moves, or forget the device",
                        house.origin(), before->origin(), device.name));
  change(book,
         "INSERT INTO house (one, scheme, address, port) VALUES (1, :scheme, :address, :port) ON CONFLICT "
         "(one) DO "
         "UPDATE SET scheme = excluded.scheme, address = excluded.address, port = excluded.port",
         {{":scheme", house.scheme}, {":address", house.address}, {":port", house.port}});
}

}  // namespace nonrunner::book
