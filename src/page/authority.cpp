#include "page/authority.h"

#include <arpa/inet.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <openssl/bn.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/x509v3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <memory>
#include <sstream>

#include "book/care/arriving.h"
#include "exact/ends.h"

namespace nonrunner::page {

namespace fs = std::filesystem;

namespace {

constexpr int authority_days = 3650, house_days = 397;

template <auto release>
struct Released {
  template <class T>
  void operator()(T* held) const {
    release(held);
  }
};
using Key = std::unique_ptr<EVP_PKEY, Released<EVP_PKEY_free>>;
using Signed = std::unique_ptr<X509, Released<X509_free>>;
using Memory = std::unique_ptr<BIO, Released<BIO_free_all>>;
using Number = std::unique_ptr<BIGNUM, Released<BN_free>>;
using Extension = std::unique_ptr<X509_EXTENSION, Released<X509_EXTENSION_free>>;

void expect(bool holds, const char* what) {
  if (!holds) throw MachineFailure(fmt::format("the shop's authority: {}; nothing is served", what));
}

std::string pem_of(const auto& write) {
  const Memory memory(BIO_new(BIO_s_mem()));
  expect(memory && write(memory.get()) == 1, "what was made cannot be written out");
  char* text = nullptr;
  const long size = BIO_get_mem_data(memory.get(), &text);
  return {text, static_cast<std::size_t>(size)};
}
std::string pem_of(X509* made) {
  return pem_of([&](BIO* out) { return PEM_write_bio_X509(out, made); });
}
std::string pem_of(EVP_PKEY* key) {
  return pem_of(
      [&](BIO* out) { return PEM_write_bio_PrivateKey(out, key, nullptr, nullptr, 0, nullptr, nullptr); });
}

Memory to_read(const std::string& pem) {
  return Memory(BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size())));
}
Signed read_certificate(const std::string& pem) {
  Signed certificate(PEM_read_bio_X509(to_read(pem).get(), nullptr, nullptr, nullptr));
  expect(certificate != nullptr, "its certificate cannot be read");
  return certificate;
}
Key read_key(const std::string& pem) {
  Key key(PEM_read_bio_PrivateKey(to_read(pem).get(), nullptr, nullptr, nullptr));
  expect(key != nullptr, "its key cannot be read");
  return key;
}

Key new_key() {
  Key key(EVP_EC_gen("P-256"));
  expect(key != nullptr, "a key cannot be made");
  return key;
}

void extend(X509* made, X509* issuer, int what, const std::string& value) {
  X509V3_CTX context;
  X509V3_set_ctx_nodb(&context);
  X509V3_set_ctx(&context, issuer, made, nullptr, nullptr, 0);
  const Extension extension(X509V3_EXT_conf_nid(nullptr, &context, what, value.c_str()));
  expect(extension && X509_add_ext(made, extension.get(), -1) == 1, "a certificate cannot be made");
}

// A certificate of version 3 that is valid from yesterday on: clocks of phones are not the shop's.
Signed begun(EVP_PKEY* key, const char* name, int days) {
  Signed made(X509_new());
  const Number serial(BN_new());
  expect(made && serial && X509_set_version(made.get(), X509_VERSION_3) == 1 &&
             BN_rand(serial.get(), 127, BN_RAND_TOP_ANY, BN_RAND_BOTTOM_ANY) == 1 &&
             BN_to_ASN1_INTEGER(serial.get(), X509_get_serialNumber(made.get())) != nullptr &&
             X509_gmtime_adj(X509_getm_notBefore(made.get()), -86400) != nullptr &&
             X509_gmtime_adj(X509_getm_notAfter(made.get()), 86400L * days) != nullptr &&
             X509_set_pubkey(made.get(), key) == 1 &&
             X509_NAME_add_entry_by_txt(X509_get_subject_name(made.get()), "CN", MBSTRING_ASC,
                                        reinterpret_cast<const unsigned char*>(name), -1, -1, 0) == 1,
         "a certificate cannot be made");
  return made;
}

std::string fingerprint_of(X509* certificate) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned size = 0;
  expect(X509_digest(certificate, EVP_sha256(), digest.data(), &size) == 1, "its fingerprint cannot be made");
  std::string text;
  for (unsigned i = 0; i < size; ++i) text += fmt::format("{}{:02X}", i ? ":" : "", digest[i]);
  return text;
}

