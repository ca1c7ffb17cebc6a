#include "answers/appraise.h"

#include <fmt/format.h>

#include <algorithm>

#include "answers/finding.h"
#include "answers/known.h"
#include "appraisal/read_job.h"
#include "book/events/appraisals.h"
#include "book/events/attach.h"
#include "book/events/finding.h"
#include "book/ledger/checks.h"
#include "book/ledger/names.h"
#include "exact/hint.h"
#include "figures/opinion.h"
#include "text/toml.h"

namespace nonrunner::answers {

ToAppraise file_to_appraise(const std::string& text, const std::string& name, const book::Book* book,
                            const Currency& currency, Day day, const std::vector<ByHand>& changed) {
  auto read = read_settled_job(text, name, book, currency, day);
  if (!changed.empty()) {
    Value tree = parse_toml(text, name);
    settle(tree, read.settled.figures);
    read.settled.figures =
        settled_with(std::move(tree), name, read.settled.figures, changed, read.job.currency);
  }
  return {std::move(read.job), text, std::move(read.settled), {}};
}

ToAppraise car_to_appraise(const book::Book& book, const std::string& tag,
                           const std::vector<ByHand>& changed) {
  book::know_vehicle(book, "appraise", tag);
  const auto kept = book::appraisal_known(book, tag);
  if (!kept)
    throw hinted<Refusal>(fmt::format("appraise: no appraisal of {} is kept in the book", tag),
                          {Action::keep_appraisal, {}});
  const std::string name = "the appraisal of " + tag;
  Settled settled = kept->settled ? Settled{*kept->settled, {}}
                                  : answers::settled(parse_toml(kept->job, name), name, &book, kept->day);
  if (!changed.empty()) settled.figures = settled_with(book, tag, settled.figures, changed);
  return {*job_as_found(book, tag, settled.figures), kept->job, std::move(settled), {}};
}

void ask(ToAppraise& given, Money offer) { given.job.deal.asking = in_units(offer, given.job.currency); }

void see(ToAppraise& given, const std::vector<std::string>& outcomes) {
  for (const std::string& outcome : outcomes) {
    const std::string named = seen_in_names(given.job, outcome);
    appraisal::see(given.job, named);
    const auto test = std::find_if(given.job.tests.begin(), given.job.tests.end(), [&](const auto& each) {
      return each.seen && named == each.name + "=" + each.outcomes[*each.seen];
    });
    const bool twice = std::any_of(given.seen.begin(), given.seen.end(),
                                   [&](const auto& each) { return each.test == test->name; });
    if (twice)
      throw WrongUsage(fmt::format("test \"{}\" stands twice, expected one outcome of it", test->name));
    given.seen.push_back({test->name, test->outcomes[*test->seen]});
  }
}

void leave_out(ToAppraise& given, std::size_t test) {
  appraisal::Test& left = given.job.tests.at(test);
  if (!left.seen) left.spoiled = true;
}

std::optional<Question> question_of(const LeftBehind& left, const std::string& tag) {
  if (left.may_be.empty()) return std::nullopt;
  Question question;
  question.about = "appraise";
  if (left.may_be.size() == 1) {
    question.words = fmt::format("\"{}\" of {} is no longer in the estimate; is \"{}\" the same", left.name,
                                 tag, left.may_be.front());
    question.choices = {{"y", "the same", "same", left.name + "=" + left.may_be.front()},
                        {"n", "it is another line", "", ""}};
    return question;
  }
  question.words =
      fmt::format("\"{}\" of {} is no longer in the estimate; which line is it now", left.name, tag);
  for (std::size_t i = 0; i < left.may_be.size(); ++i)
    question.choices.push_back(
        {std::to_string(i + 1), left.may_be[i], "same", left.name + "=" + left.may_be[i]});
  question.choices.push_back({"n", "none of these", "", ""});
  return question;
}

void expect_may_be_kept(const book::Book& book, const ToAppraise& given) {
  const std::string& tag = given.job.vehicle.tag;
  const auto known = book::all_tags(book);
  if (std::find(known.begin(), known.end(), tag) == known.end()) return;
  if (const book::Life life = book::life_of(book, tag); life.ended != 0)
    book::refuse_ended("appraise: not kept", tag, life);
}

void keep(book::Recording& recording, const ToAppraise& given, Day day, const std::string& figures,
          const SameLines& same) {
  const std::string& tag = given.job.vehicle.tag;
  expect_may_be_kept(recording.book(), given);
  book::keep_appraisal(recording, tag, day, 0, {given.text, given.settled.figures, figures});
  book::Finding finding{day, tag, "tests seen, with the appraisal", {}};
  for (const ToAppraise::Seen& each : given.seen)
    finding.facts.push_back({book::fact::seen, each.test, each.outcome});
  if (!finding.facts.empty()) record(recording, finding);
  book::Finding renamed{day, tag, "lines that have another name in the appraisal", {}};
  for (const auto& [before, now] : same) renamed.facts.push_back({book::fact::same, before, now});
  if (!renamed.facts.empty()) record(recording, answers::checked(recording.book(), renamed));
}

void keep_seen(book::Recording& recording, const std::string& tag, Day day,
               const std::vector<std::string>& outcomes) {
  book::Finding finding{day, tag, "tests seen, before it was decided", {}};
  for (const std::string& each : outcomes) {
    const std::size_t at = each.rfind('=');
    if (at == std::string::npos)
      throw Refusal(fmt::format("tests seen: found \"{}\", expected TEST=OUTCOME", each));
    finding.facts.push_back({book::fact::seen, each.substr(0, at), each.substr(at + 1)});
  }
  if (finding.facts.empty()) return;
  try {
    record(recording, checked(recording.book(), finding));
  } catch (const Refusal& refusal) {
    // The purchase is not lost for it: it was decided by an appraisal that is not the one in force any more.
    finding.facts.clear();
    finding.text += fmt::format(": {}", fmt::join(outcomes, ", "));
    record(recording, finding);
    recording.remarks().push_back(
        fmt::format("what tests have shown is kept in words only: {}", refusal.what()));
  }
}

std::string named(const book::KeptAppraisal& kept) {
  return book::sha256_of(kept.job + "\n" + kept.settled.value_or(""));
}

std::string decide_by(book::Recording& recording, const std::string& tag, const std::string& decided_by,
                      book::EntryId bought_by) {
  const book::Book& book = recording.book();
  const auto in_force = book::appraisal_in_force(book, tag);
  if (in_force && named(*in_force) == decided_by) return "";
  const std::string meanwhile =
      in_force ? fmt::format("; another was kept meanwhile, on {}", in_force->day.iso()) : "";
  for (const book::KeptAppraisal& each : book::appraisals_of(book, tag)) {
    if (named(each) != decided_by) continue;
    const std::string said = fmt::format("it was decided by the appraisal of {}", each.day.iso());
    if (bought_by == 0) return said + meanwhile;
    const Day bought = book::life_of(book, tag).bought_said;
    book::keep_appraisal(recording, tag, bought, bought_by,
                         {each.job, each.settled.value_or(""), each.figures});
    return said + ", and stands under that one" +
           (each.day > bought ? fmt::format(", though it was bought before that, on {}", bought.iso())
                              : meanwhile);
  }
  return "the appraisal that it was decided by is not in this book" +
         (bought_by == 0 ? ""
                         : ": it stands under " + (in_force ? "that of " + in_force->day.iso() : "none"));
}

}  // namespace nonrunner::answers
