// A file that is written beside its target under a name of its own and takes the target's place when it is
// whole: a reader finds the old file or the new one, never half of one. Left without keep(), it is removed.
#pragma once
#include <filesystem>
#include <string>

namespace nonrunner::reports {

class ReplacedFile {
 public:
  // Makes the file, empty, for the owner alone to read and write: it names people and amounts. Throws
  // MachineFailure naming the target.
  explicit ReplacedFile(std::filesystem::path target);
  ~ReplacedFile();
  ReplacedFile(const ReplacedFile&) = delete;
  ReplacedFile& operator=(const ReplacedFile&) = delete;

  const std::filesystem::path& path() const { return path_; }  // where to write
  // Brings what was written to the disk, and the file into its place. Throws MachineFailure; the target is
  // then as it was.
  void keep();
  // Throws MachineFailure: `TARGET: the workbook could not be written: WHY; the file is as it was, make room
  // or ...`
  [[noreturn]] void fail(const std::string& why) const;

 private:
  std::filesystem::path target_, path_;
  bool kept_ = false;
};

}  // namespace nonrunner::reports
