#include "commands/appraise_for_book.h"

#include <nlohmann/json.hpp>

#include "appraisal/appraise.h"
#include "appraisal/read_job.h"
#include "commands/appraise_json.h"
#include "exact/ends.h"

namespace nonrunner::commands {

appraisal::SoundValue sound_value(const appraisal::Job& job, const book::Book*) {
  if (job.basis && job.basis->from_book && job.basis->comparables.empty())
    throw Refusal(job.vehicle.tag +
                  ": [value] from = \"book\", and the book keeps no comparables that fit; give "
                  "[[comparable]] rows or sound");
  return appraisal::sound_value_of(job);
}

book::Appraise appraise_for_book(const book::Book& book) {
  return [&book](const std::string& text, const std::string& name) {
    const appraisal::Job job = appraisal::read_job(text, name, book.currency());
    return as_json(appraisal::appraise(job, sound_value(job, &book))).dump();
  };
}

}  // namespace nonrunner::commands
