// The first page: buy or not, for how much at most, the figures that matter, the spread; and the sheet Basis:
// what it rests on, and what comes of it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "reports/appraisal/parts.h"
#include "reports/cautions.h"
#include "reports/clean_text.h"
#include "reports/head.h"

namespace nonrunner::reports::appraisal_sheets {

namespace {

using figures::Aim;

struct Results {
  double brought = 0, own_hours = 0, days = 0, factor = 1, paid = 0, cash_profit = 0, profit = 0;
  std::optional<double> per_hour;
  // Of the aims whose limit follows the sheets: what may be paid in all so that the aim just holds, and the highest
  // price at which it does. That of any other stands as the model found it.
  figures::ByAim<std::optional<double>> left_for, limit_by;
};

// In whole coins: never one too much.
double in_coins(const Currency& currency, double price) {
  const double unit = std::pow(10.0, currency.digits);
  return std::floor(std::round(price * unit * 1e6) / 1e6) / unit;
}

// Of a fee band the highest price in it at which price, tax and fee come to no more than `left`; absent where that
// is below where the band begins. Below zero counts in the first.
std::optional<double> limit_in_band(const AppraisalFigures& f, std::size_t band, double left) {
  const auto& [from, fee] = f.fee_bands[band];
  double price = in_coins(f.currency, (left - fee) / (1 + f.purchase_rate));
  if (band > 0 && price < from) return std::nullopt;
  if (band + 1 < f.fee_bands.size())
    price = std::min(price, f.fee_bands[band + 1].first - std::pow(10.0, -f.currency.digits));
  return price;
}

double limit(const Parts& parts, double left) {
  const AppraisalFigures& f = parts.figures;
  if (f.fee_bands.empty()) return left / (1 + f.purchase_rate);
  double most = *limit_in_band(f, 0, left);
  for (std::size_t band = 1; band < f.fee_bands.size(); ++band)
    most = std::max(most, limit_in_band(f, band, left).value_or(most));
  return most;
}

Results results_of(const Parts& parts) {
  const AppraisalFigures& f = parts.figures;
  Results r;
  for (std::size_t i = 0; i < f.states.size(); ++i) {
    r.brought += f.states[i].chance * parts.states[i].cash;
    r.own_hours += f.states[i].chance * parts.states[i].hours;
    r.days += f.states[i].chance * parts.states[i].days;
    r.brought -= f.states[i].chance * parts.opening_cash(f.states[i]);
  }
  r.factor = 1 + f.money_rate * r.days / 365;
  r.paid = parts.payment() * r.factor;
  r.cash_profit = r.brought - r.paid;
  r.profit = r.cash_profit - r.own_hours * f.hour - r.days * f.bay_per_day;
  if (r.own_hours > 0) r.per_hour = r.cash_profit / r.own_hours;
  const auto live = [&](Aim aim, double left) {
    r.left_for[aim] = left;
    r.limit_by[aim] = limit(parts, left / r.factor - f.fees);
  };
  if (const auto aim = f.aims[Aim::profit])
    live(Aim::profit, r.brought - r.own_hours * f.hour - r.days * f.bay_per_day - *aim);
  if (const auto aim = f.aims[Aim::per_hour]) live(Aim::per_hour, r.brought - *aim * r.own_hours);
  return r;
}

void must_agree(const Parts& parts, const char* what, double ours, double given) {
  double half_unit = 0.5;
  for (int i = 0; i < parts.figures.currency.digits; ++i) half_unit /= 10;
  if (std::abs(ours - given) <= half_unit + 1e-9 * std::abs(given)) return;
  throw std::logic_error(fmt::format("appraisal workbook of {}: the {} adds up to {}, the model says {}",
                                     parts.figures.tag, what, ours, given));
}

const char* const verdicts[] = {"Walk away; worth at most", "Test first; walk away above",
                                "Buy; walk away above", "Offer less; walk away above"};

class Page {
 public:
  explicit Page(Parts& parts)
      : parts_(parts), f_(parts.figures), sheet_(*parts.answer), r_(results_of(parts)) {}

