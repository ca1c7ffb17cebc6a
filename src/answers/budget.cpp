#include "answers/budget.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "answers/closed.h"
#include "answers/kept_job.h"
#include "answers/links.h"
#include "appraisal/sound_value.h"
#include "book/events/finding.h"
#include "book/events/plan.h"
#include "figures/every_budget.h"
#include "figures/opinion.h"

namespace nonrunner::answers {

namespace {

using LineKind = appraisal::EstimatedLine::Kind;

constexpr double nearly_all = 0.9;     // of the fees, and of the chances; common practice, no source
constexpr double worth_naming = 0.03;  // a chance below it is not shown as the dearest; the same

// How far along its corrections the cause goes: the first `made` of them.
struct Possible {
  double chance = 1;
  std::size_t made = 0;
};

// What a line needs in each state: pieces, or an amount in units, or hours.
struct Need {
  std::vector<double> by_state;
  double expected(const std::vector<Possible>& states) const {
    double sum = 0;
    for (std::size_t i = 0; i < states.size(); ++i) sum += states[i].chance * by_state[i];
    return sum;
  }
  double left(const std::vector<Possible>& states, double have) const {
    double sum = 0;
    for (std::size_t i = 0; i < states.size(); ++i)
      sum += states[i].chance * std::max(0.0, by_state[i] - have);
    return sum;
  }
  double chance(const std::vector<Possible>& states) const {
    double sum = 0;
    for (std::size_t i = 0; i < states.size(); ++i) sum += by_state[i] > 0 ? states[i].chance : 0;
    return std::min(sum, 1.0);
  }
  // In the likeliest state that needs it at all.
  double likeliest(const std::vector<Possible>& states) const {
    std::size_t best = 0;
    double most = -1;
    for (std::size_t i = 0; i < states.size(); ++i)
      if (by_state[i] > 0 && states[i].chance > most) {
        most = states[i].chance;
        best = i;
      }
    return by_state.empty() ? 0 : by_state[best];
  }
  bool one_amount() const {
    double amount = 0;
    for (const double each : by_state) {
      if (each > 0 && amount > 0 && each != amount) return false;
      amount = std::max(amount, each);
    }
    return true;
  }
};

struct NeededLine {
  appraisal::EstimatedLine estimate;  // of one, made for certain
  Need need;
  Day known_on;
  std::optional<Closed::When> planned;  // by hand
};
struct NeededWork {
  appraisal::EstimatedWork estimate;
  Need need;
  Day known_on;
  std::optional<Closed::When> planned;
};

bool counts_pieces(LineKind kind) {
  return kind == LineKind::part || kind == LineKind::consumable || kind == LineKind::planned;
}

// Everything about a car that does not depend on which cause is taken.
struct Car {
  const Known* known = nullptr;  // absent: never appraised
  const appraisal::Courses* courses = nullptr;
  Currency currency;
  std::vector<LineName> names;
  std::vector<book::PlannedLine> planned;
  Closed closed;
  Links links;
  std::vector<book::MoneyLine> money;
  std::vector<figures::Work> worked;
  Day kept_on;
  std::optional<Day> cause_on;  // the day that the cause was found
  std::map<std::string, Day> trouble_on;
  bool over = false;  // sold or finished: nothing is to come
  // Since when: what was not done by then is not needed, but for the parting out.
  std::optional<Closed::When> in_pieces;
  bool put_right = true;         // false: nothing is spent on a repair, nor on what goes with one
  bool nothing_to_open = false;  // no cause that is possible can be put right: nobody opens it up any more

  int number(const std::string& name, bool is_hours) const {
    for (const LineName& each : names)
      if (each.name == name && each.is_hours == is_hours) return each.number;
    return 0;
  }
  bool left(const std::string& fault) const {
    std::optional<Closed::When> by_hand;
    for (const book::PlannedLine& each : planned)
      if (each.name == fault) by_hand = {each.day, each.entry};
    return closed.of(fault, kept_on, false, by_hand) == Word::not_needed;
  }
};

struct Reckoned {
  std::vector<BudgetLine> lines;
  std::vector<BudgetWork> work;
  appraisal::Estimate estimate;
  std::vector<std::string> left_faults;
  Money to_come;
  double hours_to_come = 0;
  std::vector<ToComeAlong> along;
  double marks_left = 0;
};

// The budget for one cause, or with no repair at all.
class Reckoning {
 public:
  Reckoning(const Car& car, std::optional<std::size_t> cause) : car_(car), cause_(cause) {}

  Reckoned reckoned() {
    find_states();
    if (car_.known) {
      add_purchase();
      if (cause_) add_corrections();
      if (cause_ || car_.put_right) {
        add_troubles();
        add_faults();
      }
    }
    add_planned();
    // One that was planned by hand, before there was such a line, is it.
    const bool is_planned = std::ranges::any_of(car_.planned, [](const book::PlannedLine& each) {
      return each.name == figures::every_budget::parting_out;
    });
    if (car_.in_pieces && !is_planned) add_parting_out();
    work_out_lines();
    work_out_hours();
    if (car_.known) add_sale();
    return std::move(result_);
  }

