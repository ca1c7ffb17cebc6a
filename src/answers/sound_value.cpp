#include "answers/sound_value.h"

#include <fmt/format.h>

#include <cmath>

#include "book/events/comparables.h"
#include "exact/ends.h"

namespace nonrunner::answers {

namespace {

std::vector<resale::Comparable> kept_comparables(const appraisal::Job& job, const book::Book& book,
                                                 Day today) {
  const int year = static_cast<int>(job.basis->subject.year);
  std::vector<resale::Comparable> all;
  for (const book::KeptComparable& kept :
       book::comparables_that_fit(book, job.vehicle.description, year, today))
    all.push_back({static_cast<double>(kept.price.minor()) / std::pow(10.0, book.currency().digits),
                   kept.sold ? resale::Kind::sold : resale::Kind::asking, kept.odometer.approximately(),
                   static_cast<double>(kept.year), kept.grade.approximately(),
                   resale::called(fmt::format("{} of the book", kept.id), kept.price, book.currency(),
                                  kept.odometer, kept.day)});
  return all;
}

}  // namespace

appraisal::SoundValue sound_value(const appraisal::Job& job, const book::Book* book, Day today) {
  if (!job.basis || !job.basis->from_book) return appraisal::sound_value_of(job);
  if (!book)
    throw Refusal(job.vehicle.tag +
                  ": [value] from = \"book\", and there is no book; make one with nonrunner start, or give "
                  "[[comparable]] rows");
  const std::vector<resale::Comparable> kept = kept_comparables(job, *book, today);
  if (kept.empty() && job.basis->comparables.empty())
    throw Refusal(job.vehicle.tag +
                  ": [value] from = \"book\", and none of the book's comparables fits; add some with "
                  "nonrunner comparable add, or give "
                  "[[comparable]] rows");
  return appraisal::sound_value_of(job, kept);
}

}  // namespace nonrunner::answers
