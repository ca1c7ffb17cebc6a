#include "answers/kept_job.h"

#include <fmt/format.h>

#include "answers/by_hand.h"
#include "answers/known.h"
#include "answers/settled_job.h"
#include "appraisal/read_job.h"
#include "book/ledger/names.h"
#include "exact/hint.h"
#include "text/toml.h"

namespace nonrunner::answers {

namespace {

std::string name_of(const std::string& tag) { return "the appraisal of " + tag; }

// Kept before what was settled stood apart: as of its day.
Value tree_of(const book::Book& book, const std::string& tag, const book::KeptAppraisal& kept) {
  Value tree = parse_toml(kept.job, name_of(tag));
  settle(tree, kept.settled ? *kept.settled : settled(tree, name_of(tag), &book, kept.day).figures);
  return tree;
}

std::optional<KeptJob> read(const book::Book& book, const std::string& tag,
                            const std::optional<book::KeptAppraisal>& kept) {
  if (!kept) return std::nullopt;
  return KeptJob{read_kept_job(book, tag, *kept), kept->day, kept->figures};
}

// The car under which it is kept, whatever the file calls it: one that was copied may bear another's tag.
appraisal::Job job_of(const book::Book& book, const std::string& tag, const Value& tree) {
  appraisal::Job job = appraisal::read_job(tree, name_of(tag), book.currency());
  job.vehicle.tag = tag;
  return job;
}

}  // namespace

appraisal::Job read_kept_job(const book::Book& book, const std::string& tag,
                             const book::KeptAppraisal& kept) {
  return job_of(book, tag, tree_of(book, tag, kept));
}

std::optional<Value> kept_tree(const book::Book& book, const std::string& tag) {
  const auto kept = book::appraisal_known(book, tag);
  return kept ? std::optional(tree_of(book, tag, *kept)) : std::nullopt;
}

std::optional<KeptJob> kept_job(const book::Book& book, const std::string& tag, std::optional<Day> on) {
  return read(book, tag, book::appraisal_known(book, tag, on));
}

KeptJob job_to_decide(const book::Book& book, const std::string& question, const std::string& tag) {
  book::know_vehicle(book, question, tag);
  const book::Life life = book::life_of(book, tag);
  if (life.ended != 0)
    throw Refusal(fmt::format("{}: {} was {} on {}; there is nothing left to decide", question, tag,
                              book::shown(life.state), life.ended_said.iso()));
  auto kept = kept_job(book, tag);
  if (!kept)
    throw hinted<Refusal>(
        fmt::format("{}: no appraisal of {} is kept in the book, expected one", question, tag),
        {Action::keep_appraisal, {}});
  kept->job = *job_as_found(book, tag);
  count_at_shops_hour(book, tag, {}, kept->job);
  return *std::move(kept);
}

std::optional<KeptJob> job_at_purchase(const book::Book& book, const std::string& tag,
                                       std::optional<Day> on) {
  return read(book, tag, book::appraisal_in_force(book, tag, on));
}

appraisal::Vehicle described(const book::Book& book, const std::string& tag) {
  auto kept = job_at_purchase(book, tag);
  if (!kept) kept = kept_job(book, tag);
  return kept ? kept->job.vehicle : appraisal::Vehicle{};
}

std::optional<appraisal::Job> believed_job_at_purchase(const book::Book& book, const std::string& tag) {
  const auto kept = book::appraisal_in_force(book, tag);
  if (!kept) return std::nullopt;
  Value tree = parse_toml(kept->job, name_of(tag));
  settle(tree, believed(tree, name_of(tag)).figures);
  if (kept->settled) settle(tree, by_hand_of(*kept->settled));
  return job_of(book, tag, tree);
}

}  // namespace nonrunner::answers
