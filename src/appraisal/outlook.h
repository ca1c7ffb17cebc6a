// What buying is expected to bring: the best course in every state (a cause and a set of troubles), the mean
// over the states as they are believed, and the price taken off.
//
// The course taken does not depend on the price. `money_rate` is simple interest on the price and what is
// paid with it over the days: it belongs to the price, not to the course.
#pragma once
#include <vector>

#include "appraisal/courses.h"
#include "appraisal/evidence.h"

namespace nonrunner::appraisal {

// The best course in every state under an offer; state = cause * 2^troubles + set of troubles.
struct States {
  States(const Courses&, const std::vector<double>& covers);  // covers empty: nothing is borne by the seller
  std::size_t masks = 1;
  std::vector<Courses::Best> best;
  std::vector<double> covers;  // as given
  const Courses::Best& at(std::size_t cause, unsigned present) const { return best[cause * masks + present]; }
  double cover(std::size_t cause) const { return covers.empty() ? 0 : covers[cause]; }
};

std::vector<double> state_chances(const Job&, const Beliefs&);  // in the order of States::best

// Means over the states; cash and own hours with the opening up, without the price and what is paid with it.
struct Outlook {
  double cash = 0, own_hours = 0, days = 0, brings = 0, outlay = 0;
};

Outlook outlook_of(const Job&, const States&, const Beliefs&);

// The price with its tax, what is paid with it, and the interest on both over the days.
double purchase(const Job&, double price, double days);
// The price that makes `purchase` this much.
double price_of_purchase(const Job&, double paid, double days);

double cash_profit(const Job&, const Outlook&, double price);
double profit(const Job&, const Outlook&, double price);

}  // namespace nonrunner::appraisal
