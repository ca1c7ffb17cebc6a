#include "commands/at_login.h"

#include <fmt/format.h>

#include <fstream>

#include "exact/ends.h"

namespace nonrunner::commands {

namespace fs = std::filesystem;

namespace {

fs::path unit_of(const fs::path& configuration) {
  return configuration / "systemd" / "user" / "nonrunner.service";
}
fs::path wanted_of(const fs::path& configuration) {
  return configuration / "systemd" / "user" / "default.target.wants" / "nonrunner.service";
}

// In double quotes; what the unit's own language would read is written so that it stands for itself.
std::string quoted(const std::string& word) {
  std::string text = "\"";
  for (const char c : word) {
    if (c == '"' || c == '\\') text += '\\';
    if (c == '%' || c == '$') text += c;
    text += c;
  }
  return text + "\"";
}

}  // namespace

std::string unit_text(const std::vector<std::string>& command) {
  std::string line;
  for (const std::string& word : command) line += (line.empty() ? "" : " ") + quoted(word);
  return fmt::format(
      "[Unit]\nDescription=The page of the "
      "shop\n\n[Service]\nExecStart={}\nRestart=on-failure\nRestartSec=10\n"
      "UMask=0077\nNoNewPrivileges=yes\n\n[Install]\nWantedBy=default.target\n",
      line);
}

fs::path write_unit(const fs::path& configuration, const std::string& text) {
  const fs::path unit = unit_of(configuration), wanted = wanted_of(configuration);
  std::error_code error;
  fs::create_directories(wanted.parent_path(), error);
  std::ofstream out(unit, std::ios::trunc);
  out << text << std::flush;
  if (error || !out)
    throw MachineFailure(fmt::format("{}: cannot be written; nothing opens by itself", unit.string()));
  fs::remove(wanted, error);
  fs::create_symlink("../nonrunner.service", wanted, error);
  if (error)
    throw MachineFailure(fmt::format("{}: {}; nothing opens by itself", wanted.string(), error.message()));
  return unit;
}

bool remove_unit(const fs::path& configuration) {
  std::error_code error;
  fs::remove(wanted_of(configuration), error);
  return fs::remove(unit_of(configuration), error);
}

}  // namespace nonrunner::commands