  void write() {
    if (f_.most_profitable) {
      must_agree(parts_, "cash profit", r_.cash_profit, f_.expected_cash_profit);
      must_agree(parts_, "profit", r_.profit, f_.expected_profit);
    }
    // What money costs makes the best way hang on the price; else the limit is a line.
    const auto given = f_.limit_by[Aim::profit], ours = r_.limit_by[Aim::profit];
    if (given && ours && f_.money_rate == 0 && *given < in_coins(*ours))
      must_agree(parts_, "limit by profit", in_coins(*ours), *given);
    begin();
    sheet_.widths({44, 20, 14, 48});
    sheet_.text({0, 0}, f_.tag + ": what it rests on, and what comes of it", look::title);
    sheet_.text({1, 0}, "All amounts in " + f_.currency.code + ", expected values.", look::note);
    inputs();
    results();
    bands();
    head();
    parts_.book.name("asking_price", *parts_.first, parts_.asked);
    for (const auto& [name, at] :
         std::vector<std::pair<const char*, std::uint32_t>>{{"fees", row::fees},
                                                            {"sound_value", row::sound},
                                                            {"pace", row::pace},
                                                            {"shop_hour", row::hour},
                                                            {"opening_up_hours", row::opening_hours},
                                                            {"bay_per_day", row::bay},
                                                            {"expected_cash_profit", row::cash_profit},
                                                            {"expected_profit", row::profit},
                                                            {"expected_own_hours", row::own_hours},
                                                            {"expected_days", row::days},
                                                            {"cash_profit_per_own_hour", row::per_hour},
                                                            {"limit_by_profit", row::limit(Aim::profit)},
                                                            {"limit_by_per_hour", row::limit(Aim::per_hour)},
                                                            {"walk_away_price", row::walk_away},
                                                            {"aim_profit", row::aim(Aim::profit)}})
      parts_.book.name(name, sheet_, {at, value});
  }

 private:
  std::string b(std::uint32_t at) const { return "$B$" + std::to_string(at + 1); }
  // With commas between the thousands, as money is shown everywhere.
  std::string shown(double amount) const {
    return grouped(fmt::format("{:.{}f}", amount, f_.currency.digits));
  }
  // To three figures, so that labels stay apart.
  static std::string shown_whole(double amount) {
    double unit = 1;
    while (std::abs(amount) / unit >= 1000) unit *= 10;
    return grouped(fmt::format("{:.0f}", std::round(amount / unit) * unit));
  }
  static std::string grouped(std::string text) {
    const std::size_t first = is_below_zero(text) ? 1 : 0;
    for (std::size_t i = std::min(text.find('.'), text.size()); i > first + 3;) text.insert(i -= 3, ",");
    return text;
  }
  static bool is_below_zero(const std::string& text) { return !text.empty() && text.front() == '-'; }
  // What stands above the answer, and the price asked, which the reader may change.
  void begin() {
    head_.emplace(parts_.book, *parts_.first, f_.tag + ": is it worth buying?");
    head_->say(f_.description, look::text);
    head_->say(
        fmt::format("All amounts in {}, expected values, made {}.", f_.currency.code, f_.made_on.iso()));
    head_->say(f_.complaint);
    parts_.asked = head_->input("Price asked",
                                Money::of_minor(std::llround(f_.asking * std::pow(10, f_.currency.digits))),
                                "may be changed: the money follows; then appraise again");
  }

  std::string rounded(const std::string& of) const { return formula::rounded(of, f_.currency); }
  double in_coins(double price) const { return appraisal_sheets::in_coins(f_.currency, price); }
  std::string coins(const std::string& of) const {
    return "ROUNDDOWN(" + formula::rounded(of, f_.currency.digits + 6) + "," +
           std::to_string(f_.currency.digits) + ")";
  }
  // What the program found, as long as nothing is changed; then what follows from the sheets.
  std::string found(double value, const std::string& live) const {
    return "IF(" + parts_.book.changed() + "=0," + formula::literal(value) + "," + live + ")";
  }
  double cents(double amount) const {
    const double unit = std::pow(10.0, f_.currency.digits);
    return std::round(amount * unit) / unit;
  }

