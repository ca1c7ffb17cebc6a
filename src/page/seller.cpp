// Before the seller: which cars were looked at; and of one of them what it may cost, test by test, as taps
// make it.
#include <algorithm>

#include "answers/appraise.h"
#include "answers/kept_job.h"
#include "answers/looked_at.h"
#include "appraisal/appraise.h"
#include "appraisal/evidence.h"
#include "book/ledger/names.h"
#include "figures/opinion.h"
#include "page/entry.h"
#include "page/form_event.h"
#include "page/lists.h"
#include "page/picture.h"
#include "page/rooms.h"
#include "page/tapped.h"
#include "text/typed_numbers.h"
#include "words/appraise.h"
#include "words/appraise_json.h"
#include "words/days.h"
#include "words/offer_in_words.h"

namespace nonrunner::page::rooms {

namespace {

using appraisal::Appraisal;

// Everything that the parts of the room are made of.
struct AtSeller {
  const Visit& visit;
  const std::string& tag;
  const Tapped& tapped;
  const std::vector<answers::Changeable>& changeable;
  const answers::ToAppraise& given;
  const Appraisal& result;
  words::AppraisalInWords say;
};

Html head(const AtSeller& at) {
  const appraisal::Vehicle& car = at.result.job.vehicle;
  Html text = html("<h1>{}{}</h1>\n", at.tag, car.description.empty() ? "" : ": " + car.description);
  if (!car.complaint.empty()) text += html("<p class=\"small\">complaint: {}</p>\n", car.complaint);
  if (at.tapped.is_hidden) return text;
  Html fixed = html("<p class=\"verdict\"><strong>{}</strong></p>\n<p>{}</p>\n", at.say.verdict(),
                    at.say.before_price());
  if (!at.say.never_more().empty()) fixed += html("<p class=\"figure\">{}</p>\n", at.say.never_more());
  text += html("<div class=\"fixed\">\n{}</div>\n", fixed);
  text += html("<p>{}: {}</p>\n", at.say.word(), at.say.next());
  return text;
}

Html why(const AtSeller& at) {
  Html text;
  for (const std::string& each : at.say.reasons()) text += html("<p class=\"reason\">{}</p>\n", each);
  return html("<details class=\"detail\"><summary>Why, and what it brings</summary>\n{}</details>\n", text);
}

// The price that he says, and whether figures stand here at all: both by address, nothing is kept.
Html asked(const AtSeller& at) {
  Tapped other = at.tapped;
  other.is_hidden = !other.is_hidden;
  const Html way = html("<p class=\"choices\"><a href=\"{}\">{}</a></p>\n", other.path(at.tag),
                        at.tapped.is_hidden ? "Show figures" : "Hide figures");
  if (at.tapped.is_hidden) return way;
  Tapped rest = at.tapped;
  rest.asked.clear();
  Html hiddens;
  for (const auto& [name, value] : rest.form().fields) hiddens += hidden(name, value);
  const std::string value =
      at.tapped.asked.empty() ? plain_units(at.result.asking, at.result.job.currency) : at.tapped.asked;
  return html("<form method=\"get\" action=\"{}\">\n{}{}<button>Asked</button>\n</form>\n{}",
              path_of("/seller/", at.tag), hiddens, money_field("asked", "price asked", value), way);
}

Html choice_of(const AtSeller& at, std::size_t test, std::size_t outcome, const std::string& words) {
  const auto tapped = at.tapped.seen.find(test);
  const bool is_chosen = tapped != at.tapped.seen.end() && tapped->second == outcome;
  const std::string path = at.tapped.with(at.tag, test, outcome);
  return is_chosen ? html("<a aria-current=\"true\" href=\"{}\">seen: {}</a>\n", path, words)
                   : html("<a href=\"{}\">{}</a>\n", path, words);
}

Html one_test(const AtSeller& at, std::size_t place) {
  const appraisal::Job& job = at.result.job;
  const appraisal::Test& test = job.tests[place];
  const std::size_t number = place + 1;
  const bool is_next = at.result.next_plan().begins_with_test() && at.result.next_plan().steps.which == place;
  Html text = html("<h2>{}. {}{}</h2>\n", std::to_string(number), test.name,
                   is_next && !at.tapped.is_hidden ? ": next" : "");
  if (!at.tapped.is_hidden) text += html("<p class=\"small\">{}</p>\n", words::cost_in_words(job, test));
  const bool is_tapped = at.tapped.seen.contains(number);
  if (!is_tapped && test.seen) return text + html("<p>in the book: {}</p>\n", test.outcomes[*test.seen]);
  if (!is_tapped && test.spoiled) return text + html("<p>spoiled, by the appraisal</p>\n");
  const appraisal::Beliefs now = appraisal::posterior(job);
  Html choices;
  for (std::size_t o = 0; o < test.outcomes.size(); ++o) {
    const bool can_be = is_tapped || appraisal::chance_of(now, test, o) > 0;
    choices += can_be ? choice_of(at, number, o + 1, test.outcomes[o])
                      : html("<span class=\"small\">{}: it cannot be, after what was seen</span>\n",
                             test.outcomes[o]);
  }
  choices += choice_of(at, number, 0, "not made");
  return text + html("<p class=\"choices\">\n{}</p>\n", choices);
}

Html tests(const AtSeller& at) {
  if (at.result.job.tests.empty()) return html("<p id=\"tests\">The appraisal has no tests.</p>\n");
  Html text;
  for (std::size_t i = 0; i < at.result.job.tests.size(); ++i) text += one_test(at, i);
  std::string cautions;
  Html list;
  for (const appraisal::Caution& each : at.result.cautions) {
    cautions += (cautions.empty() ? "" : ", ") + each.about;
    list += html("<p>{}: {}</p>\n", each.about, each.text);
  }
  if (!cautions.empty())
    list = html(
        "<details class=\"detail\"><summary>Cautions: {}</summary>\n<p>In general words; instructions of the "
        "maker "
        "and local rules come first.</p>\n{}</details>\n",
        cautions, list);
  return html("<section id=\"tests\" aria-label=\"tests\">\n{}{}</section>\n", list, text);
}

Html test_next(const AtSeller& at) {
  if (at.result.after_first_test.empty()) return {};
  std::vector<std::vector<Html>> rows;
  Html barred;
  for (const appraisal::AfterTest& after : at.result.after_first_test) {
    rows.push_back({safe(at.result.job.tests[at.result.next_plan().steps.which].outcomes[after.outcome]),
                    safe(at.say.up_to(after)), safe(words::then_in_words(at.result, after))});
    if (const std::string text = at.say.barred(after); !text.empty()) barred += html("<p>{}</p>\n", text);
  }
  return table(at.say.test_next(), {"outcome", "to pay", "then"}, rows) + barred;
}

Html to_say(const AtSeller& at) {
  std::vector<std::vector<Html>> rows;
  bool all_counted = true;
  for (const appraisal::CostToName& cost : at.result.costs_to_name) {
    rows.push_back({safe((cost.counted ? "" : "* ") + cost.what), safe(at.say.roughly(cost.amount)),
                    safe(cost.chance < 1 ? words::in_percent(cost.chance) : "")});
    all_counted = all_counted && cost.counted;
  }
  Html text;
  if (at.result.first_figure) text += html("<p>Say {} first.</p>\n", at.say.money(*at.result.first_figure));
  if (rows.empty()) return text;
  text += table("To name when haggling", {"what", "costs, own hours counted", "chance"}, rows);
  if (!all_counted) text += html("<p class=\"small\">{}</p>\n", words::only_to_put_right);
  return text;
}

Html what_it_may_be(const AtSeller& at) {
  std::vector<std::size_t> order;
  for (std::size_t c = 0; c < at.result.causes.size(); ++c)
    if (at.result.causes[c].probability > 0) order.push_back(c);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t x, std::size_t y) {
    return at.result.causes[x].probability > at.result.causes[y].probability;
  });
  std::vector<std::vector<Html>> rows;
  for (const std::size_t c : order) {
    const appraisal::CauseFigures& cause = at.result.causes[c];
    rows.push_back({safe(at.result.job.causes[c].name), safe(words::in_percent(cause.prior)),
                    safe(words::in_percent(cause.probability)), safe(at.say.best_of(cause)),
                    safe(at.say.roughly(cause.counted))});
  }
  Html text = table(
      "What it may be",
      {"cause", "before the tests", "now", "best course", "profit before price, fees and opening up"}, rows);
  if (const std::string troubles = at.say.troubles(); !troubles.empty())
    text += html("<p>{}</p>\n", troubles);
  return html("<details class=\"detail\"><summary>What it may be</summary>\n{}</details>\n", text);
}

