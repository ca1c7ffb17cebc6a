#include "words/appraise_for_book.h"

#include "answers/settled_job.h"
#include "appraisal/appraise.h"
#include "appraisal/read_job.h"
#include "appraisal/sound_value.h"
#include "text/toml.h"
#include "words/appraise_json.h"

namespace nonrunner::words {

namespace {
book::Appraise appraise(const book::Book& book, bool as_kept) {
  return [&book, as_kept](const std::string& text, const std::string& name, Day day,
                          const std::optional<std::string>& settled) {
    Value tree = parse_toml(text, name);
    if (!as_kept) appraisal::refuse_unfit_names(tree, name);
    book::AppraisedJob kept{text, settled ? *settled : answers::settled(tree, name, &book, day).figures, ""};
    answers::settle(tree, kept.settled);
    const appraisal::Job job = appraisal::read_job(tree, name, book.currency());
    kept.figures = kept_json(appraisal::appraise(job, appraisal::sound_value_of(job)));
    return kept;
  };
}
}  // namespace

book::Appraise appraise_for_book(const book::Book& book) { return appraise(book, false); }
book::Appraise appraise_as_kept(const book::Book& book) { return appraise(book, true); }

}  // namespace nonrunner::words
