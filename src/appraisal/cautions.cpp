#include "appraisal/cautions.h"

#include <algorithm>
#include <utility>

#include "appraisal/chain.h"

namespace nonrunner::appraisal {

namespace {

std::string words_for(const std::string& hazard) {
  static const std::vector<std::pair<std::string, std::string>> known = {
      {"fuel",
       "fuel and its vapour burn: cold engine, battery off, no flame or spark, air moving, an extinguisher "
       "at hand"},
      {"fire",
       "hot work near fuel, brake or gear lines, wiring or trim sets fires: clear and shield them, "
       "extinguisher at hand, look again later"},
      {"hot coolant",
       "a hot cooling system scalds when it is opened: let it cool fully first; coolant is poisonous to "
       "people and animals"},
      {"lifting",
       "never under a car, engine or gearbox that hangs on a jack or hoist alone: rated stands or supports, "
       "level ground, wheels held"},
      {"battery",
       "batteries give off gas that explodes and hold acid: eyes covered, no spark, earth lead off first and "
       "on last"},
      {"high voltage", "high-voltage systems kill: leave them to people trained and licensed for them"},
      {"airbag",
       "airbags and belt tensioners go off: leave them to people trained for them, and follow the maker's "
       "instructions"},
      {"airbags",
       "airbags and belt tensioners go off: leave them to people trained for them, and follow the maker's "
       "instructions"},
      {"refrigerant",
       "refrigerant may be handled only by people who are certified for it in many places, and never let "
       "into the air"},
      {"welding",
       "welding burns, blinds and sets fires: mask and gloves, battery off, tanks and lines away; welds that "
       "bear load need a licensed person in many places"},
      {"brakes",
       "brakes carry lives: maker's instructions and torques, dust never blown out, and a careful trial "
       "before the road"},
      {"dust", "old brake, clutch and gasket dust may hold asbestos: keep it wet, never blow it out"},
      {"springs",
       "compressed springs throw what holds them: the right compressor, and nobody in line with it"},
      {"steering",
       "steering carries lives: maker's instructions and torques, and the geometry checked afterwards"},
  };
  for (const auto& [name, text] : known)
    if (name == hazard) return text;
  return "the job file names this hazard: learn what it asks for before the work begins";
}

std::string words_for(Paper paper) {
  switch (paper) {
    case Paper::clean:
      return "";
    case Paper::lien:
      return "somebody else has a claim on the car: have it settled and released in writing before any money "
             "changes hands";
    case Paper::salvage:
      return "a car with a salvage paper may not be driven until it has passed what local law asks for; "
             "buyers must be told";
    case Paper::rebuilt:
      return "a rebuilt paper stays with the car: buyers must be told, and some insurers and lenders refuse "
             "it";
    case Paper::lost:
      return "without a title document the car cannot be sold for the road: find out what local law asks for "
             "before buying";
  }
  return "";
}

const char* name_of(Paper paper) {
  switch (paper) {
    case Paper::clean:
      return "paper clean";
    case Paper::lien:
      return "paper with a lien";
    case Paper::salvage:
      return "salvage paper";
    case Paper::rebuilt:
      return "rebuilt paper";
    case Paper::lost:
      return "paper lost";
  }
  return "";
}

}  // namespace

std::vector<Caution> cautions_of(const Job& job) {
  std::vector<bool> reached(job.corrections.size(), false);
  for (const Cause& cause : job.causes)
    if (cause.odds > 0)
      for (const Step& step : chain_of(job, cause).steps) reached[step.correction] = true;
  std::vector<Caution> all;
  for (std::size_t i = 0; i < job.corrections.size(); ++i) {
    if (!reached[i]) continue;
    for (const Operation& operation : job.corrections[i].operations)
      for (const std::string& hazard : operation.hazards) {
        auto found =
            std::find_if(all.begin(), all.end(), [&](const Caution& c) { return c.about == hazard; });
        if (found == all.end()) found = all.insert(all.end(), {hazard, words_for(hazard), {}});
        if (std::find(found->operations.begin(), found->operations.end(), operation.name) ==
            found->operations.end())
          found->operations.push_back(operation.name);
      }
  }
  if (job.vehicle.paper != Paper::clean)
    all.push_back({name_of(job.vehicle.paper), words_for(job.vehicle.paper), {}});
  return all;
}

}  // namespace nonrunner::appraisal