Html spread(const AtSeller& at) {
  std::vector<Column> columns;
  std::vector<std::vector<Html>> rows;
  const auto steps = at.say.spread_steps();
  if (steps.empty()) return {};
  const auto falls = [](const auto& step) { return step.height > 0; };
  if (const auto only = std::find_if(steps.begin(), steps.end(), falls);
      std::count_if(steps.begin(), steps.end(), falls) == 1)
    return folded(
        "How it may come out",
        html("<p>No figure of the appraisal is a range: the cash profit is about {}.</p>\n", only->from));
  for (const auto& step : steps) {
    columns.push_back({step.height, step.is_loss});
    rows.push_back(
        {safe(step.from + " to " + step.to), safe(step.chance), safe(step.is_loss ? "loss" : "gain")});
  }
  return html("<details class=\"detail\"><summary>How it may come out</summary>\n{}{}</details>\n",
              columns_picture("Cash profit at " + at.say.money(at.result.to_pay.price), at.say.spread(),
                              columns, steps.front().from, steps.back().to),
              table("Cash profit and its chance", {"cash profit", "chance", ""}, rows));
}

// The figures that can be changed: the same address with them answers at once; kept, they are a new appraisal.
Html change(const AtSeller& at) {
  Html fields;
  std::string about;
  for (const answers::Changeable& each : at.changeable) {
    if (each.place == "deal.asking") continue;
    std::string value = each.value;
    for (const answers::ByHand& changed : at.tapped.changed)
      if (changed.place == each.place) value = changed.value;
    std::string hint;
    for (std::size_t c = 0; c < at.result.causes.size(); ++c)
      if (each.place == "cause." + std::to_string(c) + ".odds")
        hint = "now " + words::in_percent(at.result.causes[c].probability);
    if (each.about != about) fields += html("<h3>{}</h3>\n", each.about);
    about = each.about;
    fields += field("by." + each.place, each.what, value, "text", hint);
  }
  Tapped rest = at.tapped;
  rest.changed.clear();
  Html hiddens;
  for (const auto& [name, value] : rest.form().fields) hiddens += hidden(name, value);
  Html text = html("<form method=\"get\" action=\"{}\">\n{}{}<button>Answer with these</button>\n</form>\n",
                   path_of("/seller/", at.tag), hiddens, fields);
  return html("<details class=\"detail\"><summary>Change odds, prices, hours</summary>\n{}</details>\n",
              text);
}

