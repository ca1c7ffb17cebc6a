// Small random jobs, all of the model in them, from a seed that a failing test prints.
#pragma once
#include <algorithm>
#include <random>

#include "appraisal/job.h"

namespace nonrunner::appraisal {

class RandomJob {
 public:
  explicit RandomJob(unsigned seed) : bits_(seed) {}

  Job make(std::size_t tests_most = 3) {
    Job job;
    job.vehicle.tag = "random";
    job.deal.asking = whole(0, 1500);
    job.deal.fees = amount(0, 200);
    job.deal.rate = pick({0.0, 0.0, 0.065});
    job.shop = {static_cast<double>(whole(0, 30)), amount(0.8, 2),
                static_cast<double>(whole(5, 30)), amount(0, 9),
                static_cast<double>(whole(0, 5)),  pick({0.0, 0.0, 0.12})};
    job.sale = {amount(0, 50), Amount::constant(0.95), amount(0, 90), pick({0.0, 0.05})};
    job.aims[Aim::profit] = whole(0, 600);
    job.aims[Aim::loss_chance] = share();
    job.aims[Aim::per_hour] = whole(0, 30);
    job.sound = amount(1500, 4000);
    job.keeps = pick({1.0, 1.0, 0.7});
    job.opening_up = {amount(0, 4), amount(0, 40)};
    const auto corrections = static_cast<std::size_t>(whole(1, 3));
    for (std::size_t i = 0; i < corrections; ++i) job.corrections.push_back(correction(i, corrections));
    const int causes = whole(1, 4);
    for (int i = 0; i < causes; ++i) job.causes.push_back(cause(i, corrections));
    job.causes.front().odds += 0.5;
    if (whole(0, 2)) job.part_out = PartOut{amount(300, 1500), amount(0, 20), amount(0, 90)};
    if (whole(0, 2)) job.scrap = Scrap{amount(100, 400), amount(0, 50)};
    const int troubles = whole(0, 2);
    for (int i = 0; i < troubles; ++i)
      job.troubles.push_back({"trouble " + std::to_string(i), share(), amount(0, 300), amount(0, 9),
                              amount(0, 150), amount(0, 300), whole(0, 3) == 0});
    const auto tests = static_cast<std::size_t>(whole(0, static_cast<int>(tests_most)));
    for (std::size_t i = 0; i < tests; ++i) job.tests.push_back(test(i, job));
    const int faults = whole(0, 3);
    for (int i = 0; i < faults; ++i) job.faults.push_back(fault(i));
    if (whole(0, 1)) job.deal.others.push_back(offer(job));
    return job;
  }

 private:
  int whole(int least, int most) {
    return least + static_cast<int>(bits_() % static_cast<unsigned>(most - least + 1));
  }
  double share() { return whole(0, 20) / 20.0; }
  double pick(std::initializer_list<double> from) {
    return *(from.begin() + whole(0, static_cast<int>(from.size()) - 1));
  }
  Amount amount(double least, double most) {
    std::array<double, 3> points{};
    for (double& point : points) point = least + (most - least) * whole(0, 1000) / 1000.0;
    std::sort(points.begin(), points.end());
    return whole(0, 2) == 0 ? Amount::constant(points[1]) : Amount{points[0], points[1], points[2]};
  }
  Part part() {
    Part part;
    part.name = "part";
    part.qty = whole(1, 3);
    for (auto& price : part.price)
      if (whole(0, 1)) price = amount(10, 200);
    if (!part.price[0] && !part.price[1] && !part.price[2]) part.price[1] = amount(10, 200);
    part.core = amount(0, 40);
    part.pull_hours = amount(0, 2);
    part.bad = share();
    return part;
  }
  Correction correction(std::size_t at, std::size_t of) {
    Correction made;
    made.name = "correction " + std::to_string(at);
    const int operations = whole(0, 2);
    for (int i = 0; i < operations; ++i) made.operations.push_back({"operation", amount(0, 8), {}});
    const int parts = whole(0, 2);
    for (int i = 0; i < parts; ++i) made.parts.push_back(part());
    if (whole(0, 1)) made.consumables.push_back({"consumable", 1.5, amount(0, 30)});
    if (whole(0, 1)) made.sublets.push_back({"sublet", amount(0, 200)});
    made.works = pick({1.0, 0.8, 0.5, 0.0});
    if (whole(0, 2) == 0) made.takes_off = amount(0, 300);
    if (at + 1 < of && whole(0, 1)) made.otherwise = at + 1;
    return made;
  }
  Cause cause(int at, std::size_t corrections) {
    Cause made;
    made.name = "cause " + std::to_string(at);
    made.odds = whole(0, 5);
    made.found = amount(100, 1500);
    if (whole(0, 4)) made.correction = static_cast<std::size_t>(whole(0, static_cast<int>(corrections) - 1));
    if (whole(0, 4) == 0) made.part_out = PartOut{amount(300, 2500), amount(0, 20), amount(0, 90)};
    if (whole(0, 4) == 0) made.scrap = Scrap{amount(100, 900), amount(0, 50)};
    return made;
  }
  std::vector<double> chances(std::size_t of) {
    std::vector<double> all;
    double left = 1;
    for (std::size_t i = 0; i + 1 < of; ++i) {
      all.push_back(left * share());
      left -= all.back();
    }
    all.push_back(left);
    return all;
  }
  Test test(std::size_t at, const Job& job) {
    Test made;
    made.name = "test " + std::to_string(at);
    made.cash = amount(0, 20);
    made.hours = amount(0, 1);
    const int outcomes = whole(2, 3);
    for (int i = 0; i < outcomes; ++i) made.outcomes.push_back("outcome " + std::to_string(i));
    if (!job.troubles.empty() && whole(0, 2) == 0)
      made.trouble = static_cast<std::size_t>(whole(0, static_cast<int>(job.troubles.size()) - 1));
    const std::size_t rows = made.trouble ? 2 : job.causes.size();
    for (std::size_t i = 0; i < rows; ++i) made.given.push_back(chances(made.outcomes.size()));
    made.spoiled = whole(0, 9) == 0;
    return made;
  }
  Fault fault(int at) {
    Fault made;
    made.name = "fault " + std::to_string(at);
    made.takes_off = amount(20, 300);
    const int fixes = whole(0, 2);
    for (int i = 0; i < fixes; ++i)
      made.fixes.push_back({"fix", "repair", amount(0, 200), amount(0, 5), share()});
    made.must = fixes > 0 && whole(0, 1) == 0;
    return made;
  }
  Offer offer(const Job& job) {
    Offer made{"promise", static_cast<double>(whole(0, 1800)), {}};
    for (const Cause& cause : job.causes) made.covers.push_back(cause.correction ? share() : 0);
    return made;
  }

  std::mt19937 bits_;
};

}  // namespace nonrunner::appraisal
