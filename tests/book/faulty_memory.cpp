#include "book/faulty_memory.h"

#include <sqlite3.h>

#include <stdexcept>

namespace nonrunner {

namespace {

// SQLite hands no object to its allocator, so what it counts by stands here.
sqlite3_mem_methods real;
long count = 0, refused_at = 0;
bool all_after = false, refused = false, present = false;

bool refuses() {
  ++count;
  if (refused_at == 0 || (count != refused_at && !(all_after && refused))) return false;
  refused = true;
  return true;
}

void* allocate(int size) { return refuses() ? nullptr : real.xMalloc(size); }
void* reallocate(void* old, int size) { return refuses() ? nullptr : real.xRealloc(old, size); }

void use(const sqlite3_mem_methods& methods) {
  sqlite3_shutdown();
  if (sqlite3_config(SQLITE_CONFIG_MALLOC, &methods) != SQLITE_OK || sqlite3_initialize() != SQLITE_OK)
    throw std::runtime_error("the allocator of SQLite cannot be changed");
}

}  // namespace

FaultyMemory::FaultyMemory() {
  if (present) throw std::logic_error("one faulty memory at a time");
  sqlite3_initialize();
  sqlite3_config(SQLITE_CONFIG_GETMALLOC, &real);
  sqlite3_shutdown();
  if (real.xMalloc == nullptr) sqlite3_config(SQLITE_CONFIG_GETMALLOC, &real);
  sqlite3_mem_methods ours = real;
  ours.xMalloc = allocate;
  ours.xRealloc = reallocate;
  use(ours);
  present = true;
}

FaultyMemory::~FaultyMemory() {
  refused_at = 0;
  sqlite3_shutdown();
  sqlite3_config(SQLITE_CONFIG_MALLOC, &real);
  sqlite3_initialize();
  present = false;
}

void FaultyMemory::arm(long at, bool onwards) {
  count = 0;
  refused = false;
  refused_at = at;
  all_after = onwards;
}

bool FaultyMemory::disarm() {
  refused_at = 0;
  return refused;
}

long FaultyMemory::asked() const { return count; }

}  // namespace nonrunner
