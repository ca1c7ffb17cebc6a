// The shop's own authority, by which its house is known in the home network: an EC P-256 key (FIPS 186-4, SEC 2) that is
// made at the first use and lies in BOOK.authority, a folder of its owner's alone; never in the book, its backups or
// exports. It may only speak for private addresses (RFC 1918, RFC 4193) and for no name at all: name constraints, RFC
// 5280 4.2.1.10, critical. So a device that trusts it trusts it for nothing else, and it is installed once, whatever
// address the house has. What it signs is made anew each time the house is opened, and lives for 397 days.
#pragma once
#include <filesystem>
#include <string>

#include "page/house.h"

namespace nonrunner::page {

struct Authority {
  std::string certificate, key;  // PEM
  std::string fingerprint;       // SHA-256 of the certificate: "AB:CD:..."
};

// The one of this book; made where there is none. Throws MachineFailure where it cannot be made, read or kept to oneself.
Authority authority_of(const std::filesystem::path& book);
// For this address alone, with a key of its own that is kept nowhere; the chain has both.
Certificate certificate_for(const Authority&, const std::string& address);

// Whether it is of a home network: RFC 1918, RFC 4193. Anything else, names too, is not.
bool is_private_address(const std::string& address);

}  // namespace nonrunner::page