Html keep_form(const AtSeller& at) {
  Html hiddens;
  for (const auto& [name, value] : at.tapped.form().fields)
    if (name != "hide") hiddens += hidden(name, value);
  return form(path_of("/seller/", at.tag), hiddens, "Keep as a new appraisal");
}

// What was seen, and by which appraisal it was decided, goes with the purchase, or with leaving it.
Html seen_fields(const AtSeller& at) {
  Html fields;
  if (const auto kept = book::appraisal_known(at.visit.book, at.tag))
    fields += hidden("decided_by", answers::named(*kept));
  for (const std::string& each : at.tapped.outcomes(at.result.job)) fields += hidden("tests_seen", each);
  return fields;
}

Html decide(const AtSeller& at) {
  if (at.tapped.is_hidden) return {};
  if (const book::Life life = book::life_of(at.visit.book, at.tag); life.bought != 0)
    return html("<p>Bought on {}: <a href=\"{}\">its job</a></p>\n", life.bought_said.iso(),
                path_of("/car/", at.tag));
  const Html common = hidden("vehicle", at.tag) + seen_fields(at);
  Html text = keep_form(at);
  if (at.tapped.changed.empty()) {
    const Html fields = hidden("do", "buy") + hidden("next", path_of("/car/", at.tag)) + common +
                        money_field("price", "price paid", at.tapped.asked, Need::must) +
                        purse_choice(at.visit.book, "purse", likely_purse(at.visit.book, "buy", "")) +
                        field("fees.1.name", "fee, its name", "") +
                        money_field("fees.1.amount", "fee, how much") + field("from", "who sold it") +
                        another_day();
    text += html("<details class=\"detail\"><summary>Bought</summary>\n{}</details>\n",
                 form("/entry", fields, "Bought"));
  } else {
    text += html("<p>Keep the changed figures first: then they are its budget if it is bought.</p>\n");
  }
  const Html left =
      hidden("do", "pass") + hidden("next", "/seller") + common + field("why", "why") + another_day();
  return text + html("<details class=\"detail\"><summary>Left</summary>\n{}</details>\n",
                     form("/entry", left, "Left it"));
}

Answer list(Visit& visit) {
  std::vector<std::vector<Html>> rows, left;
  const auto shown = [&](const std::string& amount) {
    return amount.empty() ? std::string()
                          : Money::parse(amount, visit.book.currency()).shown(visit.book.currency());
  };
  for (const std::string& tag : book::all_tags(visit.book)) {
    const book::Life life = book::life_of(visit.book, tag);
    if (life.bought != 0) continue;
    const auto kept = answers::kept_verdict(visit.book, tag);
    if (!kept) continue;
    const Html link = html("<a href=\"{}\">{}</a>", path_of("/seller/", tag), tag);
    auto& group = life.state == book::State::passed ? left : rows;
    group.push_back({link, safe(kept->verdict), safe(shown(kept->at_most)), safe(shown(kept->asked)),
                     safe(kept->day.iso())});
  }
  if (rows.empty() && left.empty())
    return page(visit, "Before the seller",
                what_was_entered(visit) +
                    html("<p>No car was looked at: an appraisal has to be kept first, at the prompt.</p>\n"));
  const std::vector<std::string> headings = {"car", "said then", "at most", "asked", "appraised"};
  Html text = what_was_entered(visit);
  if (!rows.empty()) text += table("Looked at", headings, rows);
  if (!left.empty())
    text += html("<details class=\"detail\"><summary>Left</summary>\n{}</details>\n",
                 table("Left", headings, left));
  return page(visit, "Before the seller", text);
}

}  // namespace

