// Courses by hand: the small job's figures, one after the other.
#include <catch2/catch.hpp>

#include "appraisal/jobs.h"
#include "appraisal/source.h"

using namespace nonrunner;
using namespace nonrunner::appraisal;
using Catch::Matchers::WithinAbs;

namespace {
double profit_of(const Job& job, std::size_t cause, unsigned present, Course course, double cover = 0) {
  const Courses courses(job, job.sound->mean(),
                        {std::nullopt, std::vector<double>(job.causes.size(), cover)});
  const auto figures = courses.figures(cause, present, course);
  REQUIRE(figures);
  return courses.profit(*figures);
}
}  // namespace

TEST_CASE(
    "where a correction fails and nothing follows, the best of the other courses is taken: no wait, no "
    "fixes, "
    "no other work",
    "[appraisal]") {
  Job job = job_of(small_job);
  // Reseal: 118 and 7 + 2 hours; it works in 8 of 10 cases. The wing's fix gains 190 - 55 - 2 x (20 + 7 x 3 /
  // 14) = 92. Cured: 3000 - 50 - 10 (5 % of the wing) - 40 - 118 - 55 - 11 hours x 20 - days (13 / 14 x 7 + 4
  // + 10) x 3.
  const double cured = 3000 - 50 - 10 - 40 - 118 - 55 - 11 * 20 - (6.5 + 4 + 10) * 3;
  // Failed: 500 - 40 - 118 - 9 x 20 - days (11 / 14 x 7 + 10) x 3.
  const double failed = 500 - 40 - 118 - 9 * 20 - (5.5 + 10) * 3;
  CHECK_THAT(profit_of(job, 0, 0, Course::put_right), WithinAbs(0.8 * cured + 0.2 * failed, 1e-9));
  // With rot: 150, 7 hours and a mark of 30 where it is cured; 100 less where it is sold as found.
  const double cured_rot = cured - 150 - 30 - 7 * 20 - 7.0 / 14 * 7 * 3;
  CHECK_THAT(profit_of(job, 0, 1, Course::put_right),
             WithinAbs(0.8 * cured_rot + 0.2 * (failed - 100), 1e-9));
  // Scrap for 460: less the same costs, and no days of a sale.
  job.scrap->value = Amount::constant(460);
  const double scrapped = 460 - 118 - 9 * 20 - 5.5 * 3;
  REQUIRE(scrapped > failed);
  CHECK_THAT(profit_of(job, 0, 0, Course::put_right), WithinAbs(0.8 * cured + 0.2 * scrapped, 1e-9));
}

TEST_CASE("the other ways out bear their own costs and days", "[appraisal]") {
  Job job = job_of(small_job);
  // Two hours of opening up are a day.
  CHECK_THAT(profit_of(job, 0, 0, Course::as_found), WithinAbs(500 - 40 - 11 * 3, 1e-9));
  CHECK_THAT(profit_of(job, 1, 1, Course::as_found), WithinAbs(800 - 100 - 40 - 11 * 3, 1e-9));
  CHECK_THAT(profit_of(job, 0, 0, Course::scrap), WithinAbs(310 - 3, 1e-9));
  job.part_out = PartOut{Amount::constant(900), Amount::constant(12), Amount::constant(80)};
  CHECK_THAT(profit_of(job, 0, 0, Course::part_out), WithinAbs(900 - 80 - 12 * 20 - 7 * 3, 1e-9));
  job.causes[0].part_out = PartOut{Amount::constant(1000), Amount::constant(12), Amount::constant(80)};
  CHECK_THAT(profit_of(job, 0, 0, Course::part_out), WithinAbs(1000 - 80 - 12 * 20 - 7 * 3, 1e-9));
  CHECK_THAT(profit_of(job, 1, 0, Course::part_out), WithinAbs(900 - 80 - 12 * 20 - 7 * 3, 1e-9));
  job.sale.rate = 0.1;
  CHECK_THAT(profit_of(job, 0, 0, Course::as_found), WithinAbs(500 * 0.9 - 40 - 11 * 3, 1e-9));
}

