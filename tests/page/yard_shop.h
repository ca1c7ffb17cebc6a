// A shop whose page decides and sells: sample jobs looked at, or booked as far as a story goes.
#pragma once
#include <fstream>

#include "answers/appraise.h"
#include "appraisal/appraise.h"
#include "book/events/post.h"
#include "page/page_shop.h"
#include "text/toml.h"
#include "words/appraise_for_book.h"
#include "words/appraise_json.h"

namespace nonrunner::page {

struct YardShop : PageShop {
  static std::string sample(const std::string& file) {
    return read_file(std::string(NONRUNNER_SOURCE) + "/sample-jobs/" + file);
  }

  // Keeps the appraisal of a sample job, or of a text.
  void look_at(const std::string& name) { keep(sample(name + "/job.toml")); }
  void keep(const std::string& job) {
    const answers::ToAppraise given =
        answers::file_to_appraise(job, "job.toml", &book(), book().currency(), today);
    record([&](book::Recording& recording) {
      answers::keep(recording, given, today,
                    words::kept_json(appraisal::appraise(given.job, appraisal::sound_value_of(given.job))));
    });
  }

  // The events of a sample job, up to the first that has `until` in it.
  void book_job(const std::string& name, const std::string& until = "") {
    std::ofstream(folder() / "job.toml") << sample(name + "/job.toml");
    std::string events = sample(name + "/events.toml");
    if (!until.empty()) {
      events.erase(events.rfind('\n', events.find(until)));
      events += "\n]\n";
    }
    record([&](book::Recording& recording) {
      book::post(recording, events, "events.toml", folder(), words::appraise_for_book(book()));
    });
  }
};

// Whether a person reads this line on the page.
inline bool says(const Answer& answer, const std::string& line) {
  return ("\n" + read_aloud(answer)).find("\n" + line + "\n") != std::string::npos;
}

}  // namespace nonrunner::page
