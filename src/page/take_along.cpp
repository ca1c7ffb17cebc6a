#include "page/take_along.h"

#include <chrono>
#include <map>

#include "answers/appraise.h"
#include "book/events/appraisals.h"
#include "book/ledger/names.h"
#include "figures/opinion.h"
#include "page/html.h"
#include "page/rooms.h"
#include "text/typed_numbers.h"
#include "words/appraise.h"
#include "words/take_along.h"

namespace nonrunner::page {

namespace {

class Tree {
 public:
  explicit Tree(const answers::TakeAlong& taken) : taken_(taken) {
    for (const answers::State& state : taken.states) by_key_.emplace(words::key_of(state), &state);
  }

  Html whole() const {
    answers::State none;
    none.seen.resize(taken_.job.tests.size());
    return at(none, 0);
  }

 private:
  Html at(answers::State& here, std::size_t from) const {
    const auto found = by_key_.find(words::key_of(here));
    if (found == by_key_.end()) return html("<p>Not taken along.</p>\n");
    const answers::State& state = *found->second;
    const Currency& c = taken_.job.currency;
    Html text = html("<p><strong>{}</strong>: {}</p>\n<p>{}</p>\n", words::verdict_of(state),
                     words::prices_of(state, c), state.next);
    text += costs(state);
    for (std::size_t t = from; t < here.seen.size(); ++t) {
      const appraisal::Test& test = taken_.job.tests[t];
      if (test.seen || test.spoiled) continue;
      Html outcomes;
      for (std::size_t o = 0; o < test.outcomes.size(); ++o) {
        here.seen[t] = o;
        // What has no chance, or was left out, is not opened.
        if (by_key_.contains(words::key_of(here)))
          outcomes +=
              html("<details><summary>{}</summary>\n{}</details>\n", test.outcomes[o], at(here, t + 1));
      }
      here.seen[t].reset();
      if (!outcomes.empty())
        text += html("<details><summary>{}. {}, {}</summary>\n{}</details>\n", std::to_string(t + 1),
                     test.name, words::cost_in_words(taken_.job, test), outcomes);
    }
    return text;
  }

  Html costs(const answers::State& state) const {
    Html items;
    for (const appraisal::CostToName& cost : state.costs)
      items += html("<li>{}{}: {}{}</li>\n", cost.counted ? "" : "* ", cost.what,
                    words::about(cost.amount, taken_.job.currency),
                    cost.chance < 1 ? " (" + words::in_percent(cost.chance) + ")" : "");
    if (items.empty()) return items;
    return html("<details><summary>To name when haggling</summary>\n<ul>\n{}</ul>\n</details>\n", items);
  }

  const answers::TakeAlong& taken_;
  std::map<std::string, const answers::State*> by_key_;
};

}  // namespace

std::string take_along_page(const answers::TakeAlong& taken, const std::string& as_of) {
  const appraisal::Vehicle& car = taken.job.vehicle;
  const std::string title = car.tag.empty() ? car.description : car.tag + ": " + car.description;
  const Html body = html(
                        "<h1>{}</h1>\n<p>{}</p>\n<p>As of {}; asked {}; {}. Open the tests in the order in "
                        "which they are listed, "
                        "whichever is made first.</p>\n",
                        title, car.complaint, as_of, shown_units(taken.job.deal.asking, taken.job.currency),
                        words::how_whole(taken)) +
                    Tree(taken).whole() +
                    html("<p>* {}</p>\n", std::string_view(words::only_to_put_right).substr(2));
  return html(
             "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
             "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
             "<meta name=\"color-scheme\" content=\"light "
             "dark\">\n<title>{}</title>\n</head>\n<body>\n<main>\n{}"
             "</main>\n</body>\n</html>\n",
             title, body)
      .text();
}

namespace rooms {

// "/take-along/pip.json": for the phone, which keeps it. With `from` a part, as far as it goes within a second, so that
// whoever waits sees how far it is and others are answered meanwhile.
Answer take_along(Visit& visit) {
  std::string tag = visit.tag();
  if (tag.ends_with(".json")) tag.erase(tag.size() - 5);
  book::know_vehicle(visit.book, "take along", tag);
  const answers::ToAppraise given = answers::car_to_appraise(visit.book, tag);
  const auto kept = book::appraisal_known(visit.book, tag);
  Answer answer;
  answer.type = "application/json";
  const std::string asked = visit.request.query.get("from");
  const auto from = asked.empty() ? std::optional<std::int64_t>(0) : typed_entry(asked);
  if (!from && asked != "0")
    throw Refusal("take along: found \"" + asked + "\", expected how many states are there");
  using Clock = std::chrono::steady_clock;
  const Clock::time_point until = Clock::now() + std::chrono::milliseconds(800);
  const std::size_t first = static_cast<std::size_t>(from.value_or(0));
  const answers::GoOnTaking while_it_lasts = [&](std::size_t done, std::size_t) {
    return asked.empty() || done == first || Clock::now() < until;
  };
  answer.body = words::to_json(words::taken_along(given.job, while_it_lasts, answers::states_max, first),
                               visit.now, kept ? answers::named(*kept) : "");
  return answer;
}

}  // namespace rooms

}  // namespace nonrunner::page
