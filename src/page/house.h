// The house: listens where it was told, takes requests in and sends answers out. All of the network is in house.cpp;
// who is let in and what is answered is said by porter.h and the rooms.
//
// One thread takes requests and answers them from its own open book; what takes longer than a screen may wait (roads
// that are slow) is answered by one other thread from a book of its own. No lock of the book is held while a body comes
// in. A photo goes into a file beside the book and never lies in memory whole; what a stopped machine left of such
// files is swept when the house is opened.
//
// Ctrl-C and SIGTERM: nothing new is taken, what is in hand is finished (two seconds at most), the rest is closed.
#pragma once
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/book.h"
#include "page/guards.h"
#include "page/porter.h"

namespace nonrunner::page {

struct Certificate {
  std::string chain, key;  // PEM
};

struct Listening {
  std::string scheme = "http", address;
  int port = 0;                            // 0: the machine chooses one
  std::optional<Certificate> certificate;  // with https
  bool may_lack = false;                   // an address that the machine may not have: ::1
  std::string
      offers;  // the shop's authority (PEM): nothing else is answered here, and that while a code is open
};

struct HouseKeeping {
  std::vector<Listening> at;
  std::function<book::Book()> open_book;  // called once in each thread, and again where the file was replaced
  std::function<Moment()> now;
  std::string owner;
  std::filesystem::path log;  // a line a request; at most 1 MB
  Limits limits;
};

class House {
 public:
  // Listens. Throws Refusal where the same book is served already, saying where; MachineFailure where an address or a
  // port cannot be had.
  explicit House(HouseKeeping);
  ~House();
  House(const House&) = delete;
  House& operator=(const House&) = delete;

  // Where it listens, in the order of `at`, with the ports that were had; without the ones that it may lack and does.
  const std::vector<Ours>& ours() const;

  // Answers until it is told to end. Returns whether all that was in hand was finished.
  bool run();

 private:
  class Rooms;
  std::unique_ptr<Rooms> rooms_;
};

}  // namespace nonrunner::page
