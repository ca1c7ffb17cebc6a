#include "appraisal/draws.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "chance/quantile_table.h"
#include "exact/ends.h"

namespace nonrunner::appraisal {

namespace {
std::uint64_t of_two_to_the_32(double chance) {
  return static_cast<std::uint64_t>(std::llround(std::clamp(chance, 0.0, 1.0) * 0x1p32));
}
}  // namespace

Draws::Draws(const Job& job, const SoundValue& sound, std::size_t points, std::uint64_t seed)
    : job_(job), sound_(sound), points_(points) {
  if (!sound.is_constant) place(&sound);
  place(job.shop.pace);
  place_causes();
  place_corrections();
  place_common();
  if (next_ > SobolStream::dimensions_max)
    throw Refusal(fmt::format(
        "{}: the job has {} uncertain amounts for one cause, expected at most {}; give the smaller ones as "
        "plain numbers",
        job.vehicle.tag, next_, SobolStream::dimensions_max));
  stream_.emplace(std::max<std::size_t>(next_, 1), seed);
}

void Draws::place_pieces(const std::optional<PartOut>& pieces, const std::optional<Scrap>& scrap) {
  if (pieces)
    for (const Amount* amount : {&pieces->proceeds, &pieces->hours, &pieces->costs}) place(*amount);
  if (scrap)
    for (const Amount* amount : {&scrap->value, &scrap->costs}) place(*amount);
}

void Draws::place_causes() {
  const std::size_t first = next_;
  std::size_t after = next_;
  for (const Cause& cause : job_.causes) {
    next_ = first;
    for (const auto* amount : {&cause.found, &cause.opening_hours, &cause.opening_cash})
      if (*amount) place(**amount);
    place_pieces(cause.part_out, cause.scrap);
    after = std::max(after, next_);
  }
  next_ = after;
}

// A correction begins where those that come before it in some chain have ended.
void Draws::place_corrections() {
  const std::size_t first = next_;
  std::vector<std::size_t> begins(job_.corrections.size(), first);
  std::vector<std::size_t> before(job_.corrections.size(), 0), ready;
  for (const Correction& each : job_.corrections)
    if (each.otherwise) ++before[*each.otherwise];
  for (std::size_t i = 0; i < before.size(); ++i)
    if (before[i] == 0) ready.push_back(i);
  std::size_t after = first;
  for (std::size_t done = 0; done < ready.size(); ++done) {
    const Correction& correction = job_.corrections[ready[done]];
    next_ = begins[ready[done]];
    for (const Operation& operation : correction.operations) place(operation.hours);
    for (const Part& part : correction.parts) {
      for (const auto& price : part.price)
        if (price) place(*price);
      place(part.pull_hours);
      place(part.core);
      if (part.bad > 0) place(&part.bad);
    }
    for (const Consumable& consumable : correction.consumables) place(consumable.price);
    for (const Sublet& sublet : correction.sublets) place(sublet.price);
    place(correction.takes_off);
    after = std::max(after, next_);
    if (!correction.otherwise) continue;
    begins[*correction.otherwise] = std::max(begins[*correction.otherwise], next_);
    if (--before[*correction.otherwise] == 0) ready.push_back(*correction.otherwise);
  }
  next_ = after;
}

void Draws::place_common() {
  for (const Amount* amount : {&job_.sale.days, &job_.opening_up.hours, &job_.shop.wait_days,
                               &job_.sale.costs, &job_.opening_up.cash, &job_.deal.fees})
    place(*amount);
  place_pieces(job_.part_out, job_.scrap);
  for (const Trouble& trouble : job_.troubles)
    for (const Amount* amount : {&trouble.cash, &trouble.hours, &trouble.takes_off, &trouble.found_less})
      place(*amount);
  for (const Fault& fault : job_.faults) {
    place(fault.takes_off);
    for (const Fix& fix : fault.fixes) {
      place(fix.hours);
      place(fix.cash);
    }
  }
}

// `fill(coordinate, how many, into)` for each block of points.
template <class Fill>
const std::vector<double>& Draws::made(const void* what, Fill fill) {
  const auto known = values_.find(what);
  if (known != values_.end()) return known->second;
  std::vector<double> values(points_);
  const std::size_t at = coordinate_.at(what);
  for (std::size_t first = 0; first < points_; first += SobolStream::block_size) {
    stream_->go_to(first / SobolStream::block_size);
    fill(stream_->of(at), std::min(SobolStream::block_size, points_ - first), &values[first]);
  }
  return values_.emplace(what, std::move(values)).first->second;
}

const std::vector<double>& Draws::of(const Amount& amount) {
  return made(&amount, [table = std::optional<QuantileTable>(), &amount](
                           const SobolStream::Coordinate& u, std::size_t n, double* into) mutable {
    if (!table) table.emplace(amount);
    std::fill_n(into, n, table->low());
    table->add_units(u.pattern, u.start, n, table->width(), into);
  });
}

const std::vector<double>& Draws::sound() {
  return made(&sound_, [this, table = std::optional<QuantileTable>()](const SobolStream::Coordinate& u,
                                                                      std::size_t n, double* into) mutable {
    if (!table) sound_.points ? table.emplace(*sound_.points) : table.emplace(sound_.quantile);
    std::fill_n(into, n, table->low());
    table->add_units(u.pattern, u.start, n, table->width(), into);
  });
}

const std::vector<double>& Draws::bad_from(const Part& part) {
  const std::uint64_t below = of_two_to_the_32(part.bad);
  return made(&part.bad, [below](const SobolStream::Coordinate& u, std::size_t n, double* into) {
    for (std::size_t i = 0; i < n; ++i) into[i] = u[i] < below ? 1 : 0;
  });
}

}  // namespace nonrunner::appraisal
