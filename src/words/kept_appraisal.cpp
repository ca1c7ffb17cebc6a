#include "words/kept_appraisal.h"

#include "answers/known.h"
#include "appraisal/appraise.h"
#include "appraisal/sound_value.h"
#include "exact/hint.h"
#include "words/appraisal_figures.h"

namespace nonrunner::words {

figures::AppraisalFigures kept_appraisal_figures(const book::Book& book, const std::string& tag, Day today) {
  const auto job = answers::job_as_found(book, tag);
  if (!job) throw hinted<Refusal>(tag + ": no appraisal is kept for it", {Action::keep_appraisal, {}});
  const appraisal::SoundValue sound = appraisal::sound_value_of(*job);
  return appraisal_figures(appraisal::appraise(*job, sound), sound, book.distance_unit(), today);
}

}  // namespace nonrunner::words
