#include "resale/regression.h"

#include <Eigen/Dense>
#include <cassert>
#include <cmath>
#include <limits>

namespace nonrunner::resale {

namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;

Eigen::Index rank_of(const std::vector<Row>& rows) {
  if (rows.empty()) return 0;
  Matrix m(static_cast<Eigen::Index>(rows.size()), static_cast<Eigen::Index>(rows[0].size()));
  for (Eigen::Index i = 0; i < m.rows(); ++i)
    m.row(i) = Eigen::Map<const Eigen::RowVectorXd>(rows[static_cast<std::size_t>(i)].data(), m.cols());
  // A weak belief counts as much as a strong one: only directions matter.
  for (Eigen::Index i = 0; i < m.rows(); ++i)
    if (m.row(i).norm() > 0) m.row(i).normalize();
  return m.colPivHouseholderQr().rank();
}

double row_times(const Row& row, const Vector& b) {
  return Eigen::Map<const Vector>(row.data(), static_cast<Eigen::Index>(row.size())).dot(b);
}

}  // namespace

double Fit::residual_sd() const { return std::sqrt(rate / shape); }

double Fit::standard_error(std::size_t column) const {
  return residual_sd() * std::sqrt(inverse.at(column).at(column));
}

std::optional<Fit> fit(const std::vector<Row>& x, const Row& y, const Prior& prior) {
  assert(!x.empty() && x.size() == y.size() && !x[0].empty());
  const auto n = static_cast<Eigen::Index>(x.size());
  const auto beliefs = static_cast<Eigen::Index>(prior.rows.size());
  const auto columns = static_cast<Eigen::Index>(x[0].size());

  Vector mean = Vector::Zero(columns);
  if (!prior.mean.empty()) mean = Eigen::Map<const Vector>(prior.mean.data(), columns);

  Matrix a(n + beliefs, columns);
  Vector z(n + beliefs);
  for (Eigen::Index i = 0; i < n + beliefs; ++i) {
    const Row& row = i < n ? x[static_cast<std::size_t>(i)] : prior.rows[static_cast<std::size_t>(i - n)];
    assert(static_cast<Eigen::Index>(row.size()) == columns);
    a.row(i) = Eigen::Map<const Eigen::RowVectorXd>(row.data(), columns);
    z(i) = i < n ? y[static_cast<std::size_t>(i)] : row_times(row, mean);
  }
  Vector size(columns);
  for (Eigen::Index j = 0; j < columns; ++j) {
    const double length = a.col(j).norm();
    if (!(length > 0)) return std::nullopt;
    size(j) = std::exp2(std::round(std::log2(length)));
    a.col(j) /= size(j);
  }

  const Eigen::ColPivHouseholderQR<Matrix> qr(a);
  if (qr.rank() < columns) return std::nullopt;
  Vector b = qr.solve(z);
  b += qr.solve(z - a * b);
  const Vector left = z - a * b;

  Fit result;
  result.shape = prior.shape + static_cast<double>(n + rank_of(prior.rows) - columns) / 2;
  if (!(result.shape > 0)) return std::nullopt;
  result.rate = prior.rate + left.squaredNorm() / 2;
  result.residual_ss = left.head(n).squaredNorm();

  const Matrix upper = qr.matrixR().topLeftCorner(columns, columns).triangularView<Eigen::Upper>();
  const Matrix root = upper.triangularView<Eigen::Upper>().solve(Matrix::Identity(columns, columns));
  const Matrix scaled = qr.colsPermutation() * (root * root.transpose()) * qr.colsPermutation().transpose();
  result.inverse.assign(static_cast<std::size_t>(columns), Row(static_cast<std::size_t>(columns)));
  for (Eigen::Index i = 0; i < columns; ++i) {
    result.coefficients.push_back(b(i) / size(i));
    for (Eigen::Index j = 0; j < columns; ++j)
      result.inverse[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)] =
          scaled(i, j) / size(i) / size(j);
  }

  for (Eigen::Index i = 0; i < n; ++i) {
    const double h = (a.row(i) * scaled * a.row(i).transpose()).value();
    // Leaving row i out adds e^2 / (1 - h) less to twice the rate, and its prediction is e / (1 - h) away.
    const double others = 2 * result.rate - left(i) * left(i) / (1 - h);
    const double df = 2 * result.shape - 1;
    const bool predictable = 1 - h > 1e-9 && df > 1e-9 && others > 0;
    result.leverage.push_back(h);
    result.studentised.push_back(predictable ? left(i) / std::sqrt(others / df * (1 - h))
                                             : std::numeric_limits<double>::quiet_NaN());
  }
  return result;
}

Student predict(const Fit& fit, const Row& x) {
  assert(x.size() == fit.coefficients.size());
  double location = 0, distance = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    location += x[i] * fit.coefficients[i];
    for (std::size_t j = 0; j < x.size(); ++j) distance += x[i] * fit.inverse[i][j] * x[j];
  }
  return {location, fit.residual_sd() * std::sqrt(1 + distance), fit.df()};
}

}  // namespace nonrunner::resale