  std::string at(std::uint32_t row_number) const { return parts_.at(row_number); }

  // The answer follows the inputs only as far as formulas go. Whether to test first was found for the figures
  // as they were: where one differs, no verdict is given in its place.
  void head() {
    Head& page = *head_;
    const std::string walk = at(row::walk_away), changed = parts_.book.changed();
    page.answer({fmt::format("IF({0}=0,\"{1}\",IF({2}<=0,\"{3}\",\"Appraise again; about\"))", changed,
                             verdict(), walk, verdicts[0]),
                 verdict()},
                walk, walk_away(), look::answer_money, {binding(), binding_now()});
    if (f_.with_tests && f_.verdict != figures::Verdict::walk_away)
      page.figure("Testing first pays up to",
                  "IF(" + changed + "=0," + formula::literal(*f_.with_tests) + ",\"\")", *f_.with_tests,
                  look::figure_money, tests_in_words());
    const auto expected = [&](const char* name, std::uint32_t of, double ours, double given,
                              const char* says) {
      page.figure(name, f_.most_profitable ? at(of) : found(cents(given), at(of)),
                  std::optional(cents(f_.most_profitable ? ours : given)), look::figure_money, says);
    };
    expected("Expected profit at the price asked", row::profit, r_.profit, f_.expected_profit,
             "after own hours at the shop's hour");
    expected("Expected cash profit", row::cash_profit, r_.cash_profit, f_.expected_cash_profit,
             "before own hours");
    parts_.book.name("chance_of_loss", *parts_.first, {page.row(), value});
    loss_chance();
    page.figure("Cash to have at hand, at the price asked",
                "IF(" + changed + "=0," + formula::literal(cents(f_.cash_worst)) + ",\"\")",
                cents(f_.cash_worst), look::figure_money,
                fmt::format("{}; see Risk", clean_text(f_.dearest, 48)));
    page.when_changed("tests, plan, chances and the picture are of before.");
    if (!f_.better.empty()) page.say(f_.better, look::caution);
    if (!f_.spread.empty()) page.picture(spread(), 17);
    page.legend("on Basis, Courses, Making, Costs and Fixes. The money figures above follow.");
    page.say(
        "Whether to test first, the plan, the sampled chances and limits, the sources of the parts and the "
        "choice "
        "of fixes stand as nonrunner worked them out for the figures as they were given. Where these change, "
        "change the job file and appraise it again.",
        look::caution);
    page.close({cautions::of_an_appraisal.begin(), cautions::of_an_appraisal.end()});
  }

  std::string tests_in_words() const {
    std::string words = f_.first_test.empty() ? "" : "first: " + clean_text(f_.first_test, 50);
    if (f_.test_from && *f_.test_from > 0)
      words += (words.empty() ? "from " : "; from ") + shown(*f_.test_from) + " up";
    return words;
  }

  // At another price it is read off the points that were drawn, for the same ways: each of them moves with what is
  // paid, unless money costs something. Where anything else is changed it is not known.
  void loss_chance() {
    const std::string changed = parts_.book.changed(), known = formula::literal(f_.loss_chance);
    const std::string sampled = "sampled at the price asked; see Risk",
                      stale = fmt::format("not known now: it was {:.1f} % at {}", 100 * f_.loss_chance,
                                          shown(f_.asking));
    if (f_.money_rate != 0 || f_.drawn.empty()) {
      head_->figure("Chance of losing cash", "IF(" + changed + "=0," + known + ",\"\")", f_.loss_chance,
                    {Form::percent, Role::figure},
                    {"IF(" + changed + "=0,\"" + sampled + "\",\"" + stale + "\")", sampled});
      return;
    }
    const std::string only_price =
        changed + "-(" + at(row::asking) + "<>" + formula::literal(f_.asking) + ")*1=0";
    const std::string points = parts_.drawn->at(parts_.drawn_first, parts_.drawn_last);
    const std::string more_paid = rounded(at(row::paid) + "-" + formula::literal(r_.paid));
    head_->figure("Chance of losing cash",
                  "IF(" + changed + "=0," + known + ",IF(" + only_price + ",SUMPRODUCT((" + points + "<" +
                      more_paid + ")*1)/ROWS(" + points + "),\"\"))",
                  f_.loss_chance, {Form::percent, Role::figure},
                  {"IF(" + changed + "=0,\"" + sampled + "\",IF(" + only_price +
                       ",\"at this price, each case going the same way\",\"" + stale + "\"))",
                   sampled});
  }