 private:
  const appraisal::Job& job() const { return car_.known->job; }

  void find_states() {
    if (cause_)
      for (const appraisal::Step& step : car_.courses->chain(*cause_).steps)
        states_.push_back({step.cures, states_.size() + 1});
    if (states_.empty()) states_.push_back({1, 0});
    double sum = 0;
    for (const Possible& state : states_) sum += state.chance;
    states_.back().chance += std::max(0.0, 1 - sum);  // all were made, and none cured
    result_.along.resize(states_.size());
  }
  Need in_every_state(double amount) const { return {std::vector<double>(states_.size(), amount)}; }

  void add(const appraisal::EstimatedLine& estimate, double amount, std::size_t from_state, Day known_on) {
    auto at = std::find_if(lines_.begin(), lines_.end(),
                           [&](const NeededLine& each) { return each.estimate.what == estimate.what; });
    if (at == lines_.end()) at = lines_.insert(at, {estimate, in_every_state(0), known_on, {}});
    const double of_one = made_one_sort(*at, estimate, in_every_state_from(from_state, amount));
    for (std::size_t i = from_state; i < states_.size(); ++i) at->need.by_state[i] += amount * of_one;
  }
  Need in_every_state_from(std::size_t first, double amount) const {
    Need need = in_every_state(0);
    std::fill(need.by_state.begin() + static_cast<std::ptrdiff_t>(first), need.by_state.end(), amount);
    return need;
  }
  // One name is one line. Pieces under the name of a fault, say, are money beside money, and pieces at two prices are at
  // the price at which they cost on the mean what they cost apart. Gives what one of what is added counts there.
  double made_one_sort(NeededLine& line, const appraisal::EstimatedLine& more, const Need& added) const {
    const bool by_piece = counts_pieces(line.estimate.kind);
    if (by_piece && counts_pieces(more.kind)) {
      const double before = line.need.expected(states_), then = added.expected(states_);
      if (before + then > 0 && line.estimate.price != more.price)
        line.estimate.price = (before * line.estimate.price + then * more.price) / (before + then);
      return 1;
    }
    if (by_piece) {
      for (double& need : line.need.by_state) need *= line.estimate.price;
      line.estimate.kind = more.kind;
      line.estimate.price = line.estimate.stated = 1;
    }
    return counts_pieces(more.kind) ? more.price : 1;
  }
  void add(const appraisal::EstimatedWork& estimate, std::size_t from_state, Day known_on) {
    auto at = std::find_if(work_.begin(), work_.end(), [&](const NeededWork& each) {
      return each.estimate.operation == estimate.operation;
    });
    if (at == work_.end()) at = work_.insert(at, {estimate, in_every_state(0), known_on, {}});
    for (std::size_t i = from_state; i < states_.size(); ++i) at->need.by_state[i] += estimate.hours;
  }
  static appraisal::EstimatedLine amount_line(LineKind kind, const std::string& name, double amount) {
    appraisal::EstimatedLine line;
    line.kind = kind;
    line.group = line.what = name;
    line.price = line.stated = amount;
    return line;
  }

  void add_purchase() {
    if (const double fees = job().deal.fees.mean(); fees > 0)
      add(amount_line(LineKind::fees, figures::every_budget::fees, fees), fees, 0, car_.kept_on);
    if (car_.nothing_to_open) return;
    // Where the cause is not known it is what the causes take on the mean, as likely as they are.
    double cash = 0, hours = 0;
    for (std::size_t c = 0; c < job().causes.size(); ++c) {
      const double chance = cause_ ? (c == *cause_ ? 1 : 0) : car_.known->chance(c);
      cash += chance * car_.courses->opening_cash(c);
      hours += chance * car_.courses->opening_hours(c);
    }
    if (cash > 0)
      add(amount_line(LineKind::opening_up, figures::every_budget::opening_up, cash), cash, 0, car_.kept_on);
    add(appraisal::EstimatedWork{figures::every_budget::opening_up, figures::every_budget::opening_up, hours},
        0, car_.kept_on);
  }

  void add_corrections() {
    std::string before;
    std::size_t state = 0;
    for (const appraisal::Step& step : car_.courses->chain(*cause_).steps) {
      const appraisal::Correction& correction = job().corrections[step.correction];
      const Day known_on = std::max(car_.kept_on, car_.cause_on.value_or(car_.kept_on));
      const appraisal::Needs needs = appraisal::needs_of(job(), correction);
      for (appraisal::EstimatedLine line : needs.lines) {
        line.after = before;
        add(line, counts_pieces(line.kind) ? line.qty : line.price, state, known_on);
      }
      for (const appraisal::EstimatedWork& work : needs.work) add(work, state, known_on);
      before = correction.name;
      ++state;
    }
  }