TEST_CASE("a course that is not on offer has no figures", "[appraisal]") {
  Job job = job_of(small_job);
  {
    const Courses courses(job, 3000);
    CHECK_FALSE(courses.figures(1, 0, Course::put_right));
    CHECK_FALSE(courses.figures(0, 0, Course::part_out));
  }
  job.troubles[0].bars_road = true;
  const Courses courses(job, 3000);
  CHECK(courses.figures(0, 0, Course::put_right));
  CHECK_FALSE(courses.figures(0, 1, Course::put_right));
  job.road_barred = true;
  CHECK_FALSE(Courses(job, 3000).figures(0, 0, Course::put_right));
}

TEST_CASE("a further danger never raises what a car with a lost paper is worth", "[appraisal]") {
  const std::string lost = small_job_with("tag = \"pip\"", "tag = \"pip\"\npaper = \"lost\"");
  const auto barred = [&](const std::string& name, double chance) {
    return appraised(job_of(lost + fmt::format("[[trouble]]\nname = \"{}\"\nchance = {}\nbars_road = true\n",
                                               name, chance)),
                     points_min);
  };
  const Appraisal without = appraised(job_of(lost), points_min);
  CHECK(without.walk_away.price == barred("frame rotten through", 0).walk_away.price);
  CHECK(without.walk_away.price >= barred("frame rotten through", 0.1).walk_away.price);
  REQUIRE(without.notes.size() == 2);
  CHECK(without.notes[1] ==
        "the paper is lost: the car cannot be sold running, so nothing is reckoned with putting it right; "
        "where another can be had, add a [[trouble]] with bars_road = true, the chance that there will be "
        "none, and \"title\" or \"paper\" in its name");
  // Said to be in doubt, and no more: then it may be put right, and sold running with what chance is left.
  const Appraisal in_doubt = barred("no new title", 0.1);
  CHECK(in_doubt.walk_away.price > without.walk_away.price);
  CHECK(in_doubt.walk_away.price < barred("no new title", 0).walk_away.price);
  CHECK(in_doubt.notes.at(1) ==
        "the paper is lost: the trouble \"no new title\" says how likely that is to bar the road");
}

TEST_CASE("a branded paper keeps its share of the sound value, and of nothing else", "[appraisal]") {
  const std::string branded = with(small_job_with("tag = \"pip\"", "tag = \"pip\"\npaper = \"rebuilt\""),
                                   "sound = 3000", "sound = 3000\nbranded = 0.7");
  const double plain = profit_of(job_of(small_job), 0, 0, Course::put_right);
  CHECK_THAT(profit_of(job_of(branded), 0, 0, Course::put_right), WithinAbs(plain - 0.8 * 0.3 * 3000, 1e-9));
  CHECK_THAT(profit_of(job_of(branded), 0, 0, Course::as_found), WithinAbs(500 - 40 - 11 * 3, 1e-9));
  const std::string clean = with(branded, "paper = \"rebuilt\"", "paper = \"clean\"");
  CHECK_THAT(profit_of(job_of(clean), 0, 0, Course::put_right), WithinAbs(plain, 1e-9));
}

TEST_CASE("what the seller bears of a correction is its cash and own time, and nothing of the fixes",
          "[appraisal]") {
  const Job job = job_of(small_job);
  const double none = profit_of(job, 0, 0, Course::put_right);
  CHECK_THAT(profit_of(job, 0, 0, Course::put_right, 0.5), WithinAbs(none + 0.5 * (118 + 9 * 20), 1e-9));
  CHECK_THAT(profit_of(job, 0, 0, Course::put_right, 1), WithinAbs(none + 118 + 9 * 20, 1e-9));
}

