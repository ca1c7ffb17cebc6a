// What buying is expected to bring: a path in every case (a cause and a set of troubles), the mean over the
// cases as they are believed, and the price taken off.
//
// `money_rate` is simple interest on the price and what is paid with it over the days: it belongs to the
// price, not to the course.
#pragma once
#include <vector>

#include "appraisal/courses.h"
#include "appraisal/evidence.h"

namespace nonrunner::appraisal {

// The most profitable course in every case; case = cause * 2^troubles + set of troubles.
struct States {
  explicit States(const Courses&);
  std::size_t masks = 1;
  std::vector<Courses::Best> best;
  const Courses::Best& at(std::size_t cause, unsigned present) const { return best[cause * masks + present]; }
};

std::vector<double> state_chances(const Job&, const Beliefs&);  // in the order of States::best

// Means over the cases; cash and own hours with the opening up, without the price and what is paid with it.
struct Outlook {
  double cash = 0, own_hours = 0, days = 0, brings = 0, outlay = 0;
  void add(double chance, const CourseFigures&, double opening_cash);
};

// The price with its tax and its band's fee, what is paid with it, and the interest on all over the days.
double purchase(const Job&, double price, double days);

double cash_profit(const Job&, const Outlook&, double price);
double profit(const Job&, const Outlook&, double price);

}  // namespace nonrunner::appraisal