  void add_troubles() {
    for (std::size_t j = 0; j < job().troubles.size(); ++j) {
      if (!car_.known->trouble_there[j].value_or(false)) continue;
      const appraisal::Trouble& trouble = job().troubles[j];
      const auto on = car_.trouble_on.find(trouble.name);
      const Day known_on = std::max(car_.kept_on, on == car_.trouble_on.end() ? car_.kept_on : on->second);
      if (const double cash = trouble.cash.mean(); cash > 0)
        add(amount_line(LineKind::trouble, trouble.name, cash), cash, 0, known_on);
      const double hours = trouble.hours.mean() * job().shop.pace.mean();
      if (hours > 0) add(appraisal::EstimatedWork{trouble.name, trouble.name, hours}, 0, known_on);
    }
  }

  void add_faults() {
    const appraisal::FixPlan& plan = car_.courses->fixes();
    for (std::size_t i = 0; i < job().faults.size(); ++i) {
      const appraisal::Fault& fault = job().faults[i];
      if (!plan.choices[i].fix) continue;
      const appraisal::Fix& fix = fault.fixes[*plan.choices[i].fix];
      if (car_.left(fault.name)) {
        result_.left_faults.push_back(fault.name);
        result_.marks_left += fix.restores * fault.takes_off.mean();
      }
      appraisal::EstimatedLine line = amount_line(LineKind::fix, fault.name, fix.cash.mean());
      line.source = fix.source;
      line.fix = fix.name;
      add(line, fix.cash.mean(), 0, car_.kept_on);
      add(appraisal::EstimatedWork{fault.name, fault.name, fix.hours.mean() * job().shop.pace.mean()}, 0,
          car_.kept_on);
    }
  }

  // The last plan of a name holds, and it stands above the estimate's.
  void add_planned() {
    for (const book::PlannedLine& planned : car_.planned) {
      std::erase_if(lines_, [&](const NeededLine& each) { return each.estimate.what == planned.name; });
      std::erase_if(work_, [&](const NeededWork& each) { return each.estimate.operation == planned.name; });
      const double pieces = static_cast<double>(planned.quantity.thousandths()) / 1000;
      appraisal::EstimatedLine line =
          amount_line(LineKind::planned, planned.name, in_units(planned.amount, car_.currency) / pieces);
      line.qty = pieces;
      if (!is_zero(planned.amount)) {
        add(line, pieces, 0, planned.day);
        lines_.back().planned = {planned.day, planned.entry};
      }
      if (planned.hours > Hours{}) {
        add(appraisal::EstimatedWork{planned.name, planned.name, planned.hours.approximately()}, 0,
            planned.day);
        work_.back().planned = {planned.day, planned.entry};
      }
    }
  }

  // A line also where nothing is expected, for what is booked on it.
  void add_parting_out() {
    double cash = 0, hours = 0;
    if (car_.known) {
      const auto& pieces =
          car_.known->is_something_else
              ? job().part_out
              : appraisal::part_out_of(job(), job().causes[cause_.value_or(car_.known->likeliest)]);
      if (pieces) {
        cash = pieces->costs.mean();
        hours = pieces->hours.mean() * job().shop.pace.mean();
      }
    }
    const char* name = figures::every_budget::parting_out;
    add(amount_line(LineKind::parting_out, name, cash), cash, 0, car_.in_pieces->day);
    add(appraisal::EstimatedWork{name, name, hours}, 0, car_.in_pieces->day);
  }

  // What a car needs no more since it goes to pieces; what was planned by hand since then it does.
  bool is_over_in_pieces(const std::string& name, const std::optional<Closed::When>& planned) const {
    return car_.in_pieces && name != figures::every_budget::parting_out &&
           !(planned && car_.in_pieces->before(*planned));
  }

  struct Booked {
    Money amount;
    Quantity pieces;
    bool any = false, all_pieces = false;  // something that is not counted brings all pieces
  };
  Booked booked_on(const std::string& name) const {
    // Of one line of a paper; what stands on none, as what came from another car, is together.
    struct OfPaper {
      Quantity pieces, counted;
      bool any = false, is_counted = false, all_pieces = false;
      bool is_gone() const { return is_counted && pieces <= Quantity{}; }
    };
    std::map<std::int64_t, OfPaper> papers;
    Booked booked;
    bool came_off = false;
    for (std::size_t i = 0; i < car_.money.size(); ++i) {
      const book::MoneyLine& line = car_.money[i];
      if (car_.links.money[i] != name) continue;
      booked.amount -= line.amount;
      came_off = came_off || line.amount > Money{};
      OfPaper& paper = papers[line.line_number];
      paper.any = paper.any || line.amount < Money{};
      paper.all_pieces = paper.all_pieces || line.quick || (!line.quantity && line.amount < Money{});
      if (!line.quantity) continue;
      paper.is_counted = true;
      paper.pieces += *line.quantity;
      if (!line.quick) paper.counted += *line.quantity;
    }
    // What went back, to the shelf or to another car is there no more, a fee that was kept or not.
    if (came_off && booked.amount <= Money{}) return {booked.amount, {}, false, false};
    for (const auto& [number, paper] : papers) {
      if (paper.is_gone()) continue;
      booked.pieces += std::max(Quantity{}, paper.counted);
      booked.any = booked.any || paper.any;
      booked.all_pieces = booked.all_pieces || paper.all_pieces;
    }
    return booked;
  }

