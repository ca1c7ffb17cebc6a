// What a device is told when it is paired, and when the house proves itself to it: as JSON for its script.
#pragma once
#include <string>
#include <vector>

#include "book/care/devices.h"

namespace nonrunner::words {

// {"device": 32 digits, "key": 64 digits, "name": "kitchen phone"}, all hexadecimal.
std::string paired_as_json(const std::string& device, const std::string& key, const std::string& name);
// {"proof": 64 hexadecimal digits}
std::string proof_as_json(const std::string& proof);
// The devices that were paired; "forgotten" is null for one that is let in.
std::string devices_as_json(const std::vector<book::Device>&);

}  // namespace nonrunner::words
