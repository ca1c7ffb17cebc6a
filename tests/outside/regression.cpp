// Least squares against the certified values of the Statistical Reference Datasets (NIST/ITL StRD), and the
// conjugate update against a published example. Coefficients are in the order b0, b1, ...; in the data y
// stands first.
#include "resale/regression.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace nonrunner::resale;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

// NIST/ITL StRD, Norris.dat: 36 pairs, difficulty "lower".
const std::vector<Row> norris = {
    {0.1, 0.2},     {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1},    {228.1, 226.5},
    {668.5, 666.3}, {998.5, 996.3}, {449.1, 448.6}, {778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4},
    {0.1, 0.6},     {778.1, 775.5}, {668.8, 666.9}, {339.3, 338.0}, {448.9, 447.5}, {10.8, 11.6},
    {557.7, 556.0}, {228.3, 228.1}, {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3},
    {0.6, 0.3},     {557.6, 556.8}, {339.3, 339.1}, {888.0, 887.2}, {998.5, 999.0}, {778.9, 779.0},
    {10.2, 11.1},   {117.6, 118.3}, {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9}, {0.2, 0.5}};

// NIST/ITL StRD, NoInt1.dat: 11 pairs, no intercept, difficulty "average".
const std::vector<Row> noint1 = {{130, 60}, {131, 61}, {132, 62}, {133, 63}, {134, 64}, {135, 65},
                                 {136, 66}, {137, 67}, {138, 68}, {139, 69}, {140, 70}};

// NIST/ITL StRD, Longley.dat: 16 rows of six nearly collinear columns, difficulty "higher".
const std::vector<Row> longley = {
    {60323, 83.0, 234289, 2356, 1590, 107608, 1947},  {61122, 88.5, 259426, 2325, 1456, 108632, 1948},
    {60171, 88.2, 258054, 3682, 1616, 109773, 1949},  {61187, 89.5, 284599, 3351, 1650, 110929, 1950},
    {63221, 96.2, 328975, 2099, 3099, 112075, 1951},  {63639, 98.1, 346999, 1932, 3594, 113270, 1952},
    {64989, 99.0, 365385, 1870, 3547, 115094, 1953},  {63761, 100.0, 363112, 3578, 3350, 116219, 1954},
    {66019, 101.2, 397469, 2904, 3048, 117388, 1955}, {67857, 104.6, 419180, 2822, 2857, 118734, 1956},
    {68169, 108.4, 442769, 2936, 2798, 120445, 1957}, {66513, 110.8, 444546, 4681, 2637, 121950, 1958},
    {68655, 112.6, 482704, 3813, 2552, 123366, 1959}, {69564, 114.2, 502601, 3931, 2514, 125368, 1960},
    {69331, 115.7, 518173, 4806, 2572, 127852, 1961}, {70551, 116.9, 554894, 4007, 2827, 130081, 1962}};

struct Data {
  std::vector<Row> x;
  Row y;
};

Data split(const std::vector<Row>& table, bool intercept) {
  Data data;
  for (const Row& row : table) {
    data.y.push_back(row[0]);
    Row x = intercept ? Row{1.0} : Row{};
    x.insert(x.end(), row.begin() + 1, row.end());
    data.x.push_back(x);
  }
  return data;
}

// The digits to which `found` agrees with `certified`: the log relative error of the StRD pages.
double digits(double found, double certified) {
  return found == certified ? 16 : -std::log10(std::abs(found - certified) / std::abs(certified));
}

struct Certified {
  Row coefficients, standard_errors;
  double residual_sd, r_squared, f, residual_ss;
};

double worst_digits(const std::vector<Row>& table, bool intercept, const Certified& certified) {
  const Data data = split(table, intercept);
  const auto result = fit(data.x, data.y);
  REQUIRE(result);
  double worst = 16;
  for (std::size_t j = 0; j < certified.coefficients.size(); ++j) {
    worst = std::min(worst, digits(result->coefficients[j], certified.coefficients[j]));
    worst = std::min(worst, digits(result->standard_error(j), certified.standard_errors[j]));
  }
  worst = std::min(worst, digits(result->residual_sd(), certified.residual_sd));
  worst = std::min(worst, digits(result->residual_ss, certified.residual_ss));
  double level = 0, total = 0;
  if (intercept)
    for (const double y : data.y) level += y / static_cast<double>(data.y.size());
  for (const double y : data.y) total += (y - level) * (y - level);
  const double terms = static_cast<double>(certified.coefficients.size() - (intercept ? 1 : 0));
  worst = std::min(worst, digits(1 - result->residual_ss / total, certified.r_squared));
  worst = std::min(worst, digits((total - result->residual_ss) / terms / (result->residual_ss / result->df()),
                                 certified.f));
  return worst;
}

}  // namespace

TEST_CASE("a flat prior gives the certified least squares of Norris to 9 digits", "[resale][outside]") {
  CHECK(worst_digits(norris, true,
                     {{-0.262323073774029, 1.00211681802045},
                      {0.232818234301152, 0.000429796848199937},
                      0.884796396144373,
                      0.999993745883712,
                      5436385.54079785,
                      26.6173985294224}) > 9);
}

TEST_CASE("a flat prior gives the certified line through the origin of NoInt1 to 9 digits",
          "[resale][outside]") {
  CHECK(worst_digits(noint1, false,
                     {{2.07438016528926},
                      {0.0165289256198347},
                      3.56753034006338,
                      0.999365492298663,
                      15750.25,
                      127.272727272727}) > 9);
}

