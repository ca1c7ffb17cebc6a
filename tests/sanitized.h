// Whether this is the build under the address and undefined-behaviour sanitizers, of GCC or of clang. What is looked for
// there is memory and overflow, not figures: what repeats itself with other numbers is repeated less often.
#pragma once

namespace nonrunner {

#if defined(__SANITIZE_ADDRESS__)
inline constexpr bool sanitized = true;
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
inline constexpr bool sanitized = true;
#else
inline constexpr bool sanitized = false;
#endif
#else
inline constexpr bool sanitized = false;
#endif

}  // namespace nonrunner
