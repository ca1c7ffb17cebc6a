// Go on or stop: what was found is chosen from the list, then the courses from here, the best first.
#include "answers/go_on.h"

#include "answers/known.h"
#include "book/events/finding.h"
#include "figures/opinion.h"
#include "page/entry.h"
#include "page/lists.h"
#include "page/rooms.h"
#include "words/go_on.h"
#include "words/why_not.h"

namespace nonrunner::page::rooms {

namespace {

// The cause that was tapped, as it is asked about; nothing is in the book yet.
Html causes(const Visit& visit, const answers::Known& known, const std::string& chosen) {
  Choices all = {{"", "as the book has it"}};
  for (const appraisal::Cause& cause : known.job.causes) all.emplace_back(cause.name, cause.name);
  return html("<form method=\"get\" action=\"{}\">\n{}<button>Look</button>\n</form>\n",
              path_of("/go-on/", visit.tag()), choice("cause", "if the cause is", all, chosen));
}

// What was found, as facts of a finding: the cause, what is ruled out, troubles, corrections made.
Html found(const Visit& visit, const answers::Known& known, const std::string& chosen) {
  Choices causes_found = {{"", "not said"}}, out = {{"", "none"}}, troubles = {{"", "none"}},
          made = {{"", "none"}};
  for (const appraisal::Cause& cause : known.job.causes) {
    causes_found.emplace_back(cause.name, cause.name);
    out.emplace_back(cause.name, cause.name);
  }
  causes_found.emplace_back(answers::something_else, answers::something_else);
  for (const appraisal::Trouble& trouble : known.job.troubles) {
    troubles.emplace_back(trouble.name + "=there", trouble.name + ": there");
    troubles.emplace_back(trouble.name + "=not there", trouble.name + ": not there");
  }
  for (const appraisal::Correction& correction : known.job.corrections)
    made.emplace_back(correction.name, correction.name);
  Html fields = hidden("do", "finding") + hidden("vehicle", visit.tag()) +
                hidden("next", path_of("/go-on/", visit.tag())) +
                field("text", "in a few words", "looked into it") +
                choice("cause", "the cause", causes_found, chosen) + choice("ruled_out", "it is not", out);
  if (troubles.size() > 1) fields += choice("trouble", "trouble", troubles);
  if (made.size() > 1)
    fields +=
        choice("failed", "made, and it did not cure", made) + choice("cured", "made, and it cured", made);
  return html("<details class=\"detail\"><summary>Something was found</summary>\n{}</details>\n",
              form("/entry", fields, "Keep what was found"));
}

Html courses(const answers::GoOnAnswer& answer) {
  const appraisal::CourseFromHere& take = answer.result.courses[answer.result.advice];
  const bool is_loss = take.value < 0;
  Html text =
      html("<p class=\"verdict\"><strong>{}</strong></p>\n<p>from here it still brings:</p>\n", take.name);
  text += html("<p class=\"{}\">{}{}</p>\n", is_loss ? "figure loss" : "figure",
               shown_units(is_loss ? -take.value : take.value, answer.currency), is_loss ? " loss" : "");
  if (const std::string sure = words::how_sure(answer); !sure.empty())
    text += html("<p class=\"reason\">{}</p>\n", sure);
  if (const std::string rests = words::what_price_rests_on(answer); !rests.empty())
    text += html("<p class=\"reason\">{}</p>\n", rests);
  std::vector<std::vector<Html>> rows;
  for (const words::CourseRow& row : words::courses(answer))
    rows.push_back({safe(row.course), safe(row.from_here), safe(row.brings), safe(row.spend), safe(row.back),
                    safe(row.hours), safe(row.days)});
  text += table("Courses", {"course", "from here", "brings", "to spend", "back", "own hours", "days"}, rows);
  text += html("<p class=\"small\">{}</p>\n<p class=\"small\">{}</p>\n", words::what_courses_say,
               words::spent_already(answer));
  if (!answer.by_chance.empty())
    text += html("<p class=\"reason\">nobody looked for it yet, so it counts by its chance: {}</p>\n",
                 words::troubles_by_chance(answer));
  if (answer.not_put_right)
    text += html("<p>put right: not possible, since {}</p>\n", words::in_words(*answer.not_put_right));
  return text;
}

Html keep(const Visit& visit, const answers::GoOnAnswer& answer) {
  const Html fields = hidden("do", "finding") + hidden("vehicle", visit.tag()) +
                      hidden("next", path_of("/car/", visit.tag())) +
                      hidden("text", words::in_words(answer)) +
                      (answer.cause.empty() ? Html() : hidden("cause", answer.cause));
  return form("/entry", fields, "Keep as a finding");
}

}  // namespace

Answer go_on(Visit& visit) {
  const std::string& tag = visit.tag();
  book::know_vehicle(visit.book, "go-on", tag);
  const auto known = answers::known_of(visit.book, tag);
  const std::string cause = visit.request.query.get("cause");
  Html text = what_was_entered(visit);
  // Without a cause there is nothing to weigh yet: which one it is, is asked first.
  const bool can_weigh = !known || !cause.empty() || answers::is_settled(*known);
  if (can_weigh) {
    const answers::GoOnAnswer answer = answers::go_on(visit.book, {tag, cause, {}, {}}, visit.today);
    if (!answer.cause.empty()) text += html("<p>{}</p>\n", answer.cause);
    text += courses(answer) + keep(visit, answer);
  } else {
    text += html("<p>Which cause it is decides: nobody noted one yet.</p>\n");
  }
  if (known) text += causes(visit, *known, cause) + found(visit, *known, cause);
  return page(visit, tag + ": go on or stop", text);
}

}  // namespace nonrunner::page::rooms
