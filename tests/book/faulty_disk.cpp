#include "book/faulty_disk.h"

#include <fcntl.h>
#include <sqlite3.h>
#include <unistd.h>

#include <algorithm>
#include <cstring>
#include <new>
#include <random>
#include <stdexcept>

namespace nonrunner {

namespace {

// What SQLite holds for an open file: ours first, the real one behind it.
struct File {
  sqlite3_file base;
  FaultyDisk* disk;
  std::string* path;  // empty: a file without a name
  sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};
static_assert(sizeof(File) % 8 == 0);  // what SQLite aligns to

File& file_of(sqlite3_file* file) { return *reinterpret_cast<File*>(file); }

}  // namespace

struct FaultyDisk::Calls {
  static int close(sqlite3_file* file) {
    File& self = file_of(file);
    const int result = self.real()->pMethods->xClose(self.real());
    delete self.path;
    self.path = nullptr;
    return result;
  }

  static int read(sqlite3_file* file, void* into, int size, sqlite3_int64 at) {
    File& self = file_of(file);
    if (self.disk->fails(FaultyDisk::read)) return SQLITE_IOERR_READ;
    return self.real()->pMethods->xRead(self.real(), into, size, at);
  }

  static std::int64_t size_of(File& self) {
    sqlite3_int64 size = 0;
    self.real()->pMethods->xFileSize(self.real(), &size);
    return size;
  }

  static std::string bytes_of(File& self, std::int64_t at, std::int64_t end) {
    const std::int64_t size = std::max<std::int64_t>(std::min(end, size_of(self)) - at, 0);
    std::string bytes(static_cast<std::size_t>(size), '\0');
    if (size > 0) self.real()->pMethods->xRead(self.real(), bytes.data(), static_cast<int>(size), at);
    return bytes;
  }

  static int really_write(File& self, const void* from, int size, sqlite3_int64 at) {
    Change change{at, bytes_of(self, at, at + size),
                  std::string(static_cast<const char*>(from), static_cast<std::size_t>(size)), size_of(self),
                  0};
    const int result = self.real()->pMethods->xWrite(self.real(), from, size, at);
    change.size_after = size_of(self);
    self.disk->unsynced_[*self.path].push_back(std::move(change));
    return result;
  }

  static int write(sqlite3_file* file, const void* from, int size, sqlite3_int64 at) {
    File& self = file_of(file);
    const bool failed_before = self.disk->failed_;
    if (!self.disk->fails(FaultyDisk::write)) return really_write(self, from, size, at);
    if (!failed_before && size > 1) really_write(self, from, size / 2, at);
    return failed_before ? SQLITE_IOERR_WRITE : SQLITE_FULL;
  }

  static int truncate(sqlite3_file* file, sqlite3_int64 size) {
    File& self = file_of(file);
    if (self.disk->fails(FaultyDisk::truncate)) return SQLITE_IOERR_TRUNCATE;
    Change change{size, bytes_of(self, size, size_of(self)), "", size_of(self), size};
    self.disk->unsynced_[*self.path].push_back(std::move(change));
    return self.real()->pMethods->xTruncate(self.real(), size);
  }

  static int sync(sqlite3_file* file, int) {
    File& self = file_of(file);
    if (self.disk->fails(FaultyDisk::sync)) return SQLITE_IOERR_FSYNC;
    self.disk->unsynced_.erase(*self.path);
    return SQLITE_OK;
  }

  static int file_size(sqlite3_file* file, sqlite3_int64* size) {
    File& self = file_of(file);
    if (self.disk->fails(FaultyDisk::size)) return SQLITE_IOERR_FSTAT;
    return self.real()->pMethods->xFileSize(self.real(), size);
  }

  static int lock(sqlite3_file* file, int level) {
    File& self = file_of(file);
    if (self.disk->fails(FaultyDisk::lock)) return SQLITE_IOERR_LOCK;
    return self.real()->pMethods->xLock(self.real(), level);
  }
  // Locks end with the process whatever the disk does.
  static int unlock(sqlite3_file* file, int level) {
    return file_of(file).real()->pMethods->xUnlock(file_of(file).real(), level);
  }
  static int check_reserved(sqlite3_file* file, int* out) {
    return file_of(file).real()->pMethods->xCheckReservedLock(file_of(file).real(), out);
  }
  static int control(sqlite3_file* file, int op, void* argument) {
    return file_of(file).real()->pMethods->xFileControl(file_of(file).real(), op, argument);
  }
  static int sector_size(sqlite3_file* file) {
    return file_of(file).real()->pMethods->xSectorSize(file_of(file).real());
  }
  static int characteristics(sqlite3_file* file) {
    return file_of(file).real()->pMethods->xDeviceCharacteristics(file_of(file).real());
  }

  static int shm_map(sqlite3_file* file, int page, int size, int extend, void volatile** out) {
    File& self = file_of(file);
    if (self.disk->fails(FaultyDisk::share)) return SQLITE_IOERR_SHMMAP;
    return self.real()->pMethods->xShmMap(self.real(), page, size, extend, out);
  }
  static int shm_lock(sqlite3_file* file, int offset, int n, int flags) {
    File& self = file_of(file);
    if ((flags & SQLITE_SHM_LOCK) != 0 && self.disk->fails(FaultyDisk::lock)) return SQLITE_IOERR_SHMLOCK;
    return self.real()->pMethods->xShmLock(self.real(), offset, n, flags);
  }
  static void shm_barrier(sqlite3_file* file) {
    file_of(file).real()->pMethods->xShmBarrier(file_of(file).real());
  }
  static int shm_unmap(sqlite3_file* file, int remove) {
    return file_of(file).real()->pMethods->xShmUnmap(file_of(file).real(), remove);
  }

