#include "commands/starter/starter.h"

#include <fmt/format.h>

namespace nonrunner::commands {

namespace {

constexpr auto head =
    R"(# A job file to begin with. Every figure is an invented starting value: put in your own
# before you trust the answer.
#
#   nonrunner appraise {0}.toml
#
# An amount is a number, or three points [low, likely, high].

[vehicle]
tag         = "{0}"
description = ""
complaint   = "{1}"
paper       = "clean"                # clean, lien, salvage, rebuilt or lost: look at it before anything else

[deal]
asking = 1400
fees   = 160                         # title, registration, tow: paid on purchase whatever the cause
rate   = 0.0                         # tax on the price, as a fraction

[shop]
hour            = 20                 # what an own hour must earn
pace            = [0.9, 1.2, 1.8]    # real hours for an estimated one
hours_per_week  = 10
wait_days       = 5                  # for parts and outside work
holding_per_day = 2.50               # storage, insurance

[sale]
days     = [7, 18, 45]
realised = [0.90, 0.94, 0.98]        # price got for 1 advertised
costs    = 45                        # advert, cleaning, inspection

[aims]
profit      = 500                    # least expected profit after paying own hours
loss_chance = 0.15                   # greatest chance of losing cash
per_hour    = 22                     # least expected cash profit per own hour

[value]
sound = [2600, 3050, 3500]           # what a sound one really sells for, everything put right

[opening_up]
hours = [1, 1.5, 3]                  # until the cause is known for certain

)";

constexpr auto tail = R"(
# The other ways out.
[part_out]
proceeds = [600, 900, 1300]
hours    = [10, 15, 25]
costs    = 60

[scrap]
value = 330

# Something else that may be wrong, whatever the cause. Lower the chance once you have looked.
[[trouble]]
name       = "rot that does not show"
chance     = 0.15
cash       = [80, 180, 400]
hours      = [4, 8, 16]
found_less = 200

# What a buyer would hold against the car when it runs.
[[fault]]
name      = "tyres at the wear bars"
takes_off = [120, 190, 280]
must      = true                     # it may not be sold running like this
fix       = [
  {{ name = "part-worn pair, fitted", source = "salvage", cash = 95, hours = [0.5, 0.8, 1.2], restores = 0.85 }},
  {{ name = "new pair, fitted", source = "new", cash = 170, hours = [0.5, 0.8, 1.2], restores = 1.0 }},
]
[[fault]]
name      = "dirty inside and out"
takes_off = [80, 150, 250]
fix       = [
  {{ name = "cleaned at home", source = "repair", cash = 20, hours = [2, 3, 5], restores = 0.9 }},
]
)";

}  // namespace

const std::vector<Starter>& starters() {
  static const std::vector<Starter> all = {{"cranks but will not start", starter_cranks},
                                           {"does not crank", starter_does_not_crank},
                                           {"overheated", starter_overheated},
                                           {"no drive", starter_no_drive},
                                           {"knocks", starter_knocks}};
  return all;
}

std::string starter_job(const Starter& starter, const std::string& tag) {
  return fmt::format(head, tag, starter.complaint) + starter.body + fmt::format(tail);
}

}  // namespace nonrunner::commands
