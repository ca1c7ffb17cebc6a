#include "words/appraise_for_book.h"

#include <nlohmann/json.hpp>

#include "answers/settled_job.h"
#include "answers/sound_value.h"
#include "appraisal/appraise.h"
#include "appraisal/read_job.h"
#include "words/appraise_json.h"

namespace nonrunner::words {

book::Appraise appraise_for_book(const book::Book& book, Day today) {
  return [&book, today](const std::string& text, const std::string& name) {
    const appraisal::Job job =
        appraisal::read_job(answers::settled_job(text, name, &book, today).text, name, book.currency());
    return as_json(appraisal::appraise(job, answers::sound_value(job, &book, today))).dump();
  };
}

}  // namespace nonrunner::words
