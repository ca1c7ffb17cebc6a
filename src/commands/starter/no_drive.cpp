#include "commands/starter/starter.h"

namespace nonrunner::commands {

const char* const starter_no_drive =
    R"(# What it can be: odds against each other, and what the car fetches as it stands once that is known.
[[cause]]
name       = "selector cable or linkage"
odds       = 14
found      = 1500
correction = "selector cable"
[[cause]]
name       = "axle shaft out or stripped"
odds       = 20
found      = 1350
correction = "axle shaft"
[[cause]]
name       = "fluid low or lost"
odds       = 16
found      = 1100
correction = "stop the leak, fresh fluid"
[[cause]]
name       = "transmission failed inside"
odds       = 50
found      = 600
correction = "transmission from the yard"

[[correction]]
name        = "selector cable"
operations  = [{ name = "route and set a cable", hours = [0.8, 1.5, 3], hazards = ["lifting"] }]
parts       = [{ name = "selector cable", qty = 1, new = 62, salvage = 15, pull_hours = 0.9, bad = 0.15 }]
[[correction]]
name        = "axle shaft"
operations  = [{ name = "change one axle shaft", hours = [1.5, 2.2, 4.5], hazards = ["lifting"] }]
parts       = [{ name = "axle shaft with seal", qty = 1, new = 135, reman = 92, core = 40, salvage = 48, pull_hours = 1, bad = 0.15 }]
consumables = [{ name = "transmission fluid, qt", qty = 2.5, price = 7.10 }]
[[correction]]
name        = "stop the leak, fresh fluid"
operations  = [{ name = "lines, filter, fluid, road test", hours = [2, 3.5, 7], hazards = ["lifting"] }]
parts       = [{ name = "lines, filter, gasket", qty = 1, new = 95 }]
consumables = [{ name = "transmission fluid, qt", qty = 9, price = 7.10 }]
works       = 0.55                   # it was driven dry too long as often as not
otherwise   = "transmission from the yard"
[[correction]]
name        = "transmission from the yard"
operations  = [
  { name = "transmission out", hours = [5, 7, 12], hazards = ["lifting"] },
  { name = "transmission in, fill, set up, road test", hours = [7, 9.5, 17], hazards = ["lifting"] },
]
parts       = [
  { name = "transmission, complete", qty = 1, salvage = 420, bad = 0.25, reman = 1850, core = 350, use = "salvage" },
  { name = "mounts, seals and lines", qty = 1, new = 90 },
]
consumables = [{ name = "transmission fluid, qt", qty = 10, price = 7.10 }]
sublet      = [{ name = "transmission jack, hire", price = 45 }]

# What can be found out before buying. `given`: the chance of each outcome under each cause.
[[test]]
name     = "level and smell of the fluid"
hours    = 0.2
outcomes = ["full and clean", "low, not burnt", "burnt or metal in it"]
[test.given]
"selector cable or linkage"  = [0.8, 0.12, 0.08]
"axle shaft out or stripped" = [0.7, 0.2, 0.1]
"fluid low or lost"          = [0.02, 0.68, 0.3]
"transmission failed inside" = [0.25, 0.15, 0.6]
[[test]]
name     = "look at the selector lever on the box"
hours    = 0.3
outcomes = ["lever moves", "lever stays"]
[test.given]
"selector cable or linkage"  = [0.05, 0.95]
"axle shaft out or stripped" = [0.98, 0.02]
"fluid low or lost"          = [0.98, 0.02]
"transmission failed inside" = [0.97, 0.03]
[[test]]
name     = "watch the shafts, driven wheels raised on stands"
hours    = 0.6
outcomes = ["neither turns", "inner joint turns, wheel does not"]
[test.given]
"selector cable or linkage"  = [0.97, 0.03]
"axle shaft out or stripped" = [0.08, 0.92]
"fluid low or lost"          = [0.96, 0.04]
"transmission failed inside" = [0.95, 0.05]
)";

}  // namespace nonrunner::commands
