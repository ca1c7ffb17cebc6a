#include "appraisal/outlook.h"

namespace nonrunner::appraisal {

States::States(const Courses& courses, const std::vector<double>& given)
    : masks(std::size_t{1} << courses.job().troubles.size()), covers(given) {
  const std::size_t causes = courses.job().causes.size();
  best.reserve(causes * masks);
  for (std::size_t c = 0; c < causes; ++c)
    for (unsigned present = 0; present < masks; ++present) best.push_back(courses.best(c, present, cover(c)));
}

std::vector<double> state_chances(const Job& job, const Beliefs& beliefs) {
  const unsigned masks = 1u << job.troubles.size();
  std::vector<double> chances;
  chances.reserve(job.causes.size() * masks);
  std::vector<double> of_troubles;
  for (unsigned present = 0; present < masks; ++present)
    of_troubles.push_back(chance_of_troubles(beliefs, present));
  for (const double cause : beliefs.cause)
    for (const double troubles : of_troubles) chances.push_back(cause * troubles);
  return chances;
}

Outlook outlook_of(const Job& job, const States& states, const Beliefs& beliefs) {
  const std::vector<double> chances = state_chances(job, beliefs);
  Outlook mean;
  for (std::size_t s = 0; s < chances.size(); ++s) {
    const CourseFigures& f = states.best[s].figures;
    mean.cash += chances[s] * f.cash;
    mean.own_hours += chances[s] * f.own_hours;
    mean.days += chances[s] * f.days;
    mean.brings += chances[s] * f.brings;
    mean.outlay += chances[s] * f.outlay;
  }
  mean.cash -= job.opening_up.cash.mean();
  mean.outlay += job.opening_up.cash.mean();
  return mean;
}

double purchase(const Job& job, double price, double days) {
  return (price * (1 + job.deal.rate) + job.deal.fees.mean()) * (1 + job.shop.money_rate * days / 365);
}

double price_of_purchase(const Job& job, double paid, double days) {
  return (paid / (1 + job.shop.money_rate * days / 365) - job.deal.fees.mean()) / (1 + job.deal.rate);
}

double cash_profit(const Job& job, const Outlook& outlook, double price) {
  return outlook.cash - purchase(job, price, outlook.days);
}

double profit(const Job& job, const Outlook& outlook, double price) {
  return cash_profit(job, outlook, price) - outlook.own_hours * job.shop.hour;
}

}  // namespace nonrunner::appraisal
