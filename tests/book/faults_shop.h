// What the tests of faults interrupt: a small shop in which everything can happen next, and one act of every
// kind, each event of the events file among them.
#pragma once
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "book/ledger/book.h"

namespace nonrunner::faults {

struct Folder {
  std::filesystem::path path;
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
};

inline constexpr const char* now = "2026-03-01T10:00:00Z";
inline const Day today{2026, 3, 1};

struct Act {
  std::string name;  // an event's word, or what the desk does
  std::function<void(book::Recording&)> act;
};

// The book `folder`/shop.book, closed again, with the files beside it that the acts use.
std::filesystem::path make_shop(const std::filesystem::path& folder);
std::vector<Act> acts(const std::filesystem::path& folder);

// Copies a closed book over another one, with nothing left of the other.
void copy_book(const std::filesystem::path& from, const std::filesystem::path& to);
void remove_book(const std::filesystem::path&);

// Every row of every table; equal texts, equal books.
std::string contents(const book::Book&);

struct Outcome {
  bool acknowledged = false;
  std::string said;      // the message where it was not
  bool machine = false;  // it was a MachineFailure
};
// Opens the book, records the act and keeps it, as a command does.
Outcome attempt(const std::filesystem::path& book, const Act&);
// What `run` throws, as the program would say it.
Outcome outcome_of(const std::filesystem::path& book, const std::function<void()>& run);

// What is wrong with the book after an interrupted act that would lead from `before` to `after`; empty:
// nothing.
std::string wrong_after(const std::filesystem::path& book, const Outcome&, const std::string& before,
                        const std::string& after);

// Under sanitizers every run takes long: at most this many points an act, spread over all.
std::vector<int> points(int count);

}  // namespace nonrunner::faults
