#include "answers/looked_at.h"

#include "book/events/appraisals.h"
#include "book/ledger/query.h"
#include "text/json.h"

namespace nonrunner::answers {

namespace {
std::string text_of(const Value& table, const char* key) {
  const Value* found = table.find(key);
  return found && found->kind == Value::Kind::text ? found->text : std::string();
}
}  // namespace

std::optional<KeptVerdict> kept_verdict(const book::Book& book, const std::string& tag,
                                        std::optional<Day> on) {
  const auto kept = book::appraisal_known(book, tag, on);
  if (!kept || kept->figures.empty()) return std::nullopt;
  const auto figures = parse_json(kept->figures);
  if (!figures || figures->kind != Value::Kind::table) return std::nullopt;
  KeptVerdict verdict{kept->day, text_of(*figures, "verdict"), text_of(*figures, "asking"), {}};
  if (const Value* limit = figures->find("walk_away")) verdict.at_most = text_of(*limit, "price");
  return verdict;
}

FirstKnown known_by(const book::Book& book, const std::string& tag, Day on) {
  FirstKnown known;
  known.first = book::first<Day>(
      book,
      "SELECT day FROM (SELECT e.day AS day FROM mention m JOIN entry e USING (entry) WHERE m.vehicle = :tag "
      "UNION ALL SELECT day FROM appraisal WHERE vehicle = :tag) ORDER BY day LIMIT 1",
      {{":tag", tag}});
  known.by_then = known.first && *known.first <= on;
  return known;
}

}  // namespace nonrunner::answers
