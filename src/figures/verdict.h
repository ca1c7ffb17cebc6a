// What an appraisal comes to.
#pragma once

namespace nonrunner::figures {

enum class Verdict { buy, test_first, offer_less, walk_away };

}  // namespace nonrunner::figures
