#include "appraisal/outlook.h"

namespace nonrunner::appraisal {

States::States(const Courses& courses) : masks(std::size_t{1} << courses.job().troubles.size()) {
  const std::size_t causes = courses.job().causes.size();
  best.reserve(causes * masks);
  for (std::size_t c = 0; c < causes; ++c)
    for (unsigned present = 0; present < masks; ++present) best.push_back(courses.best(c, present));
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

void Outlook::add(double chance, const CourseFigures& f, double opening_cash) {
  cash += chance * (f.cash - opening_cash);
  own_hours += chance * f.own_hours;
  days += chance * f.days;
  brings += chance * f.brings;
  outlay += chance * (f.outlay + opening_cash);
}

double purchase(const Job& job, double price, double days) {
  return (paid_at(job.deal, price) + job.deal.fees.mean()) * (1 + job.shop.money_rate * days / 365);
}

double cash_profit(const Job& job, const Outlook& outlook, double price) {
  return outlook.cash - purchase(job, price, outlook.days);
}

double profit(const Job& job, const Outlook& outlook, double price) {
  return cash_profit(job, outlook, price) - outlook.own_hours * job.shop.hour -
         outlook.days * job.shop.bay_per_day;
}

}  // namespace nonrunner::appraisal
