// A text as a QR code (ISO/IEC 18004) for a screen: two rows of modules in a line of half blocks, four modules of light
// margin around it, light on a dark screen.
#pragma once
#include <string>

namespace nonrunner::commands {

std::string qr_in_half_blocks(const std::string& text);

}  // namespace nonrunner::commands