  static const sqlite3_io_methods* methods() {
    static const sqlite3_io_methods all = [] {
      sqlite3_io_methods m{};
      m.iVersion = 2;
      m.xClose = close;
      m.xRead = read;
      m.xWrite = write;
      m.xTruncate = truncate;
      m.xSync = sync;
      m.xFileSize = file_size;
      m.xLock = lock;
      m.xUnlock = unlock;
      m.xCheckReservedLock = check_reserved;
      m.xFileControl = control;
      m.xSectorSize = sector_size;
      m.xDeviceCharacteristics = characteristics;
      m.xShmMap = shm_map;
      m.xShmLock = shm_lock;
      m.xShmBarrier = shm_barrier;
      m.xShmUnmap = shm_unmap;
      return m;
    }();
    return &all;
  }

  static FaultyDisk& disk_of(sqlite3_vfs* vfs) { return *static_cast<FaultyDisk*>(vfs->pAppData); }

  static int open(sqlite3_vfs* vfs, const char* name, sqlite3_file* file, int flags, int* out_flags) {
    FaultyDisk& disk = disk_of(vfs);
    File& self = *new (file) File{};
    self.base.pMethods = nullptr;
    if (disk.fails(FaultyDisk::open)) return SQLITE_CANTOPEN;
    const int result = disk.real_->xOpen(disk.real_, name, self.real(), flags, out_flags);
    if (result != SQLITE_OK) return result;
    self.disk = &disk;
    self.path = new std::string(name ? name : "");
    self.base.pMethods = methods();
    return SQLITE_OK;
  }

  static int remove(sqlite3_vfs* vfs, const char* name, int sync_folder) {
    FaultyDisk& disk = disk_of(vfs);
    if (disk.fails(FaultyDisk::remove)) return SQLITE_IOERR_DELETE;
    disk.unsynced_.erase(name);
    return disk.real_->xDelete(disk.real_, name, sync_folder);
  }

  static int access(sqlite3_vfs* vfs, const char* name, int flags, int* out) {
    return disk_of(vfs).real_->xAccess(disk_of(vfs).real_, name, flags, out);
  }
  static int full_name(sqlite3_vfs* vfs, const char* name, int size, char* out) {
    return disk_of(vfs).real_->xFullPathname(disk_of(vfs).real_, name, size, out);
  }
};

FaultyDisk::FaultyDisk() : real_(sqlite3_vfs_find(nullptr)), vfs_(sizeof(sqlite3_vfs)), name_("faulty disk") {
  if (real_ == nullptr || real_->zName == name_) throw std::logic_error("one faulty disk at a time");
  auto* vfs = new (vfs_.data()) sqlite3_vfs(*real_);
  vfs->zName = name_.c_str();
  vfs->pAppData = this;
  vfs->szOsFile = static_cast<int>(sizeof(File)) + real_->szOsFile;
  vfs->xOpen = Calls::open;
  vfs->xDelete = Calls::remove;
  vfs->xAccess = Calls::access;
  vfs->xFullPathname = Calls::full_name;
  if (sqlite3_vfs_register(vfs, 1) != SQLITE_OK)
    throw std::runtime_error("the faulty disk cannot be registered");
}

FaultyDisk::~FaultyDisk() {
  sqlite3_vfs_unregister(reinterpret_cast<sqlite3_vfs*>(vfs_.data()));
  sqlite3_vfs_register(real_, 1);
}

void FaultyDisk::arm(unsigned calls, int at, bool onwards) {
  counted_ = calls;
  left_ = at;
  onwards_ = onwards;
  failed_ = false;
}

bool FaultyDisk::disarm() {
  counted_ = 0;
  return failed_;
}

bool FaultyDisk::fails(Call call) {
  // With "onwards" the disk is gone for every call, whichever kind the first to fail was.
  if (failed_ && onwards_ && counted_ != 0) return true;
  if ((counted_ & call) == 0 || --left_ != 0) return false;
  failed_ = true;
  return true;
}

void FaultyDisk::lose_power(std::uint32_t seed) {
  std::mt19937 coin(seed);
  for (auto& [name, changes] : unsynced_) {
    const std::string& path = name;  // a lambda takes no structured binding with it
    const int file = path.empty() ? -1 : ::open(path.c_str(), O_RDWR | O_CLOEXEC);
    if (file < 0) continue;
    const auto put = [&, &path = path](const std::string& bytes, std::int64_t at) {
      if (!bytes.empty() &&
          ::pwrite(file, bytes.data(), bytes.size(), at) != static_cast<ssize_t>(bytes.size()))
        throw std::runtime_error(path + ": cannot be written");
    };
    const auto cut = [&, &path = path](std::int64_t to) {
      if (::ftruncate(file, to) != 0) throw std::runtime_error(path + ": cannot be cut");
    };
    // Back to what was synced, then those writes again that had reached the disk by themselves.
    for (auto change = changes.rbegin(); change != changes.rend(); ++change) {
      cut(change->size_before);
      put(change->before, change->at);
    }
    for (const Change& change : changes) {
      if (coin() % 2 == 0) continue;
      if (change.size_after < change.size_before)
        cut(change.size_after);
      else
        put(change.after, change.at);
    }
    ::close(file);
  }
  unsynced_.clear();
}

}  // namespace nonrunner