  const char* verdict() const {
    if (f_.verdict) switch (*f_.verdict) {
        case figures::Verdict::walk_away:
          return verdicts[0];
        case figures::Verdict::test_first:
          return verdicts[1];
        case figures::Verdict::buy:
          return verdicts[2];
        case figures::Verdict::offer_less:
          return verdicts[3];
      }
    // Only the figures are known.
    const bool test = f_.plan_begins_with_test && f_.best_plan - f_.decide_now >= 0.01 * f_.asking;
    return walk_away() <= 0           ? verdicts[0]
           : test                     ? verdicts[1]
           : f_.asking <= walk_away() ? verdicts[2]
                                      : verdicts[3];
  }

  // The limit that binds: the first of those that are as low as the walk-away price; lower than each of them,
  // it is what they allow together. The two are found on different ways: of nine digits the last may differ.
  static constexpr double as_low = 1e-8;
  std::string binding() const {
    const std::string walk = at(row::walk_away);
    std::string binds = "\"by the aims together\"";
    for (auto aim = figures::aims.rbegin(); aim != figures::aims.rend(); ++aim)
      if (limit_now(aim->aim))
        binds = "IF(ABS(" + at(row::limit(aim->aim)) + "-" + walk + ")<=ABS(" + walk + ")*" +
                fmt::format("{:.8f}", as_low) + ",\"by " + f_.aim_words[aim->aim].by + "\"," + binds + ")";
    return binds;
  }
  std::string binding_now() const {
    const double limit = walk_away();
    for (const figures::AimRow& aim : figures::aims)
      if (const auto now = limit_now(aim.aim); now && std::abs(*now - limit) <= std::abs(limit) * as_low)
        return "by " + f_.aim_words[aim.aim].by;
    return "by the aims together";
  }
  // As the model found it, else as it follows from the sheets; absent where there is no such aim.
  std::optional<double> limit_now(Aim aim) const {
    const auto& given = f_.limit_by[aim];
    const auto& ours = r_.limit_by[aim];
    if (given) return in_coins(*given);
    return ours ? std::optional(in_coins(*ours)) : std::nullopt;
  }

  Chart spread() const {
    Chart chart;
    chart.kind = Chart::Kind::columns;
    chart.title = "Spread of the cash profit; the first and the last bar hold all beyond";
    chart.up_format = "0%";
    chart.across = fmt::format("cash profit, {}: the middle of each bar", f_.currency.code);
    chart.up = "chance";
    chart.gap = 5;
    chart.says = fmt::format("The cash profit is expected at {} and is a loss in {:.1f} of 100 cases",
                             shown(f_.expected_cash_profit), 100 * f_.loss_chance);
    std::vector<std::string> names;
    const auto steps = static_cast<double>(f_.spread.size());
    for (std::size_t i = 0; i < f_.spread.size(); ++i) {
      const double middle =
          f_.spread_from + (f_.spread_to - f_.spread_from) * (static_cast<double>(i) + 0.5) / steps;
      names.push_back((i == 0 ? "to " : i + 1 == f_.spread.size() ? "from " : "") + shown_whole(middle));
    }
    const std::string labels = parts_.book.labels(names);
    const auto column = [&](std::uint16_t col) {
      return parts_.risk->at({parts_.spread_first.row, col}, {parts_.spread_last.row, col});
    };
    if (*std::max_element(f_.spread.begin(), f_.spread.end()) > 0.8) chart.most = 1;
    chart.over_each_other = true;
    chart.series.push_back({"a loss", labels, column(3), Paint::striped});
    chart.series.push_back({"no loss", labels, column(4), Paint::light});
    chart.series.push_back(
        {"with the expected " + shown(f_.expected_cash_profit), labels, column(5), Paint::strong});
    return chart;
  }