namespace {

answers::ToAppraise as_tapped(const book::Book& book, const std::string& tag, const Tapped& tapped) {
  answers::ToAppraise given = answers::car_to_appraise(book, tag, tapped.figures());
  answers::see(given, tapped.outcomes(given.job));
  for (const std::size_t test : tapped.left_out())
    if (test < given.job.tests.size()) answers::leave_out(given, test);
  return given;
}

}  // namespace

namespace {

void expect_price(const std::string& asked, const Currency& currency) {
  if (asked.empty()) return;
  expect_money_of_one_reading(asked, currency, "price asked");
  try {
    if (Money::parse(number_as_in_file(asked), currency) >= Money{}) return;
  } catch (const Refusal&) {
  }
  throw Refusal("price asked: found \"" + asked + "\", expected an amount, such as 1450");
}

Html what_was_kept(const Visit& visit) {
  const auto kept = answers::kept_verdict(visit.book, visit.tag());
  if (!kept || !visit.request.query.has("kept")) return {};
  const Currency& c = visit.book.currency();
  const std::string most =
      kept->at_most.empty() ? "" : ", never pay more than " + Money::parse(kept->at_most, c).shown(c);
  return html("<p class=\"said\" role=\"status\">In the book: the appraisal of {}, {}{}.</p>\n",
              words::shown_day(kept->day), kept->verdict, most);
}

Answer room_of(const Visit& visit, const std::string& tag, const std::vector<answers::Changeable>& changeable,
               const Tapped& tapped) {
  expect_price(tapped.asked, visit.book.currency());
  const answers::ToAppraise given = as_tapped(visit.book, tag, tapped);
  const appraisal::SoundValue sound = appraisal::sound_value_of(given.job);
  const Appraisal result =
      appraisal::appraise(given.job, sound, appraisal::points_default, appraisal::Extent::screen);
  const AtSeller at{visit, tag, tapped, changeable, given, result, words::AppraisalInWords(result, false)};
  Html text = head(at);
  if (!tapped.is_hidden) text += why(at);
  text += asked(at);
  if (!tapped.is_hidden) text += test_next(at);
  text += tests(at);
  if (!tapped.is_hidden) text += to_say(at) + what_it_may_be(at) + spread(at) + change(at);
  text += decide(at);
  return page(visit, tag, what_was_entered(visit) + what_was_kept(visit) + text, true);
}

}  // namespace

// What was typed and cannot be read loses none of the taps: the way back has them.
Answer seller(Visit& visit) {
  if (visit.stars.empty()) return list(visit);
  const std::string& tag = visit.tag();
  book::know_vehicle(visit.book, "seller", tag);
  const auto changeable = answers::changeable(visit.book, tag);
  const Tapped tapped = Tapped::read(visit.request.query, changeable);
  try {
    return room_of(visit, tag, changeable, tapped);
  } catch (const Refusal& refusal) {
    Tapped taps = tapped;
    taps.asked.clear();
    taps.changed.clear();
    if (tapped.asked.empty() && tapped.changed.empty()) throw;
    Answer answer =
        page(visit, "That does not go",
             html("<p class=\"reason\" role=\"alert\">{}</p>\n<p><a href=\"{}\">Back, with what was "
                  "tapped</a></p>\n",
                  refusal.what(), taps.path(tag)));
    answer.status = 422;
    return answer;
  }
}

Answer keep_appraisal(Visit& visit) {
  const std::string& tag = visit.tag();
  const Tapped tapped = Tapped::read(visit.request.form, answers::changeable(visit.book, tag));
  const answers::ToAppraise given = as_tapped(visit.book, tag, tapped);
  const std::string figures =
      words::kept_json(appraisal::appraise(given.job, appraisal::sound_value_of(given.job)));
  // Sent twice it is kept once.
  const auto last = book::appraisal_known(visit.book, tag);
  const bool is_there = last && last->day == visit.today && last->figures == figures &&
                        last->job == given.text && last->settled == given.settled.figures;
  if (!is_there) {
    book::Recording recording(visit.book, visit.now, visit.today);
    answers::keep(recording, given, visit.today, figures);
    recording.keep();
  }
  return see_other(path_of("/seller/", tag, "?kept=yes"));
}

}  // namespace nonrunner::page::rooms
