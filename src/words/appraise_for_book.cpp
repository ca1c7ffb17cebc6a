#include "words/appraise_for_book.h"

#include "answers/settled_job.h"
#include "appraisal/appraise.h"
#include "appraisal/read_job.h"
#include "appraisal/sound_value.h"
#include "text/toml.h"
#include "words/appraise_json.h"

namespace nonrunner::words {

book::Appraise appraise_for_book(const book::Book& book) {
  return [&book](const std::string& text, const std::string& name, Day day,
                 const std::optional<std::string>& settled) {
    Value tree = parse_toml(text, name);
    book::AppraisedJob kept{text, settled ? *settled : answers::settled(tree, name, &book, day).figures, ""};
    answers::settle(tree, kept.settled);
    const appraisal::Job job = appraisal::read_job(tree, name, book.currency());
    kept.figures = kept_json(appraisal::appraise(job, appraisal::sound_value_of(job)));
    return kept;
  };
}

}  // namespace nonrunner::words