  void input(std::uint32_t at, const std::string& name, double number, Look how, const std::string& says) {
    sheet_.text({at, 0}, name);
    sheet_.decimal({at, value}, number, how);
    sheet_.wrapped({at, 3}, says, look::note_apart);
  }

  void band_fee() {
    if (f_.fee_bands.empty()) {
      sheet_.text({row::band_fee, 0}, "Auction's fee by price: none");
      return;
    }
    sheet_.text({row::band_fee, 0}, "Auction's fee at this price");
    const auto range = [](std::uint16_t col, std::size_t count) {
      return fixed({row::bands + 1, col}) + ":" +
             fixed({row::bands + static_cast<std::uint32_t>(count), col});
    };
    sheet_.formula({row::band_fee, value},
                   "INDEX(" + range(2, f_.fee_bands.size()) + ",MATCH(MAX(" + b(row::asking) + "," +
                       fixed({row::bands + 1, 1}) + ")," + range(1, f_.fee_bands.size()) + ",1))",
                   parts_.payment() - f_.fees - f_.asking * (1 + f_.purchase_rate), look::money);
    sheet_.wrapped({row::band_fee, 3}, "from the bands below", look::note_apart);
  }

  void day_cost() {
    sheet_.text({row::day_cost, 0}, "So a day costs, beside holding");
    sheet_.formula({row::day_cost, value},
                   b(row::bay) + "+" + b(row::money_rate) + "/365*(" + b(row::asking) + "*(1+" +
                       b(row::purchase_rate) + ")+" + all_fees() + ")",
                   parts_.day_cost(), look::money);
    sheet_.wrapped({row::day_cost, 3}, "the place, and interest on what is paid: in the choice of courses",
                   look::note_apart);
  }

  void inputs() {
    sheet_.headings({row::inputs, 0}, {"What it rests on", "", "", ""}, 1);
    sheet_.text({row::asking, 0}, "Price asked");
    sheet_.formula({row::asking, value}, parts_.first->at(parts_.asked), f_.asking, look::money);
    sheet_.wrapped({row::asking, 3}, "from the first sheet", look::note_apart);
    input(row::fees, "Fees on purchase", f_.fees, look::money_input, "title, registration, tow");
    band_fee();
    input(row::purchase_rate, "Tax on the price", f_.purchase_rate, look::rate_input, "");
    input(row::sound, "Sound value", f_.sound, look::money_input,
          std::string("running, every fault put right, the paper's share applied") +
              (f_.fitted ? "" : "; given, no comparables were used"));
    sheet_.text({row::still_off, 0}, "Still off it after the fixes");
    sheet_.formula({row::still_off, value}, parts_.fixes->at(parts_.still_off_cell), parts_.still_off,
                   look::money);
    sheet_.wrapped({row::still_off, 3}, "from the sheet Fixes", look::note_apart);
    input(row::pace, "Pace", f_.pace, look::factor_input, "real hours / estimated hours");
    input(row::hour, "Shop's hour", f_.hour, look::money_input, "what an own hour must earn");
    input(row::hours_per_week, "Hours a week", f_.hours_per_week, look::if_set_input, "");
    sheet_.ask({row::hours_per_week, value}, Ask::above_zero);
    sheet_.ask({row::pace, value}, Ask::above_zero);
    input(row::holding, "Holding cost a day", f_.holding_per_day, look::money_input,
          "imputed: it never reaches the book");
    input(row::bay, "What a day of the place could earn", f_.bay_per_day, look::money_input,
          "in the profit and in what is chosen; not in cash");
    input(row::money_rate, "Cost of the cash tied up, a year", f_.money_rate, look::rate_input, "");
    day_cost();
    input(row::sale_rate, "Commission on the sale", f_.sale_rate, look::rate_input, "");
    input(row::opening_cash, "Opening up, cash", f_.opening_cash, look::money_input, "");
    input(row::opening_hours, "Opening up, own hours", f_.opening_hours, look::decimal_input,
          "by the estimate, before the pace");
    for (const figures::AimRow& aim : figures::aims) {
      const std::string name = "Aim: " + f_.aim_words[aim.aim].asks + ", ",
                        bound = aim.at_most ? "at most" : "at least";
      const auto& asked = f_.aims[aim.aim];
      if (!asked)
        sheet_.text({row::aim(aim.aim), 0}, name + "none set");
      else if (r_.limit_by[aim.aim])
        input(row::aim(aim.aim), name + bound, *asked, aim.is_share ? look::percent_input : look::money_input,
              "");
      else
        input(row::aim(aim.aim), name + bound, *asked, aim.is_share ? look::percent : look::money,
              "its limit is sampled, so it stays");
    }
  }

