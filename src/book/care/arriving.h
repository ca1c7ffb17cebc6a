// A book that is being made: beside its place, as PLACE.arriving, until it is whole and on the disk; then it
// takes its place by one rename. Whoever looks at the place finds nothing or the whole book, whenever the
// process ends. Attachments are put beside it, in PLACE.arriving.files, and come along, before it.
//
// Readable by its owner only. Left without arrive(), it is removed; what a killed process left is taken over.
// A lock on it keeps two processes from making the same book at once.
//
// Refused: 1 something is at the place already   2 another process is making a book there
#pragma once
#include <filesystem>

namespace nonrunner::book {

class Arriving {
 public:
  explicit Arriving(
      std::filesystem::path place);  // throws Refusal as above, MachineFailure where it cannot be made
  ~Arriving();
  Arriving(const Arriving&) = delete;
  Arriving& operator=(const Arriving&) = delete;

  const std::filesystem::path& path() const { return path_; }  // an empty file, to be filled
  std::filesystem::path attachments() const { return path_.string() + ".files"; }  // not made yet
  // To be called when the book is closed. Throws Refusal where something has come to stand at the place
  // meanwhile.
  void arrive();

 private:
  void remove_all() const;
  void attachments_arrive() const;
  std::filesystem::path place_, path_;
  int lock_ = -1;
  bool arrived_ = false;
};

void expect_free(const std::filesystem::path& place);  // refusal 1
// Throws MachineFailure where the disk does not confirm it.
void to_disk(const std::filesystem::path&);
void folder_to_disk(const std::filesystem::path& of);  // the folder that `of` stands in

}  // namespace nonrunner::book