Authority new_authority() {
  const Key key = new_key();
  const Signed made = begun(key.get(), "authority of this shop (Nonrunner)", authority_days);
  X509_set_issuer_name(made.get(), X509_get_subject_name(made.get()));
  extend(made.get(), made.get(), NID_basic_constraints, "critical,CA:TRUE,pathlen:0");
  extend(made.get(), made.get(), NID_key_usage, "critical,keyCertSign,cRLSign");
  extend(made.get(), made.get(), NID_subject_key_identifier, "hash");
  // A kind of name that is not constrained is free: so names and mail are tied to a domain that never is (RFC 2606).
  extend(made.get(), made.get(), NID_name_constraints,
         "critical,permitted;IP:10.0.0.0/255.0.0.0,permitted;IP:172.16.0.0/255.240.0.0,"
         "permitted;IP:192.168.0.0/255.255.0.0,permitted;IP:fc00:0:0:0:0:0:0:0/fe00:0:0:0:0:0:0:0,"
         "permitted;DNS:invalid,permitted;email:invalid,permitted;URI:invalid");
  expect(X509_sign(made.get(), key.get(), EVP_sha256()) > 0, "its certificate cannot be signed");
  return {pem_of(made.get()), pem_of(key.get()), fingerprint_of(made.get())};
}

std::string read_all(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

void write_own(const fs::path& file, const std::string& text) {
  const int out = ::open(file.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0600);
  const bool written = out >= 0 &&
                       ::write(out, text.data(), text.size()) == static_cast<ssize_t>(text.size()) &&
                       ::fsync(out) == 0;
  const int why = errno;
  if (out >= 0) ::close(out);
  if (!written)
    throw MachineFailure(fmt::format("{}: {}; nothing is served", file.string(), std::strerror(why)));
}

bool is_ours_alone(const fs::path& path) {
  struct stat is {};
  return ::lstat(path.c_str(), &is) == 0 && !S_ISLNK(is.st_mode) && is.st_uid == ::geteuid() &&
         (is.st_mode & 077) == 0;
}

}  // namespace

Authority authority_of(const fs::path& book) {
  const fs::path folder = book.string() + ".authority", key = folder / "key.pem",
                 certificate = folder / "authority.crt";
  std::error_code error;
  if (!fs::exists(certificate, error)) {
    const Authority made = new_authority();
    if (::mkdir(folder.c_str(), 0700) != 0 && errno != EEXIST)
      throw MachineFailure(fmt::format("{}: {}; nothing is served", folder.string(), std::strerror(errno)));
    if (is_ours_alone(folder)) {
      // The certificate last: where it is, all is. What a stopped machine left is made anew.
      fs::remove(key, error);
      write_own(key, made.key);
      write_own(certificate, made.certificate);
      book::folder_to_disk(certificate);
    }
  }
  if (!is_ours_alone(folder) || !is_ours_alone(key))
    throw MachineFailure(
        fmt::format("{}: found it open to others, expected its owner alone (0700, its key 0600); "
                    "nothing is served",
                    folder.string()));
  Authority authority{read_all(certificate), read_all(key), ""};
  const Signed read = read_certificate(authority.certificate);
  expect(X509_check_private_key(read.get(), read_key(authority.key).get()) == 1, "its key is another one's");
  expect(X509_cmp_current_time(X509_get0_notAfter(read.get())) > 0,
         "its time is over; remove its folder for a new one");
  authority.fingerprint = fingerprint_of(read.get());
  return authority;
}

Certificate certificate_for(const Authority& authority, const std::string& address) {
  const Signed issuer = read_certificate(authority.certificate);
  const Key issuers = read_key(authority.key), key = new_key();
  const Signed made = begun(key.get(), "house of this shop (Nonrunner)", house_days);
  X509_set_issuer_name(made.get(), X509_get_subject_name(issuer.get()));
  extend(made.get(), issuer.get(), NID_basic_constraints, "critical,CA:FALSE");
  extend(made.get(), issuer.get(), NID_key_usage, "critical,digitalSignature");
  extend(made.get(), issuer.get(), NID_ext_key_usage, "serverAuth");
  extend(made.get(), issuer.get(), NID_authority_key_identifier, "keyid");
  extend(made.get(), issuer.get(), NID_subject_alt_name, "IP:" + address);
  expect(X509_sign(made.get(), issuers.get(), EVP_sha256()) > 0, "the house's certificate cannot be signed");
  return {pem_of(made.get()) + authority.certificate, pem_of(key.get())};
}

bool is_private_address(const std::string& address) {
  std::array<unsigned char, 16> bytes{};
  if (::inet_pton(AF_INET, address.c_str(), bytes.data()) == 1)
    return bytes[0] == 10 || (bytes[0] == 172 && (bytes[1] & 0xf0) == 16) ||
           (bytes[0] == 192 && bytes[1] == 168);
  return ::inet_pton(AF_INET6, address.c_str(), bytes.data()) == 1 && (bytes[0] & 0xfe) == 0xfc;
}

}  // namespace nonrunner::page
