#include "resale/comparables.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "exact/ends.h"
#include "text/counted.h"

namespace nonrunner::resale {

namespace {

constexpr double odometer_unit = 10'000;
constexpr std::size_t facts = 4;  // level, odometer, year, grade

double median_of(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}

Prior prior_of(const SlopePriors& priors) {
  Prior prior{.mean = Row(facts, 0.0), .rows = {}};
  // A slope's give-or-take is absolute, the conjugate prior's is in units of the spread: the stated spread
  // translates.
  const double unit = priors.spread.value_or(Spread{}).share;
  const auto believe = [&](std::size_t column, const std::optional<Belief>& belief) {
    if (!belief) return;
    Row row(facts, 0.0);
    row[column] = unit / belief->give_or_take;
    prior.mean[column] = belief->share;
    prior.rows.push_back(std::move(row));
  };
  believe(1, priors.odometer);
  believe(2, priors.year);
  believe(3, priors.grade);
  if (priors.spread) {
    prior.shape = priors.spread->cars / 2;
    prior.rate = prior.shape * priors.spread->share * priors.spread->share;
  }
  return prior;
}

[[noreturn]] void refuse(std::size_t comparables, const std::string& why) {
  throw Refusal(fmt::format("{} {}; add comparables that differ, or state beliefs under [value.slopes]",
                            counted(comparables, "comparable"), why));
}

double two_sided(double t, double df) { return std::isnan(t) ? 1 : 2 * Student{0, 1, df}.cdf(-std::abs(t)); }

// How each comparable lies to the line through all of them.
std::vector<Placed> placed(const std::vector<Comparable>& comparables, const Fit& fitted,
                           const std::vector<Row>& x, const std::vector<double>& basis, double median) {
  const std::size_t n = comparables.size();
  std::vector<Placed> rows;
  double average = 0;
  for (const double leverage : fitted.leverage) average += leverage / static_cast<double>(n);
  for (std::size_t i = 0; i < n; ++i) {
    Placed row;
    row.name = comparables[i].name.empty() ? fmt::format("comparable {}", i + 1) : comparables[i].name;
    row.sold_basis = basis[i];
    for (std::size_t j = 0; j < x[i].size(); ++j) row.fitted += fitted.coefficients[j] * x[i][j] * median;
    row.leverage = fitted.leverage[i];
    row.studentised = fitted.studentised[i];
    row.chance = two_sided(row.studentised, fitted.df() - 1);
    row.far_off = row.chance * static_cast<double>(n) < 0.05;
    row.pulls = n > 2 && row.leverage > 2 * average;
    rows.push_back(row);
  }
  return rows;
}

// A flat slope on which the subject and all comparables agree cannot be told, and need not be.
std::vector<std::size_t> columns_to_tell(const std::vector<Row>& x, const SlopePriors& priors) {
  std::vector<std::size_t> kept;
  for (std::size_t j = 0; j < facts; ++j) {
    const bool stated =
        j == 0 || (j == 1 && priors.odometer) || (j == 2 && priors.year) || (j == 3 && priors.grade);
    const bool differs = std::any_of(x.begin(), x.end(), [&](const Row& row) { return row[j] != 0; });
    if (stated || differs) kept.push_back(j);
  }
  return kept;
}

}  // namespace

SoundValue sound_value(const std::vector<Comparable>& comparables, const Subject& subject, double realised,
                       const SlopePriors& priors) {
  if (comparables.empty())
    throw Refusal("no comparable, expected at least one; add [[comparable]] rows, or give [value] sound");
  const std::size_t n = comparables.size();
  SoundValue result;
  result.realised = realised;
  std::vector<double> basis;
  for (const Comparable& each : comparables)
    basis.push_back(each.kind == Kind::asking ? each.price * realised : each.price);
  const double median = result.median = median_of(basis);

  std::vector<Row> x;
  Row y;
  for (std::size_t i = 0; i < n; ++i) {
    const Comparable& each = comparables[i];
    x.push_back({1.0, (each.odometer - subject.odometer) / odometer_unit, each.year - subject.year,
                 each.grade - subject.grade});
    y.push_back(basis[i] / median);
  }
  const std::vector<std::size_t> kept = columns_to_tell(x, priors);
  const auto narrow = [&](const Row& row) {
    Row narrowed;
    for (const std::size_t j : kept) narrowed.push_back(row[j]);
    return narrowed;
  };
  Prior prior = prior_of(priors);
  prior.mean = narrow(prior.mean);
  for (Row& row : prior.rows) row = narrow(row);
  for (Row& row : x) row = narrow(row);

  const std::optional<Fit> fitted = fit(x, y, prior);
  if (!fitted) refuse(n, "cannot tell the flat slopes apart");
  if (!(fitted->df() > 1))
    refuse(n, fmt::format("with flat slopes leave {} of freedom, expected more than 1",
                          counted(fmt::format("{:.4g}", fitted->df()), "degree")));
  // Prices on a line to the last digits have no spread that could be learned from them.
  if (!(fitted->residual_sd() > 1e-9)) refuse(n, "lie on the line exactly and say nothing of the spread");

  Row here(kept.size(), 0.0);
  here[0] = 1;
  const Student share = predict(*fitted, here);
  result.price = {share.location * median, share.scale * median, share.df};
  result.line = result.price.location;
  result.residual_sd = fitted->residual_sd() * median;
  const auto slope = [&](std::size_t column, double unit) -> Slope {
    const auto at = std::find(kept.begin(), kept.end(), column);
    if (at == kept.end()) return {};
    const auto j = static_cast<std::size_t>(at - kept.begin());
    return {fitted->coefficients[j] * median / unit, fitted->standard_error(j) * median / unit};
  };
  result.odometer = slope(1, odometer_unit);
  result.year = slope(2, 1);
  result.grade = slope(3, 1);
  result.rows = placed(comparables, *fitted, x, basis, median);
  return result;
}

std::vector<std::string> pointed_out(const SoundValue& value) {
  std::vector<std::string> lines;
  for (const Placed& row : value.rows) {
    if (!row.far_off && !row.pulls) continue;
    std::string line = row.name + ": ";
    if (row.far_off) {
      // What the others say of it, by leaving it out: e / (1 - h) below its own price.
      const double others = row.sold_basis - (row.sold_basis - row.fitted) / (1 - row.leverage);
      line += fmt::format("{:.0f} on the sold basis, the others say {:.0f}", row.sold_basis, others);
    }
    if (row.pulls)
      line += fmt::format("{}it alone decides {:.0f} % of the line at its place", row.far_off ? "; " : "",
                          row.leverage * 100);
    lines.push_back(line + "; kept, look at it again");
  }
  return lines;
}

}  // namespace nonrunner::resale
