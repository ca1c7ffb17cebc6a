#include "words/kept_appraisal.h"

#include "answers/kept_job.h"
#include "appraisal/appraise.h"
#include "appraisal/sound_value.h"
#include "exact/hint.h"
#include "words/appraisal_figures.h"

namespace nonrunner::words {

figures::AppraisalFigures kept_appraisal_figures(const book::Book& book, const std::string& tag, Day today) {
  const auto kept = answers::kept_job(book, tag);
  if (!kept) throw hinted<Refusal>(tag + ": no appraisal is kept for it", {Action::keep_appraisal, {}});
  const appraisal::SoundValue sound = appraisal::sound_value_of(kept->job);
  return appraisal_figures(appraisal::appraise(kept->job, sound), sound, book.distance_unit(), today);
}

}  // namespace nonrunner::words
