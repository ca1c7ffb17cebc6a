// One house for one book: a file beside it, BOOK.serving, locked while the book is served, in which stands where.
#pragma once
#include <filesystem>
#include <string>

namespace nonrunner::page {

class Serving {
 public:
  // Throws Refusal where another process serves the book, saying where; MachineFailure where the file cannot be made.
  explicit Serving(const std::filesystem::path& book);
  ~Serving();
  Serving(const Serving&) = delete;
  Serving& operator=(const Serving&) = delete;
  void at(const std::string& where);  // "http://127.0.0.1:8417"

  // Where the book is served just now; empty where it is not.
  static std::string where(const std::filesystem::path& book);

 private:
  std::filesystem::path file_;
  int lock_ = -1;
};

// Photos that did not come in whole, beside the book: none is anybody's while this process serves it.
void sweep_uploads(const std::filesystem::path& book);
std::filesystem::path upload_place(const std::filesystem::path& book);  // a new name each time

}  // namespace nonrunner::page
