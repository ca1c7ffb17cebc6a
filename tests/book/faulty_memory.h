// Memory that runs out when it is told to, for SQLite alone: its allocator, with the chosen request refused,
// alone or with every one after it. One at a time; no book may be open when it comes or goes.
#pragma once

namespace nonrunner {

class FaultyMemory {
 public:
  FaultyMemory();
  ~FaultyMemory();
  FaultyMemory(const FaultyMemory&) = delete;
  FaultyMemory& operator=(const FaultyMemory&) = delete;

  void arm(long at, bool onwards);  // the request number `at`, from 1, is refused
  bool disarm();                    // no request is refused any more; returns whether one was
  long asked() const;               // requests since arm()
};

}  // namespace nonrunner