  LineState state_of(const NeededLine& line, const Booked& booked) const {
    switch (car_.closed.of(line.estimate.what, line.known_on, false, line.planned)) {
      case Word::done:
        return LineState::done;
      case Word::not_needed:
        return LineState::not_needed;
      case Word::open:
        return LineState::open;
      case Word::none:
        break;
    }
    if (is_failed(line.estimate.group)) return LineState::done;
    const bool more = car_.closed.more_to_come(line.estimate.what);
    bool done = false;
    switch (line.estimate.kind) {
      case LineKind::part:
      case LineKind::planned:
        done = booked.all_pieces || booked.pieces.approximately() >= line.need.likeliest(states_) - 0.0005;
        break;
      case LineKind::consumable:
      case LineKind::sublet:
        done = booked.any;
        break;
      case LineKind::opening_up:
        done = car_.known->cause_is_found;
        break;
      case LineKind::fees:
      case LineKind::fix:
      case LineKind::trouble:
      case LineKind::parting_out:
        done = in_units(booked.amount, car_.currency) >= nearly_all * line.need.expected(states_);
        break;
      case LineKind::own_heading:
        break;
    }
    return done && !more ? LineState::done : LineState::open;
  }
  bool is_failed(const std::string& correction) const {
    if (!car_.known) return false;
    for (const std::size_t failed : car_.known->failed)
      if (job().corrections[failed].name == correction) return true;
    return false;
  }

  void work_out_lines() {
    for (const NeededLine& needed : lines_) {
      BudgetLine& line = result_.lines.emplace_back();
      line.estimate = needed.estimate;
      line.number = car_.number(needed.estimate.what, false);
      const bool by_piece = line.by_piece();
      const double unit = needed.estimate.price;
      const double pieces = by_piece ? needed.need.likeliest(states_) : 1;
      const double expected = needed.need.expected(states_) * (by_piece ? unit : 1);
      line.estimate.qty = pieces;
      line.estimate.price = pieces > 0 ? expected / pieces : 0;
      line.estimate.reached = needed.need.chance(states_);
      line.qty = Quantity::of(std::llround(pieces * 1000));
      line.each = in_price(line.estimate.price, car_.currency);
      line.expected = line.each.times(line.qty);
      const Booked booked = booked_on(needed.estimate.what);
      line.booked = booked.amount;
      line.pieces = booked.pieces;
      line.state = state_of(needed, booked);
      if (line.state == LineState::open && is_over_in_pieces(needed.estimate.what, needed.planned))
        line.state = LineState::not_needed;
      if (car_.over || line.finished()) continue;
      add_along(needed, by_piece ? booked.pieces.approximately() : in_units(booked.amount, car_.currency),
                by_piece ? unit : 1);
      const double have = by_piece ? booked.pieces.approximately() : 0;
      line.follows = needed.need.one_amount() && (line.estimate.reached == 1 || !booked.any);
      if (by_piece)
        line.to_come = line.follows ? line.each.times(std::max(Quantity{}, line.qty - line.pieces))
                                    : in_money(needed.need.left(states_, have) * unit, car_.currency);
      else
        line.to_come = std::max(Money{}, line.expected - line.booked);
      line.if_needed = in_money(
          by_piece ? std::max(0.0, pieces - have) * unit
                   : std::max(0.0, needed.need.likeliest(states_) - in_units(booked.amount, car_.currency)),
          car_.currency);
      result_.to_come += line.to_come;
    }
  }

  void work_out_hours() {
    for (const NeededWork& needed : work_) {
      BudgetWork& work = result_.work.emplace_back();
      work.estimate = needed.estimate;
      work.number = car_.number(needed.estimate.operation, true);
      work.estimate.hours = needed.need.expected(states_);
      work.chance = needed.need.chance(states_);
      for (std::size_t i = 0; i < car_.worked.size(); ++i)
        if (car_.links.worked[i] == needed.estimate.operation) work.booked += car_.worked[i].own;
      const Word said = car_.closed.of(needed.estimate.operation, needed.known_on, true, needed.planned);
      const bool opened = needed.estimate.operation == figures::every_budget::opening_up && car_.known &&
                          car_.known->cause_is_found;
      if (said == Word::not_needed)
        work.state = LineState::not_needed;
      else if (said == Word::done || (said == Word::none && (opened || is_failed(needed.estimate.group))))
        work.state = LineState::done;
      else if (is_over_in_pieces(needed.estimate.operation, needed.planned))
        work.state = LineState::not_needed;
      if (car_.over || work.finished()) continue;
      const double have = work.booked.approximately();
      add_along(needed, have);
      work.follows = work.chance == 1 || have == 0;
      work.to_come = needed.need.left(states_, have);
      if (needed.need.one_amount() && work.follows)
        work.to_come = std::max(0.0, work.estimate.hours - have);
      else
        work.follows = false;
      result_.hours_to_come += work.to_come;
    }
  }