  void result(std::uint32_t at, const std::string& name, const std::string& formula, double number, Look how,
              const char* says) {
    sheet_.text({at, 0}, name, how.role == Role::total ? look::total : look::text);
    sheet_.formula({at, value}, formula, number, how);
    sheet_.wrapped({at, 3}, says, look::note_apart);
  }

  void results() {
    sheet_.headings({row::results, 0}, {"What comes of it, at the price asked", "", "", ""}, 1);
    const Cell first = parts_.chance_first, last = parts_.chance_last;
    const auto expected = [&](std::uint16_t col) {
      return "SUMPRODUCT(" + parts_.courses->at(first, last) + "," +
             parts_.courses->at({first.row, col}, {last.row, col}) + ")/SUM(" +
             parts_.courses->at(first, last) + ")";
    };
    const std::string factor = "(1+" + b(row::money_rate) + "*" + b(row::days) + "/365)";
    result(row::brought, "Brought by the best courses, in cash",
           expected(9) + "-" + expected(Parts::opening_cash_column), r_.brought, look::money,
           "all but the purchase; opening up taken off");
    result(row::own_hours, "Own hours", expected(10), r_.own_hours, look::decimal, "");
    result(row::days, "Days", expected(11), r_.days, look::decimal, "");
    result(row::paid, "Paid on purchase",
           "(" + b(row::asking) + "*(1+" + b(row::purchase_rate) + ")+" + all_fees() + ")*" + factor, r_.paid,
           look::money, "with the cost of the cash tied up");
    result(row::cash_profit, "Cash profit", rounded(b(row::brought) + "-" + b(row::paid)),
           cents(r_.cash_profit), look::money_total, "");
    result(row::profit, "Profit after own hours",
           rounded(b(row::brought) + "-" + b(row::paid) + "-" + b(row::own_hours) + "*" + b(row::hour) + "-" +
                   b(row::days) + "*" + b(row::bay)),
           cents(r_.profit), look::money_total, "");
    if (r_.per_hour)
      result(row::per_hour, "Cash profit per own hour",
             rounded("(" + b(row::brought) + "-" + b(row::paid) + ")/" + b(row::own_hours)),
             cents(*r_.per_hour), look::money, "");
    else
      sheet_.text({row::per_hour, 0}, "Cash profit per own hour: no own hours");
    limits();
  }

  // What may be paid in all so that the aim just holds, as it follows from the sheets.
  std::string left_for(Aim aim) const {
    const std::string asked = b(row::aim(aim)), hours = b(row::own_hours);
    if (aim == Aim::per_hour) return b(row::brought) + "-" + asked + "*" + hours;
    return b(row::brought) + "-" + hours + "*" + b(row::hour) + "-" + b(row::days) + "*" + b(row::bay) + "-" +
           asked;
  }

  // The highest price at which it does; `column`: of the bands, where the auction has some.
  std::string live_limit(Aim aim, std::uint16_t column) {
    const std::string may_be_paid =
        "(" + left_for(aim) + ")/(1+" + b(row::money_rate) + "*" + b(row::days) + "/365)-" + b(row::fees);
    if (f_.fee_bands.empty()) return coins("(" + may_be_paid + ")/(1+" + b(row::purchase_rate) + ")");
    return limit_by_bands(may_be_paid, *r_.left_for[aim] / r_.factor - f_.fees, column);
  }

