#include "appraisal/job.h"

#include <algorithm>
#include <cmath>

namespace nonrunner::appraisal {

std::string name_of(Source source) {
  switch (source) {
    case Source::fresh:
      return "new";
    case Source::salvage:
      return "salvage";
    case Source::reman:
      return "reman";
  }
  return "";
}

const std::optional<PartOut>& part_out_of(const Job& job, const Cause& cause) {
  return cause.part_out ? cause.part_out : job.part_out;
}

const std::optional<Scrap>& scrap_of(const Job& job, const Cause& cause) {
  return cause.scrap ? cause.scrap : job.scrap;
}

const Amount& opening_hours_of(const Job& job, const Cause& cause) {
  return cause.opening_hours ? *cause.opening_hours : job.opening_up.hours;
}

const Amount& opening_cash_of(const Job& job, const Cause& cause) {
  return cause.opening_cash ? *cause.opening_cash : job.opening_up.cash;
}

double paid_at(const Deal& deal, double price) {
  double fee = 0;
  for (const FeeBand& band : deal.fee_bands)
    if (&band == &deal.fee_bands.front() || price >= band.from) fee = band.fee;
  return price * (1 + deal.rate) + fee;
}

double gone_of(const Job& job, const Test& test) { return test.gone.value_or(job.deal.gone); }

double smallest_coin(const Currency& currency) { return std::pow(10.0, -currency.digits); }

double least_gain_of_a_test(const Job& job) {
  // Just above half a coin: a gain that no coin can pay for is none.
  return std::max(job.aims.test_gain.value_or(job.shop.hour / 4),
                  0.5 * smallest_coin(job.currency) * (1 + 1e-9));
}

}  // namespace nonrunner::appraisal