TEST_CASE("a flat prior gives the certified least squares of Longley to 9 digits", "[resale][outside]") {
  CHECK(worst_digits(longley, true,
                     {{-3482258.63459582, 15.0618722713733, -0.035819179292591, -2.02022980381683,
                       -1.03322686717359, -0.0511041056535807, 1829.15146461355},
                      {890420.383607373, 84.9149257747669, 0.0334910077722432, 0.488399681651699,
                       0.214274163161675, 0.22607320006937, 455.478499142212},
                      304.854073561965,
                      0.995479004577296,
                      330.285339234588,
                      836424.055505915}) > 9);
}

// A. Gelman and others, Bayesian Data Analysis, 3rd ed. 2013, ch. 14: with p(b, s^2) proportional to 1/s^2
// one more observation is Student's t with n - k degrees of freedom (formula from memory; values computed
// apart with 50 digits).
TEST_CASE("with a flat prior one more observation of Norris is the textbook's Student distribution",
          "[resale][outside]") {
  const Data data = split(norris, true);
  const auto result = fit(data.x, data.y);
  REQUIRE(result);
  struct At {
    double x, location, scale, q05, q95;
  };
  for (const At at :
       {At{500, 500.79608593645315, 0.8976734216307517, 499.2781881708568, 502.31398369436084},
        At{1000, 1001.8544949466803, 0.9310901225513278, 1000.2800920708304, 1003.4288978145554}}) {
    const Student t = predict(*result, {1, at.x});
    CHECK_THAT(t.df, WithinAbs(34, 1e-12));
    CHECK_THAT(t.location, WithinRel(at.location, 1e-10));
    CHECK_THAT(t.scale, WithinRel(at.scale, 1e-10));
    // The printed percentage points were reached with a t quantile of 9 digits.
    CHECK_THAT(t.quantile(0.05), WithinAbs(at.q05, 2e-8));
    CHECK_THAT(t.quantile(0.95), WithinAbs(at.q95, 2e-8));
  }
}

// P. D. Hoff, A First Course in Bayesian Statistical Methods, 2009, ch. 9: oxygen uptake of 12 men in two
// programmes (after Kuehl 2000); prior mean 0, precision X'X/12, 1 degree of freedom, prior variance 8.54.
// Least squares read in the source; posterior means -47.35, 12.10, 1.93, -0.29 from memory, which these exact
// values confirm; the posterior sds recalled with them (14.41, ...) do not come out and are not used: exact
// ones stand here.
TEST_CASE("the conjugate update gives the oxygen uptake example", "[resale][outside]") {
  const Row group = {0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1};
  const Row age = {23, 22, 22, 25, 27, 20, 31, 23, 27, 28, 22, 24};
  const Row y = {-0.87, -10.74, -3.27, -1.97, 7.5, -7.25, 17.05, 4.96, 10.4, 11.05, 0.26, 2.51};
  std::vector<Row> x;
  Prior prior{.mean = {0, 0, 0, 0}, .rows = {}, .shape = 0.5, .rate = 8.54 / 2};
  for (std::size_t i = 0; i < y.size(); ++i) {
    x.push_back({1, group[i], age[i], group[i] * age[i]});
    Row weak = x.back();
    for (double& each : weak) each /= std::sqrt(12.0);
    prior.rows.push_back(weak);
  }
  const auto flat = fit(x, y);
  REQUIRE(flat);
  const Row least = {-51.29394595, 13.10709042, 2.094702703, -0.3182437792};
  const Row least_se = {12.25221255, 15.76197619, 0.5263585269, 0.6498085898};
  for (std::size_t j = 0; j < 4; ++j) {
    CHECK_THAT(flat->coefficients[j], WithinRel(least[j], 1e-8));
    CHECK_THAT(flat->standard_error(j), WithinRel(least_se[j], 1e-8));
  }
  CHECK_THAT(flat->rate / flat->shape, WithinRel(8.542476715, 1e-8));

  const auto posterior = fit(x, y, prior);
  REQUIRE(posterior);
  const Row mean = {-47.3482577962578, 12.098852697107654, 1.9335717255717255, -0.29376348848303524};
  const Row sd = {13.978354375194503, 17.982587871372065, 0.6005140692859501, 0.7413562819902458};
  for (std::size_t j = 0; j < 4; ++j) {
    CHECK_THAT(posterior->coefficients[j], WithinRel(mean[j], 1e-10));
    // Student's variance is scale^2 df / (df - 2).
    const double df = posterior->df();
    CHECK_THAT(posterior->standard_error(j) * std::sqrt(df / (df - 2)), WithinRel(sd[j], 1e-10));
  }
  CHECK_THAT(posterior->shape, WithinAbs(6.5, 1e-12));
  CHECK_THAT(posterior->rate, WithinRel(66.25087940792612, 1e-12));
  struct At {
    Row x;
    double location, scale, q05, q95;
  };
  for (const At& at :
       {At{{1, 0, 25, 0}, 0.991035343035343, 3.5757673958372145, -5.341410554533528, 7.323481240604213},
        At{{1, 1, 25, 25}, 5.745800828067117, 3.44551362248754, -0.3559743123235206, 11.847575968457754}}) {
    const Student t = predict(*posterior, at.x);
    CHECK_THAT(t.df, WithinAbs(13, 1e-12));
    CHECK_THAT(t.location, WithinAbs(at.location, 1e-10));
    CHECK_THAT(t.scale, WithinAbs(at.scale, 1e-10));
    CHECK_THAT(t.quantile(0.05), WithinAbs(at.q05, 1e-7));
    CHECK_THAT(t.quantile(0.95), WithinAbs(at.q95, 1e-7));
  }
}