  void limits() {
    std::string all;
    for (const figures::AimRow& aim : figures::aims) {
      const std::uint32_t at = row::limit(aim.aim);
      const std::string name = "Limit by " + f_.aim_words[aim.aim].by;
      const auto now = limit_now(aim.aim);
      if (!now) {
        sheet_.text({at, 0}, name + ": no such aim");
        continue;
      }
      if (const auto& ours = r_.limit_by[aim.aim]) {
        const std::string live = live_limit(aim.aim, ++last_fed_);
        result(at, name, std::abs(*now - in_coins(*ours)) < 1e-9 ? live : found(*now, live), *now,
               look::money,
               aim.aim == Aim::profit
                   ? "the highest price at which the aim holds"
                   : "over all ways to go; once something is changed, over the most profitable ones");
      } else {
        sheet_.text({at, 0}, name);
        sheet_.decimal({at, value}, *now, look::money);
        sheet_.wrapped({at, 3}, "sampled: it does not follow changes here", look::note_apart);
      }
      all += (all.empty() ? "" : ",") + b(at);
    }
    result(row::walk_away, "Walk-away price", found(walk_away(), "MIN(" + all + ")"), walk_away(),
           look::money_total, "all aims at once; below zero: not even as a gift");
  }

  // With the fee of its band, where there are bands.
  std::string all_fees() const {
    return b(row::fees) + (f_.fee_bands.empty() ? std::string() : "+" + b(row::band_fee));
  }

  void bands() {
    if (f_.fee_bands.empty()) return;
    sheet_.headings({row::bands, 0}, {"The auction's fee", "From this price on", "Fee", ""}, 1);
    std::uint32_t at = row::bands;
    for (const auto& [from, fee] : f_.fee_bands) {
      ++at;
      sheet_.text({at, 0}, "a band");
      sheet_.decimal({at, 1}, from, look::money);
      sheet_.decimal({at, 2}, fee, look::money_input);
      sheet_.text({at, bands_note}, "highest price in it by profit, and by cash per own hour", look::note);
    }
    sheet_.hidden_columns(bands_note, last_fed_);
    sheet_.printed_columns(4);
  }

  // The highest price that leaves the aim its due, looked for in each band: beside it, on columns that only feed this.
  std::string limit_by_bands(const std::string& may_be_paid, double now, std::uint16_t column) {
    constexpr const char* nowhere = "-1000000000000";
    const auto count = static_cast<std::uint32_t>(f_.fee_bands.size());
    for (std::uint32_t band = 0; band < count; ++band) {
      const std::uint32_t row_at = row::bands + 1 + band;
      const std::string price =
          coins("(" + may_be_paid + "-" + fixed({row_at, 2}) + ")/(1+" + b(row::purchase_rate) + ")");
      std::string of_band = price;
      if (band + 1 < count)
        of_band = "MIN(" + price + "," + fixed({row_at + 1, 1}) + "-" +
                  formula::literal(std::pow(10.0, -f_.currency.digits)) + ")";
      if (band > 0) of_band = "IF(" + price + "<" + fixed({row_at, 1}) + "," + nowhere + "," + of_band + ")";
      sheet_.formula({row_at, column}, of_band, limit_in_band(f_, band, now).value_or(-1e12), look::money);
    }
    return rounded("MAX(" + here(Cell{row::bands + 1, column}, Cell{row::bands + count, column}) + ")");
  }

  double walk_away() const { return in_coins(f_.walk_away); }

  Parts& parts_;
  const AppraisalFigures& f_;
  Sheet& sheet_;
  Results r_;
  std::optional<Head> head_;
  // Beside the bands: a note, then a column for each aim whose limit follows the sheets.
  static constexpr std::uint16_t bands_note = 4;
  std::uint16_t last_fed_ = bands_note;
};

}  // namespace

void write_answer(Parts& parts) { Page(parts).write(); }

}  // namespace nonrunner::reports::appraisal_sheets