TEST_CASE("interest on the price and the fees lowers every limit, and nothing else", "[appraisal]") {
  Job job = job_of(small_job);
  const Appraisal without = appraised(job);
  job.shop.money_rate = 0.10;
  const Appraisal with_interest = appraised(job);
  const double share = 1 + 0.10 * without.asked.expected.days / 365;
  CHECK_THAT(with_interest.asked.expected.profit,
             WithinAbs(without.asked.expected.profit - 1000 * (share - 1), 1e-9));
  CHECK_THAT(*with_interest.walk_away.by[Aim::profit],
             WithinAbs((*without.walk_away.by[Aim::profit] + 100) / share - 100, 0.02));
  // The figure of a course bears the interest of its days, by which it is chosen.
  const Courses courses(job, 3000);
  const double days = courses.figures(0, 0, Course::as_found)->days;
  CHECK_THAT(*without.causes[0].profit[1] - *with_interest.causes[0].profit[1],
             WithinAbs(0.10 * 1000 * days / 365, 1e-9));
  CHECK_THAT(with_interest.asked.risk.sampled_profit, WithinAbs(with_interest.asked.expected.profit, 0.5));
}

TEST_CASE("the cheapest source is taken, bad ones and own hours counted, unless the file says which",
          "[appraisal]") {
  Shop shop;
  shop.hour = 20;
  shop.pace = Amount::constant(1.5);
  Part part;
  part.qty = 2;
  part.price[0] = Amount::constant(100);  // new 200
  part.price[1] = Amount::constant(40);   // salvage 80 + 0.3 x 200 + 1 hour x 1.5 x 20 = 170
  part.price[2] = Amount::constant(90);   // reman 180
  part.bad = 0.3;
  part.pull_hours = Amount::constant(1);
  part.core = Amount::constant(18);
  SourceChoice choice = choose_source(part, shop);
  CHECK(choice.source == Source::salvage);
  CHECK_THAT(choice.cash, WithinAbs(140, 1e-12));
  CHECK_THAT(choice.hours, WithinAbs(1, 1e-12));
  CHECK_THAT(choice.cores, WithinAbs(36, 1e-12));
  part.bad = 0.4;  // salvage 190: reman is cheaper
  CHECK(choose_source(part, shop).source == Source::reman);
  part.use = Source::fresh;
  choice = choose_source(part, shop);
  CHECK(choice.source == Source::fresh);
  CHECK_THAT(choice.cash, WithinAbs(200, 1e-12));
  part.use = Source::salvage;
  part.price[0].reset();  // a bad one is bought again from the yard
  CHECK_THAT(choose_source(part, shop).cash, WithinAbs(80 * 1.4, 1e-12));
}

TEST_CASE("an aim that is not set has no limit, and at the limit of one that is it just holds",
          "[appraisal]") {
  Job job = job_of(small_job);
  Appraisal a = appraised(job);
  CHECK_FALSE(a.walk_away.by[Aim::loss_chance]);
  CHECK_FALSE(a.walk_away.by[Aim::per_hour]);
  CHECK(a.walk_away.binding == Aim::profit);
  job.deal.asking = a.walk_away.price;
  CHECK_THAT(appraised(job).asked.expected.profit, WithinAbs(300, 0.01));
  CHECK(appraised(job).asked.policy.holds);
  job.deal.asking += 0.01;
  CHECK_FALSE(appraised(job).asked.policy.holds);
  job.aims[Aim::per_hour] = 200;
  a = appraised(job);
  CHECK(a.walk_away.binding == Aim::per_hour);
  CHECK(a.walk_away.price <= *a.walk_away.by[Aim::per_hour]);
  job.deal.asking = std::max(0.0, a.walk_away.price);
  job.aims[Aim::per_hour] = 60;
  job.deal.asking = appraised(job).walk_away.price;
  CHECK(*appraised(job).asked.expected.per_hour >= 60);
  job.aims[Aim::loss_chance] = 0.0;
  a = appraised(job);
  CHECK(a.walk_away.binding == Aim::loss_chance);
  job.deal.asking = a.walk_away.price;
  CHECK(appraised(job).asked.risk.loss_chance == 0);
  job.deal.asking += 1;
  CHECK(appraised(job).asked.risk.loss_chance > 0);
  job.aims[Aim::loss_chance] = 1.0;
  CHECK_FALSE(appraised(job).walk_away.by[Aim::loss_chance]);
}