  static bool only_where_cured(LineKind kind) { return kind == LineKind::fix || kind == LineKind::trouble; }
  // The hours of a fix or of a trouble's work go by its name.
  bool only_where_cured(const std::string& operation) const {
    if (!car_.known) return false;
    const auto is_it = [&](const auto& each) { return each.name == operation; };
    return std::ranges::any_of(job().faults, is_it) || std::ranges::any_of(job().troubles, is_it);
  }
  void add_along(const NeededLine& needed, double have, double unit) {
    if (needed.estimate.kind == LineKind::fees) return;
    const bool cured = only_where_cured(needed.estimate.kind);
    for (std::size_t i = 0; i < states_.size(); ++i)
      (cured ? result_.along[i].cured_cash : result_.along[i].cash) +=
          std::max(0.0, needed.need.by_state[i] - have) * unit;
  }
  void add_along(const NeededWork& needed, double have) {
    const bool cured = only_where_cured(needed.estimate.operation);
    for (std::size_t i = 0; i < states_.size(); ++i)
      (cured ? result_.along[i].cured_hours : result_.along[i].hours) +=
          std::max(0.0, needed.need.by_state[i] - have);
  }

  bool anything_booked(const std::string& name) const {
    for (std::size_t i = 0; i < car_.worked.size(); ++i)
      if (car_.links.worked[i] == name && car_.worked[i].own > Hours{}) return true;
    return booked_on(name).any;
  }

  // Of the corrections with anything booked, or said to have been made. A line that two of them name is the first one's.
  double marks_made() const {
    std::set<std::string> seen;
    double marks = 0;
    for (const appraisal::Step& step : car_.courses->chain(*cause_).steps) {
      const appraisal::Correction& correction = job().corrections[step.correction];
      bool made = car_.known->failed.contains(step.correction) || car_.known->cured.contains(step.correction);
      const appraisal::Needs needs = appraisal::needs_of(job(), correction);
      const auto look = [&](const std::string& name) {
        made = (seen.insert(name).second && anything_booked(name)) || made;
      };
      for (const auto& line : needs.lines) look(line.what);
      for (const auto& work : needs.work) look(work.operation);
      if (made) marks += correction.takes_off.mean();
    }
    return marks;
  }

  void add_sale() {
    appraisal::Estimate& estimate = result_.estimate;
    unsigned present = 0;
    for (std::size_t j = 0; j < job().troubles.size(); ++j)
      if (car_.known->trouble_there[j].value_or(false)) present |= 1u << j;
    double brings = car_.courses->sound() - car_.courses->fixes().still_off;
    double days = 0;
    if (cause_) {
      estimate.cause = job().causes[*cause_].name;
      const auto figures = car_.courses->figures(*cause_, present, appraisal::Course::put_right);
      if (figures) {
        brings = figures->brings;
        days = figures->days;
      }
    } else if (!car_.put_right) {
      estimate.cause = job().causes[car_.known->likeliest].name;
      const appraisal::Courses::Best best = car_.courses->best(car_.known->likeliest, present);
      brings = best.figures.brings;
      days = best.figures.days;
    } else {
      estimate.cause = something_else;
    }
    // Ready, it is as it stands there: what was made has left its marks, what was not made has left none.
    if (car_.closed.is_ready() && cause_) {
      brings = car_.courses->sound() - car_.courses->fixes().still_off - marks_made();
      for (std::size_t j = 0; j < job().troubles.size(); ++j)
        if ((present >> j & 1u) != 0) brings -= job().troubles[j].takes_off.mean();
    }
    estimate.sale_price = std::max(0.0, brings - result_.marks_left);
    estimate.commission_rate = job().sale.rate;
    estimate.selling = job().sale.costs.mean() + job().sale.rate * estimate.sale_price;
    estimate.fees = job().deal.fees.mean();
    estimate.hour = job().shop.hour;
    estimate.holding_per_day = job().shop.holding_per_day;
    estimate.days = days;
    for (const BudgetLine& line : result_.lines) estimate.lines.push_back(line.estimate);
    for (const BudgetWork& work : result_.work) estimate.work.push_back(work.estimate);
  }

