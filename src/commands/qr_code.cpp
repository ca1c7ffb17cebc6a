#include "commands/qr_code.h"

#include <qrcodegen/qrcodegen.hpp>

namespace nonrunner::commands {

std::string qr_in_half_blocks(const std::string& text) {
  constexpr int margin = 4;
  const auto code = qrcodegen::QrCode::encodeText(text.c_str(), qrcodegen::QrCode::Ecc::MEDIUM);
  std::string lines;
  for (int y = -margin; y < code.getSize() + margin; y += 2) {
    for (int x = -margin; x < code.getSize() + margin; ++x) {
      const bool upper = code.getModule(x, y), lower = code.getModule(x, y + 1);  // dark ones
      lines += upper ? (lower ? " " : "\xe2\x96\x84") : (lower ? "\xe2\x96\x80" : "\xe2\x96\x88");
    }
    lines += '\n';
  }
  return lines;
}

}  // namespace nonrunner::commands
