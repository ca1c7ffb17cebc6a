#include "page/authority.h"

#include <openssl/pem.h>
#include <openssl/x509v3.h>
#include <sys/stat.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <memory>

#include "book/fixture.h"

using namespace nonrunner;
using namespace nonrunner::page;

namespace {

X509* read(const std::string& pem) {
  BIO* in = BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size()));
  X509* certificate = PEM_read_bio_X509(in, nullptr, nullptr, nullptr);
  BIO_free(in);
  return certificate;
}

// What a browser that trusts the authority alone finds of the chain: X509_V_OK, or why not.
int judged(const Authority& authority, const Certificate& house, const char* asked_for) {
  X509 *root = read(authority.certificate), *leaf = read(house.chain);
  REQUIRE(root);
  REQUIRE(leaf);
  X509_STORE* trusted = X509_STORE_new();
  X509_STORE_add_cert(trusted, root);
  X509_STORE_CTX* context = X509_STORE_CTX_new();
  X509_STORE_CTX_init(context, trusted, leaf, nullptr);
  X509_STORE_CTX_set_purpose(context, X509_PURPOSE_SSL_SERVER);
  X509_VERIFY_PARAM_set1_ip_asc(X509_STORE_CTX_get0_param(context), asked_for);
  X509_verify_cert(context);
  const int error = X509_STORE_CTX_get_error(context);
  X509_STORE_CTX_free(context);
  X509_STORE_free(trusted);
  X509_free(leaf);
  X509_free(root);
  return error;
}

}  // namespace

TEST_CASE("the authority of the shop speaks for private addresses and for nothing else",
          "[page][authority]") {
  book::TemporaryFolder folder;
  const Authority authority = authority_of(folder.path() / "shop.book");
  for (const char* address : {"192.168.1.20", "10.0.0.1", "172.31.255.254", "fd00::1"})
    CHECK(judged(authority, certificate_for(authority, address), address) == X509_V_OK);
  for (const char* address : {"8.8.8.8", "172.32.0.1", "127.0.0.1", "2001:db8::1"})
    CHECK(judged(authority, certificate_for(authority, address), address) == X509_V_ERR_PERMITTED_VIOLATION);
  CHECK(judged(authority, certificate_for(authority, "192.168.1.20"), "192.168.1.21") ==
        X509_V_ERR_IP_ADDRESS_MISMATCH);
}

TEST_CASE("the authority is made once and kept to its owner", "[page][authority]") {
  book::TemporaryFolder folder;
  const auto book = folder.path() / "shop.book", its = folder.path() / "shop.book.authority";
  const Authority first = authority_of(book), second = authority_of(book);
  CHECK(first.fingerprint == second.fingerprint);
  CHECK(first.fingerprint.size() == 32 * 3 - 1);
  struct stat is {};
  REQUIRE(::stat((its / "key.pem").c_str(), &is) == 0);
  CHECK((is.st_mode & 0777) == 0600);
  REQUIRE(::stat(its.c_str(), &is) == 0);
  CHECK((is.st_mode & 0777) == 0700);
  REQUIRE(::chmod((its / "key.pem").c_str(), 0640) == 0);
  CHECK(book::Shop::said([&] { authority_of(book); }) ==
        its.string() +
            ": found it open to others, expected its owner alone (0700, its key 0600); nothing is served");
  REQUIRE(::chmod((its / "key.pem").c_str(), 0600) == 0);
  std::ofstream(its / "key.pem") << authority_of(folder.path() / "other.book").key;
  CHECK(book::Shop::said([&] { authority_of(book); }) ==
        "the shop's authority: its key is another one's; nothing is served");
}

// The blocks of RFC 1918, section 3, and RFC 4193, section 3.1, at their edges.
TEST_CASE("a home network's address is told from all others", "[page][outside]") {
  for (const char* address : {"10.0.0.0", "10.255.255.255", "172.16.0.0", "172.31.255.255", "192.168.0.0",
                              "192.168.255.255", "fc00::", "fdff:ffff::1"})
    CHECK(is_private_address(address));
  for (const char* address : {"9.255.255.255", "11.0.0.0", "172.15.255.255", "172.32.0.0", "192.167.255.255",
                              "192.169.0.0", "0.0.0.0", "127.0.0.1", "::1", "::", "fe80::1", "fbff::1",
                              "laptop.local", "192.168.1", "192.168.1.20:80", "", "192.168.1.20 "})
    CHECK_FALSE(is_private_address(address));
}