  const Car& car_;
  std::optional<std::size_t> cause_;
  std::vector<Possible> states_;
  std::vector<NeededLine> lines_;
  std::vector<NeededWork> work_;
  Reckoned result_;
};

bool is_road_barred(const Known& known) {
  if (known.job.road_barred) return true;
  for (std::size_t j = 0; j < known.job.troubles.size(); ++j)
    if (known.job.troubles[j].bars_road && known.trouble_there[j].value_or(false)) return true;
  return false;
}

bool can_be_put_right(const Known& known, std::size_t cause) {
  if (is_road_barred(known) || known.is_something_else) return false;
  for (auto next = known.job.causes[cause].correction; next; next = known.job.corrections[*next].otherwise)
    if (!known.failed.contains(*next)) return true;
  return false;
}

bool any_can_be_put_right(const Known& known) {
  for (std::size_t c = 0; c < known.job.causes.size(); ++c)
    if (known.chance(c) > 0 && can_be_put_right(known, c)) return true;
  return false;
}

// The place of a heading: a line of the budget, or else one of that name with nothing expected, made where
// there is none yet.
std::size_t place_of_heading(Budget& budget, const std::string& heading, const Car& car) {
  for (std::size_t i = 0; i < budget.lines.size(); ++i)
    if (budget.lines[i].estimate.what == heading) return i;
  BudgetLine& line = budget.lines.emplace_back();
  line.estimate.kind = LineKind::own_heading;
  line.estimate.group = line.estimate.what = heading;
  line.estimate.qty = 0;
  line.number = car.number(heading, false);
  line.in_estimate = false;
  line.state = LineState::done;
  return budget.lines.size() - 1;
}
std::size_t place_of_work(Budget& budget, const std::string& heading, const Car& car) {
  for (std::size_t i = 0; i < budget.work.size(); ++i)
    if (budget.work[i].estimate.operation == heading) return i;
  BudgetWork& work = budget.work.emplace_back();
  work.estimate = {heading, heading, 0};
  work.number = car.number(heading, true);
  work.in_estimate = false;
  work.state = LineState::done;
  return budget.work.size() - 1;
}

void place_what_is_booked(Budget& budget, const Car& car) {
  for (std::size_t i = 0; i < car.money.size(); ++i) {
    std::optional<std::size_t> place;
    if (const auto& name = car.links.money[i]) {
      place = place_of_heading(budget, *name, car);
      BudgetLine& line = budget.lines[*place];
      if (!line.in_estimate) line.booked -= car.money[i].amount;
    }
    budget.money.push_back({car.money[i], place});
  }
  for (std::size_t i = 0; i < car.worked.size(); ++i) {
    std::optional<std::size_t> place;
    if (const auto& name = car.links.worked[i]) {
      place = place_of_work(budget, *name, car);
      if (!budget.work[*place].in_estimate) budget.work[*place].booked += car.worked[i].own;
    }
    budget.worked.push_back({car.worked[i], place});
  }
}

// What only causes other than the one taken would need.
void add_only_if(Budget& budget, const std::vector<BudgetLine>& lines, double chance) {
  for (const BudgetLine& line : lines) {
    if (is_zero(line.if_needed)) continue;
    const auto same = [&](const auto& each) { return each.estimate.what == line.estimate.what; };
    if (std::any_of(budget.lines.begin(), budget.lines.end(), same)) continue;
    auto at = std::find_if(budget.only_if.begin(), budget.only_if.end(), same);
    if (at == budget.only_if.end()) at = budget.only_if.insert(at, {line.estimate, line.number, 0, {}});
    at->chance += chance * line.chance();
    at->if_needed = std::max(at->if_needed, line.if_needed);
  }
}

// Whether what was planned by hand counts: nobody foresaw it when the car was bought.
enum class Plans { counted, left_out };

Car car_of(const book::Book& book, const std::string& tag, std::optional<Day> on, Plans plans,
           const Known* known, const appraisal::Courses* courses) {
  std::vector<LineName> names = line_names(book, tag);
  Closed closed(book, tag, names, on);
  Car car{known,
          courses,
          book.currency(),
          std::move(names),
          plans == Plans::counted ? book::planned(book, tag, on) : std::vector<book::PlannedLine>(),
          std::move(closed),
          {},
          book::money_of(book, tag, on),
          book::work_of(book, tag, on),
          known ? known->kept_on : Day{},
          {},
          {},
          false,
          {},
          true,
          false};
  if (known) {
    car.put_right = known->is_something_else || can_be_put_right(*known, known->likeliest);
    car.nothing_to_open = !known->is_something_else && !any_can_be_put_right(*known);
  }
  car.links = links_of(book, tag, car.names, car.money, car.worked, on);
  const book::Life life = book::life_of(book, tag, on);
  car.over = life.ended != 0;
  if (life.parted != 0 && plans == Plans::counted) car.in_pieces = {*life.in_pieces_since, life.parted};
  // Since when, not when last: said again, a finding is no news.
  std::string cause;
  for (const book::DatedFinding& finding : book::findings(book, tag, on))
    for (const book::Fact& fact : finding.facts) {
      if (fact.what == book::fact::cause && fact.name != cause) {
        cause = fact.name;
        car.cause_on = finding.day;
      }
      if (fact.what == book::fact::trouble) car.trouble_on.emplace(fact.name, finding.day);
    }
  return car;
}

void take(Budget& budget, Reckoned&& reckoned) {
  budget.lines = std::move(reckoned.lines);
  budget.work = std::move(reckoned.work);
  budget.estimate = std::move(reckoned.estimate);
  budget.left_faults = std::move(reckoned.left_faults);
  budget.cash_to_come = reckoned.to_come;
  budget.hours_to_come = reckoned.hours_to_come;
  budget.along = std::move(reckoned.along);
  budget.marks_left = reckoned.marks_left;
}

std::optional<Budget> begun(std::optional<Known>& known) {
  if (!known) return std::nullopt;
  Budget budget;
  budget.kept_on = known->kept_on;
  budget.job = known->job;
  budget.trouble_there = known->trouble_there;
  budget.cause_is_noted = known->cause_is_found;
  budget.repair_unknown = known->is_something_else;
  budget.cause = known->is_something_else ? something_else : known->job.causes[known->likeliest].name;
  budget.cause_chance = known->cause_is_found ? 1 : known->chance(known->likeliest);
  budget.not_in_it = known->not_in_it;
  budget.against = known->against;
  return budget;
}

std::optional<Budget> budget_from(const book::Book& book, const std::string& tag, std::optional<Day> on,
                                  std::optional<Known> known, Plans plans = Plans::counted) {
  std::optional<Budget> result = begun(known);
  if (!known) {
    if (plans == Plans::left_out || book::planned(book, tag, on).empty()) return std::nullopt;
    result.emplace();
    result->appraised = false;
    result->cause_is_noted = true;
  } else if (!known->is_something_else && !can_be_put_right(*known, known->likeliest)) {
    if (plans == Plans::left_out) return std::nullopt;
    result->not_put_right = why_not_put_right(*result);
  }
  Budget& budget = *result;
  std::optional<appraisal::Courses> courses;
  if (known) courses.emplace(known->job, appraisal::sound_value_of(known->job).mean);
  const Car car = car_of(book, tag, on, plans, known ? &*known : nullptr, courses ? &*courses : nullptr);
  const bool has_cause = known && !known->is_something_else;
  const bool is_repaired = has_cause && car.put_right;
  take(budget, Reckoning(car, is_repaired ? std::optional(known->likeliest) : std::nullopt).reckoned());
  budget.ready = car.closed.is_ready();
  budget.in_pieces = car.in_pieces.has_value();
  if (!known && !budget.lines.empty()) budget.kept_on = car.planned.front().day;
  for (std::size_t i = 0; has_cause && i < known->job.causes.size(); ++i) {
    if (!(known->chance(i) > 0) || !can_be_put_right(*known, i)) continue;
    const Reckoned each = Reckoning(car, i).reckoned();
    budget.if_cause.push_back(
        {known->job.causes[i].name, known->chance(i), each.to_come, each.hours_to_come});
    if (i != known->likeliest) add_only_if(budget, each.lines, known->chance(i));
  }
  std::stable_sort(budget.if_cause.begin(), budget.if_cause.end(),
                   [](const IfCause& a, const IfCause& b) { return a.chance > b.chance; });
  std::stable_sort(budget.only_if.begin(), budget.only_if.end(),
                   [](const OtherLine& a, const OtherLine& b) { return a.chance > b.chance; });
  place_what_is_booked(budget, car);
  return result;
}

}  // namespace

const char* name_of(LineState state) {
  switch (state) {
    case LineState::done:
      return "done";
    case LineState::not_needed:
      return "not needed";
    case LineState::open:
      break;
  }
  return "open";
}

bool in_estimate(const Budget& budget, const PlacedMoney& money) {
  return money.place && budget.lines[*money.place].in_estimate;
}

bool BudgetLine::by_piece() const { return counts_pieces(estimate.kind); }

const IfCause* Budget::dearest() const {
  if (if_cause.empty() || if_cause.front().chance >= nearly_all) return nullptr;
  const IfCause* dearest = nullptr;
  for (const IfCause& each : if_cause)
    if (each.chance >= worth_naming && each.to_come > cash_to_come && each.cause != cause &&
        (!dearest || each.to_come > dearest->to_come))
      dearest = &each;
  return dearest;
}

Money Budget::by_chances() const {
  double sum = 0, chance = 0;
  for (const IfCause& each : if_cause) {
    sum += each.chance * in_units(each.to_come, job.currency);
    chance += each.chance;
  }
  return chance > 0 ? in_money(sum / chance, job.currency) : cash_to_come;
}

book::Expected expected_of(const Budget& budget, const Currency& currency) {
  // It is not sold whole.
  if (budget.in_pieces) return {budget.cash_to_come, Money{}, Rate{}};
  const double fixed = budget.estimate.selling - budget.estimate.commission_rate * budget.estimate.sale_price;
  // An advert that is booked is one of the costs of selling that were expected.
  Money to_come = in_money(fixed, currency);
  for (const book::MoneyLine& line : budget.money)
    if (line.kind == book::MoneyKind::selling_cost) to_come += line.amount;
  return {budget.cash_to_come, std::max(Money{}, to_come),
          Rate::parse(fmt::format("{:.9f}", budget.estimate.commission_rate))};
}

book::Expected expected_of(const Budget& budget, const IfCause& cause, const Currency& currency) {
  book::Expected expected = expected_of(budget, currency);
  expected.to_complete = cause.to_come;
  return expected;
}

std::optional<Budget> appraised_cause(const book::Book& book, const std::string& tag,
                                      const std::string& cause, std::optional<Day> on) {
  auto known = known_of(book, tag, on, cause);
  if (!known && !cause.empty())
    throw hinted<Refusal>(tag + ": no appraisal is kept for it", {Action::keep_appraisal, {}});
  return begun(known);
}

void refuse_unknown_repair(const std::string& command, const std::string& tag, Action way_out) {
  throw hinted<Refusal>(
      fmt::format(
          "{}: {} has something else, which its appraisal does not know, expected one that does, and the "
          "cause noted by its name",
          command, tag),
      {way_out, {}});
}

std::optional<WhyNot> why_not_put_right(const Budget& budget) {
  using Why = WhyNot::Kind;
  if (budget.job.road_barred) return WhyNot{Why::paper_is_lost};
  if (budget.repair_unknown) return WhyNot{Why::cause_unknown};
  for (const appraisal::Trouble& trouble : budget.job.troubles)
    if (trouble.bars_road && trouble.chance == 1) return WhyNot{Why::trouble_bars, trouble.name};
  for (const appraisal::Cause& cause : budget.job.causes)
    if (cause.name == budget.cause) return WhyNot{cause.correction ? Why::failed : Why::no_correction};
  return std::nullopt;
}

std::optional<Budget> budget_of(const book::Book& book, const std::string& tag, const std::string& cause,
                                std::optional<Day> on) {
  auto known = known_of(book, tag, on, cause);
  if (!known && !cause.empty())
    throw hinted<Refusal>(tag + ": no appraisal is kept for it", {Action::keep_appraisal, {}});
  return budget_from(book, tag, on, std::move(known));
}

std::vector<PlacedMoney> placed_money(const book::Book& book, const std::string& tag,
                                      const std::optional<Budget>& budget) {
  if (budget) return budget->money;
  std::vector<PlacedMoney> all;
  for (book::MoneyLine& line : book::money_of(book, tag)) all.push_back({std::move(line), {}});
  return all;
}

std::optional<Budget> budget_at_purchase(const book::Book& book, const std::string& tag) {
  return budget_from(book, tag, {}, known_of(book, tag, {}, {}, true), Plans::left_out);
}

std::vector<LeftBehind> left_behind(const book::Book& book, const std::string& tag,
                                    const appraisal::Job& job) {
  std::vector<LeftBehind> left;
  std::vector<LineName> now;
  add_names_of(now, job, Day{});
  for (const book::PlannedLine& planned : book::planned(book, tag)) {
    now.push_back({planned.name, false, {}, {}, 0});
    now.push_back({planned.name, true, {}, {}, 0});
  }
  const std::vector<LineName> ever = line_names(book, tag);
  const auto has = [](const std::vector<LineName>& names, const std::string& name, bool is_hours) {
    return std::any_of(names.begin(), names.end(),
                       [&](const LineName& each) { return each.name == name && each.is_hours == is_hours; });
  };
  std::vector<LineName> fresh = now;
  std::erase_if(fresh, [&](const LineName& each) { return has(ever, each.name, each.is_hours); });
  const auto at = [&](const std::string& name, bool is_hours) -> LeftBehind* {
    // A heading of one's own was never a line.
    if (!has(ever, name, is_hours) || has(now, name, is_hours)) return nullptr;
    for (LeftBehind& each : left)
      if (each.name == name && each.is_hours == is_hours) return &each;
    LeftBehind& added = left.emplace_back();
    added.name = name;
    added.is_hours = is_hours;
    for (const LineName* close : close_names(fresh, name, is_hours)) added.may_be.push_back(close->name);
    return &added;
  };
  const std::vector<book::MoneyLine> money = book::money_of(book, tag);
  const std::vector<figures::Work> worked = book::work_of(book, tag);
  const Links links = links_of(book, tag, ever, money, worked, {});
  for (std::size_t i = 0; i < money.size(); ++i)
    if (LeftBehind* found = links.money[i] ? at(*links.money[i], false) : nullptr)
      found->booked -= money[i].amount;
  for (std::size_t i = 0; i < worked.size(); ++i)
    if (LeftBehind* found = links.worked[i] ? at(*links.worked[i], true) : nullptr)
      found->worked += worked[i].own;
  return left;
}

}  // namespace nonrunner::answers
