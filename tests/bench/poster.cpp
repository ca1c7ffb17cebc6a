// Posts events to a book one by one, each in a transaction of its own, and says so after each: what a busy
// shop does, for the checks that kill it or run many of it at once.
//
//   poster BOOK NAME COUNT      COUNT 0: until it is killed
//
// Prints "NUMBER ENTRY" when the event with that number is kept.
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <string>

#include "book/events/finding.h"

int main(int argc, char** argv) {
  using namespace nonrunner;
  if (argc != 4) return 2;
  try {
    book::Book book = book::Book::open(argv[1]);
    const long count = std::atol(argv[3]);
    for (long number = 1; count == 0 || number <= count; ++number) {
      book::Recording recording(book, "2026-03-01T10:00:00Z", Day(2026, 3, 1));
      book::Finding finding;
      finding.day = Day(2026, 3, 1);
      finding.vehicle = "pip";
      finding.text = std::string(argv[2]) + " " + std::to_string(number);
      const book::EntryId entry = record(recording, finding);
      recording.keep();
      std::printf("%ld %lld\n", number, static_cast<long long>(entry));
      std::fflush(stdout);
    }
  } catch (const std::exception& error) {
    std::fprintf(stderr, "poster: %s\n", error.what());
    return 3;
  }
  return 0;
}
