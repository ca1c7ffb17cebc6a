#include "answers/looked_at.h"

#include <nlohmann/json.hpp>

#include "book/events/appraisals.h"

namespace nonrunner::answers {

namespace {
std::string text_of(const nlohmann::json& json, const char* key) {
  const auto found = json.find(key);
  return found != json.end() && found->is_string() ? found->get<std::string>() : std::string();
}
}  // namespace

std::optional<KeptVerdict> kept_verdict(const book::Book& book, const std::string& tag,
                                        std::optional<Day> on) {
  const auto kept = book::appraisal_known(book, tag, on);
  if (!kept || kept->figures.empty()) return std::nullopt;
  const auto json = nlohmann::json::parse(kept->figures, nullptr, false);
  if (!json.is_object()) return std::nullopt;
  KeptVerdict verdict{kept->day, text_of(json, "verdict"), text_of(json, "asking"), {}};
  if (const auto limit = json.find("walk_away"); limit != json.end() && limit->is_object())
    verdict.at_most = text_of(*limit, "price");
  return verdict;
}

}  // namespace nonrunner::answers
