#include "book/events/attach.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <nettle/sha2.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <functional>
#include <istream>
#include <system_error>

#include "book/care/arriving.h"
#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "book/ledger/query.h"
#include "book/ledger/seal_of.h"
#include "exact/ends.h"
#include "text/unicode.h"

namespace nonrunner::book {

namespace {

constexpr off_t largest_file = off_t{1} << 30;

// An open file that closes itself.
class File {
 public:
  File(const std::filesystem::path& path, int flags, mode_t mode = 0)
      : number_(::open(path.c_str(), flags | O_CLOEXEC, mode)) {}
  ~File() {
    if (number_ >= 0) ::close(number_);
  }
  File(const File&) = delete;
  File& operator=(const File&) = delete;
  int number() const { return number_; }

 private:
  int number_;
};

[[noreturn]] void machine(const std::filesystem::path& path, const char* what) {
  const int why = errno;
  throw MachineFailure(fmt::format("{}: {}: {}; nothing was recorded", path.string(), what,
                                   std::generic_category().message(why)));
}

// Reads an ordinary file to its end, block by block; returns its size.
std::int64_t read_whole(const std::filesystem::path& path,
                        const std::function<void(const std::uint8_t*, std::size_t)>& take) {
  const File in(path, O_RDONLY | O_NOFOLLOW | O_NONBLOCK);
  if (in.number() < 0) {
    if (errno == ELOOP) throw Refusal(path.string() + ": found a symbolic link, expected the file itself");
    if (errno == ENOENT || errno == ENOTDIR)
      throw Refusal(path.string() + ": there is no such file; check the name");
    machine(path, "the file cannot be read");
  }
  struct stat about {};
  if (::fstat(in.number(), &about) != 0) machine(path, "the file cannot be read");
  if (!S_ISREG(about.st_mode))
    throw Refusal(path.string() + ": found something that is no ordinary file, expected a file");
  if (about.st_size > largest_file)
    throw Refusal(path.string() + ": is larger than 1 GiB; keep it elsewhere and note where");
  std::array<std::uint8_t, 1 << 16> block;
  std::int64_t size = 0;
  for (;;) {
    const ssize_t got = ::read(in.number(), block.data(), block.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) machine(path, "the file cannot be read");
    if (got == 0) return size;
    take(block.data(), static_cast<std::size_t>(got));
    size += got;
  }
}

std::int64_t copy_private(const std::filesystem::path& from, const std::filesystem::path& to) {
  const File out(to, O_WRONLY | O_CREAT | O_TRUNC | O_NOFOLLOW, 0600);
  if (out.number() < 0) machine(to, "the copy cannot be written");
  const std::int64_t size = read_whole(from, [&](const std::uint8_t* data, std::size_t left) {
    while (left > 0) {
      const ssize_t put = ::write(out.number(), data, left);
      if (put < 0 && errno == EINTR) continue;
      if (put < 0) machine(to, "the copy cannot be written");
      data += put;
      left -= static_cast<std::size_t>(put);
    }
  });
  if (::fsync(out.number()) != 0) machine(to, "the copy cannot be written");
  return size;
}

}  // namespace

std::string sha256_of(std::string_view bytes) {
  sha256_ctx context;
  sha256_init(&context);
  sha256_update(&context, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
  std::array<std::uint8_t, 32> hash;
  sha256_digest(&context, hash.size(), hash.data());
  return hex(hash);
}

std::string sha256_of(std::istream& in, std::size_t& lines) {
  sha256_ctx context;
  sha256_init(&context);
  std::array<char, 1 << 16> block;
  lines = 0;
  while (in.read(block.data(), block.size()) || in.gcount() > 0) {
    const auto got = static_cast<std::size_t>(in.gcount());
    sha256_update(&context, got, reinterpret_cast<const std::uint8_t*>(block.data()));
    lines += static_cast<std::size_t>(std::count(block.data(), block.data() + got, '\n'));
  }
  std::array<std::uint8_t, 32> hash;
  sha256_digest(&context, hash.size(), hash.data());
  return hex(hash);
}

std::string sha256_of_file(const std::filesystem::path& path) {
  sha256_ctx context;
  sha256_init(&context);
  read_whole(path, [&](const std::uint8_t* data, std::size_t size) { sha256_update(&context, size, data); });
  std::array<std::uint8_t, 32> hash;
  sha256_digest(&context, hash.size(), hash.data());
  return hex(hash);
}

bool is_sha256(std::string_view text) {
  return text.size() == 64 && std::all_of(text.begin(), text.end(), [](char c) {
           return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
         });
}

void fields(Attach& attach, Fields& f) {
  f.day({"date", "the day of it"}, attach.day);
  f.text({"vehicle", "the car (left out: the entry is about none)", Need::may}, Text::tag, attach.vehicle);
  f.entry({"entry", "the entry that it belongs to, such as a receipt", Need::may}, attach.entry);
  std::string file = attach.file.string();
  f.text({"file", "a photograph, a scan"}, Text::file, file);
  attach.file = file;
  f.text({"name", "how it is called (else as the file)", Need::may}, Text::name, attach.name);
}

namespace {

// The folder beside the book: ours, and nobody else's. What a killed process left in it on the way is swept:
// the lock on the book is held, so that nobody is at it.
void prepare_folder(const std::filesystem::path& folder) {
  if (::mkdir(folder.c_str(), 0700) != 0 && errno != EEXIST)
    machine(folder, "the folder for attachments cannot be made");
  struct stat about {};
  if (::lstat(folder.c_str(), &about) != 0) machine(folder, "the folder for attachments cannot be read");
  if (!S_ISDIR(about.st_mode) || about.st_uid != ::geteuid() || (about.st_mode & 0022) != 0)
    throw Refusal(
        folder.string() +
        ": found something that is not a folder of ours alone, expected one that only its owner may "
        "write to; correct its owner and permissions");
  for (const auto& each : std::filesystem::directory_iterator(folder))
    if (each.path().filename().string().starts_with("arriving-")) {
      std::error_code ignored;
      std::filesystem::remove(each.path(), ignored);
    }
}

// The last component, one line, as a person reads it.
std::string shown_name(const std::string& given) {
  const std::string name = std::filesystem::path(given).filename().string();
  if (name.empty() || unseen(name) || shown_width(name) > 120)
    throw Refusal(fmt::format("attach: found the name \"{}\", expected 1 to 120 characters that can be seen",
                              cut_to(given, 60)));
  return name;
}

bool counts(const Book& book, EntryId entry) {
  return first<EntryId>(book, "SELECT entry FROM live_entry WHERE entry = :entry", {{":entry", entry}})
      .has_value();
}

}  // namespace

EntryId record(Recording& recording, const Attach& attach) {
  const std::filesystem::path folder = recording.book().attachments();
  if (attach.vehicle.empty() && attach.entry == 0)
    throw Refusal("attach: found neither a car nor an entry, expected what the file belongs to");
  if (!attach.vehicle.empty()) meet_vehicle(recording, "attach", attach.vehicle);
  const std::string name = shown_name(attach.name.empty() ? attach.file.filename().string() : attach.name);
  prepare_folder(folder);
  // Copied first and hashed from the copy: what is kept is what was hashed, whatever happens to the original.
  const std::filesystem::path arriving = folder / fmt::format("arriving-{}", ::getpid());
  std::string hash;
  std::int64_t size = 0;
  try {
    size = copy_private(attach.file, arriving);
    hash = sha256_of_file(arriving);
    if (!attach.sha256.empty() && hash != attach.sha256)
      throw Refusal(attach.file.string() +
                    ": was changed: its content does not fit its name; nothing was recorded");
    std::error_code error;
    if (!std::filesystem::exists(folder / hash, error)) recording.goes_unless_kept(folder / hash);
    std::filesystem::rename(arriving, folder / hash);
    folder_to_disk(folder / hash);  // before the entry that names it
  } catch (const std::filesystem::filesystem_error& error) {
    throw MachineFailure(folder.string() + ": the copy cannot be kept: " + error.code().message() +
                         "; nothing was recorded");
  } catch (...) {
    std::error_code ignored;
    std::filesystem::remove(arriving, ignored);
    throw;
  }
  if (attach.entry != 0 && !counts(recording.book(), attach.entry))
    throw Refusal(fmt::format("attach: entry {} is none that counts, expected the one that it belongs to",
                              attach.entry));
  Draft draft(recording, "attach", attach.day);
  if (!attach.vehicle.empty()) draft.mention(attach.vehicle);
  write(draft, recording.currency(),
        Attach{attach.day, attach.vehicle, "attachments/" + hash, name, "", attach.entry});
  const Cell vehicle = attach.vehicle.empty() ? Cell() : Cell(attach.vehicle);
  draft.detail("attachment", {vehicle, hash, name, size});
  const EntryId entry = draft.record();
  if (attach.entry != 0)
    change(recording.book(), "INSERT INTO photo (attached, of_entry) VALUES (:attached, :entry)",
           {{":attached", entry}, {":entry", attach.entry}});
  return entry;
}

void photos_follow(Recording& recording, EntryId from, EntryId to) {
  change(recording.book(), "UPDATE photo SET of_entry = :to WHERE of_entry = :from",
         {{":to", to}, {":from", from}});
}

std::vector<Photo> photos_of(const Book& book, EntryId entry) {
  std::vector<Photo> all;
  each<std::string, std::string, std::string>(
      book,
      "SELECT a.sha256, a.name, a.vehicle FROM photo p JOIN live_entry e ON e.entry = p.attached JOIN "
      "attachment a ON a.entry = p.attached WHERE p.of_entry = :entry ORDER BY p.attached",
      {{":entry", entry}}, [&](const std::string& hash, const std::string& name, const std::string& vehicle) {
        all.push_back({hash, name, vehicle});
      });
  return all;
}

}  // namespace nonrunner::book
