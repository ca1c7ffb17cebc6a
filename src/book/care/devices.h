// The devices that may use the shop's page (schema/0019-devices.sql): how one is let in, known again, and forgotten.
//
// A pairing code has 64 random bits, holds once, for ten minutes and for five tries in all; each new one ends the one
// before. What a device carries from then on has 256 random bits. The book keeps SHA-256 of both, and they are compared
// in constant time or looked up by their hash. Nothing here is sealed: no entry rests on it.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "book/ledger/book.h"

namespace nonrunner::book {

struct Device {
  std::int64_t number = 0;
  std::string id;            // 32 hexadecimal digits; no secret
  std::string name, person;  // "kitchen phone", whose it is
  std::string origin;        // "http://192.168.1.20:8417", by which it was paired
  std::string paired, seen;  // ISO 8601, UTC
  std::string forgotten;     // empty: it is let in
};

constexpr int most_tries = 5;
constexpr int code_minutes = 10;

// Opens a code: 16 hexadecimal digits. To be kept by the caller.
std::string open_code(Recording&);
bool code_is_open(const Book&, const std::string& now);

struct Paired {
  enum class Why {
    paired,
    no_code,   // none is open, or its time is over
    wrong,     // another one is open
    too_many,  // five were wrong: none is taken until a new one is opened
    bad_name,  // no name at all, too long, or with what nobody sees; the code stays open
    name_is_taken
  } why = Why::no_code;
  Device device;
  std::string token;  // 64 hexadecimal digits: for the device alone
};
// What was tried, right or wrong, is to be kept by the caller: it counts.
Paired pair(Recording&, std::string_view code, const std::string& name, const std::string& person,
            const std::string& origin);

// Whose token this is; nothing where it is nobody's, or of one that was forgotten.
std::optional<Device> device_of(const Book&, std::string_view token);
// Remembers that it was there in this hour; without a write where that is known.
void remember_seen(Recording&, const Device&);
bool was_seen(const Device&, const std::string& now);

std::vector<Device> devices(const Book&);  // forgotten ones as well, in the order of pairing
// The one that was at the page last, of those that are let in.
std::optional<Device> seen_last(const Book&);
// Throws Refusal where no device that is let in has this name.
void forget_device(Recording&, const std::string& name);

// What only the house and the device with this id know, so that the house can prove itself to it: 64 hexadecimal
// digits. It says nothing about the token. Nothing where no such device is let in.
std::optional<std::string> proof_key(const Book&, std::string_view id);
// HMAC-SHA-256 (RFC 2104) in hexadecimal; the key in hexadecimal.
std::string hmac_sha256(std::string_view key, std::string_view message);

// How the page is reached in the home network, as it was served last.
struct HouseAddress {
  std::string scheme, address;
  int port = 0;
  std::string origin() const;  // "https://192.168.1.20:8417"; without the port that the scheme has anyway
  bool operator==(const HouseAddress&) const = default;
};
std::optional<HouseAddress> house_address(const Book&);
// Remembers it; refused while a device that was paired by another home address is let in, unless `move` is said: what
// such a device still holds could not reach the book any more.
void set_house_address(Recording&, const HouseAddress&, bool move);

// Random numbers of the kernel, in hexadecimal.
std::string random_hex(std::size_t bytes);

}  // namespace nonrunner::book
