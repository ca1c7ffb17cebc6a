// Fuzz target: whatever bytes a job file holds, it is read, or refused with one line; and what is read is
// answered, or refused. A car bought with it, exported and restored, is the same car. Run by tests/run.sh for a fixed
// number of inputs over the kept corpus tests/fuzz/corpus/job_file.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "appraisal/appraise.h"
#include "appraisal/read_job.h"
#include "book/events/appraisals.h"
#include "book/events/buy.h"
#include "exact/ends.h"
#include "fuzz/fuzzed.h"

using namespace nonrunner;

namespace {

namespace fs = std::filesystem;

// In a book of its own, since an export reads what is kept: some of the files that can be read, as it takes time.
void buy_and_make_again(const std::string& job) {
  static int accepted = 0;
  if (++accepted > 20 && accepted % 100 != 0) return;
  const fs::path folder = fuzzed::shop().path().parent_path() / "bought";
  fs::remove_all(folder);
  fs::create_directory(folder);
  const auto as_it_is = [](const book::Book&) {
    return [](const std::string& text, const std::string&, Day, const std::optional<std::string>& settled) {
      return book::AppraisedJob{text, settled.value_or(""), ""};
    };
  };
  const book::RestoreWith with{"2026-03-01T10:00:00Z", Day(2026, 3, 1), as_it_is, {}};
  book::Book book = book::Book::create(folder / "shop.book", Currency::of("USD"), "mi");
  {
    book::Recording recording(book, with.now, with.today);
    book::Buy buy;
    buy.day = Day(2026, 2, 1);
    buy.vehicle = "pip";
    buy.price = Money::of_minor(90'000);
    buy.purse = "cash";
    buy.appraised = book::AppraisedJob{job, "", ""};
    record(recording, buy);
    recording.keep();
  }
  const book::Exported exported = book::export_to(book, folder / "out", true, with.today, {}, &with);
  for (const std::string& apart : exported.apart) {
    std::fprintf(stderr, "%s\n", apart.c_str());
    fuzzed::must(false, "a car bought with a job file is the same when its export is restored");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  try {
    const appraisal::Job job = appraisal::read_job(text, "job.toml", Currency{});
    const appraisal::Appraisal a = appraisal::appraise(job, appraisal::sound_value_of(job), 4);
    double chances = 0;
    for (const appraisal::CauseFigures& cause : a.causes) chances += cause.probability;
    if (!(chances > 0.999999 && chances < 1.000001)) std::abort();
    buy_and_make_again(text);
    if (a.plan.best < a.plan.decide_now - 1e-6 * (1 + a.plan.decide_now)) std::abort();
  } catch (const Refusal& refusal) {
    if (std::string(refusal.what()).find('\n') != std::string::npos) std::abort();
  }
  return 0;
}