TEST_CASE("the verdict follows its order: test first, buy, walk away, offer less", "[appraisal]") {
  Job job = job_of(small_job);
  job.aims[Aim::profit] = 5000;
  CHECK(appraised(job, 8).verdict == Verdict::walk_away);
  CHECK(appraised(job, 8).walk_away.price < 0);
  job = job_of(small_job);
  job.tests.clear();
  job.deal.asking = 200;
  CHECK(appraised(job, 8).verdict == Verdict::buy);
  job.deal.asking = 2900;
  CHECK(appraised(job, 8).verdict == Verdict::offer_less);
  job = job_of(small_job);
  job.deal.asking = 1300;
  const Appraisal a = appraised(job, 8);
  CHECK(a.plan.gain() > 5);
  CHECK(a.verdict == Verdict::test_first);
}

// What is paid before the money for the car comes: deposits, fixes and the costs of selling among it; opening up apart.
TEST_CASE(
    "what a course pays out counts deposits, the fixes, the work on the troubles and the costs of selling",
    "[appraisal]") {
  Job job = job_of(with(small_job_with("new = 118", "new = 118, core = 30"), "works = 0.8\n", ""));
  job.part_out = PartOut{Amount::constant(900), Amount::constant(12), Amount::constant(80)};
  job.scrap->costs = Amount::constant(15);
  const Courses courses(job, 3000);
  const auto outlay = [&](unsigned present, Course course) {
    return courses.figures(0, present, course)->outlay;
  };
  CHECK_THAT(outlay(0, Course::put_right), WithinAbs(118 + 30 + 55 + 40, 1e-9));
  CHECK_THAT(outlay(1, Course::put_right), WithinAbs(118 + 30 + 55 + 40 + 150, 1e-9));
  CHECK_THAT(outlay(1, Course::as_found), WithinAbs(40, 1e-9));
  CHECK_THAT(outlay(0, Course::part_out), WithinAbs(80, 1e-9));
  CHECK_THAT(outlay(0, Course::scrap), WithinAbs(15, 1e-9));
}

TEST_CASE("of equal ways along a chain the shorter is taken, of equal courses the earlier", "[appraisal]") {
  // Nothing costs hours or days. After the reseal has failed scrap leaves 310; the second correction leaves 3,000
  // less 40 for the sale and what its part costs.
  const auto job_with = [](const std::string& price) {
    return job_of(
        "[deal]\nasking = 900\n[sale]\ndays = 0\ncosts = 40\n[value]\nsound = 3000\n[scrap]\nvalue = 310\n"
        "[[cause]]\nname = \"gasket\"\nodds = 1\nfound = 200\ncorrection = \"reseal\"\n"
        "[[correction]]\nname = \"reseal\"\nworks = 0.5\notherwise = \"engine\"\n"
        "[[correction]]\nname = \"engine\"\nparts = [{ name = \"engine\", qty = 1, new = " +
        price + " }]\n");
  };
  const auto best = [&](const std::string& price) {
    const Job job = job_with(price);
    return Courses(job, 3000).best(0, 0);
  };
  CHECK(best("2650").path == Path{Course::put_right, 1, Course::scrap});
  CHECK(best("2649.99").path == Path{Course::put_right, 2, Course::as_found});
  CHECK(best("2650.01").path == Path{Course::put_right, 1, Course::scrap});
  // 350 less 40 is as much as scrap; 460 is as much as putting right brings for 2,500.
  Job job = job_with("2650");
  job.causes[0].found = Amount::constant(350);
  job.corrections[0].works = 0;
  CHECK(Courses(job, 3000).best(0, 0).course == Course::put_right);
  job.causes[0].correction.reset();
  CHECK(Courses(job, 3000).best(0, 0).course == Course::as_found);
  job.causes[0].found = Amount::constant(349.99);
  CHECK(Courses(job, 3000).best(0, 0).course == Course::scrap);
}
