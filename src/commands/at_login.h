// The house opened by itself at each login: a unit of the user's own for systemd (systemd.unit(5), systemd.service(5)).
// Nothing is run here: the unit and the link that wants it are files.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

namespace nonrunner::commands {

// `command`: the program and its words; they are quoted as the file wants them.
std::string unit_text(const std::vector<std::string>& command);

// Below `configuration` (~/.config). Writes it, or over one that is there; throws MachineFailure where that fails.
std::filesystem::path write_unit(const std::filesystem::path& configuration, const std::string& text);
// Whether there was one.
bool remove_unit(const std::filesystem::path& configuration);

}  // namespace nonrunner::commands
