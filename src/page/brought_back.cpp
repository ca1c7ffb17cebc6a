#include "page/brought_back.h"

#include <fmt/format.h>

#include "book/events/suggested.h"
#include "book/questions/figures.h"
#include "exact/ends.h"
#include "page/lists.h"
#include "words/days.h"
#include "words/due.h"

namespace nonrunner::page {

namespace {

using words::BackForm;

// How many go back is asked where it is more than one.
void add_pieces(BackForm& form, Quantity all) {
  if (all > Quantity::of(1000))
    form.asked.push_back({"qty", "pieces", all.shown()});
  else
    form.fields.emplace_back("qty", all.shown());
}

// The deposit of the old parts that come along: that of all of them, so that of fewer pieces it has to be seen.
void add_core(BackForm& form, const book::GoodsBack& back, const Currency& c) {
  if (!back.core) return;
  if (back.quantity > Quantity::of(1000))
    form.asked.push_back({"core", "deposit that comes along", back.core->plain(c)});
  else
    form.fields.emplace_back("core", back.core->plain(c));
}

// The amount stands in it, and is changed where it came back short.
BackForm brought_back(const Visit& visit, const book::Due& due) {
  const Currency& c = visit.book.currency();
  BackForm form;
  form.button = "Brought back";
  std::string cars;
  for (const std::string& tag : due.vehicles) cars += ", " + tag;
  form.by = due.by ? words::shown_day(*due.by) : "no last day";
  form.left = due.by ? words::days_left(*due.by, visit.today) : "";
  form.what = fmt::format("{}, {}{}{}", words::called(due), due.amount.shown(c),
                          due.from.empty() ? "" : ", at " + due.from, cars);
  if (due.kind == figures::DueKind::credit) {
    form.cannot = fmt::format("It goes when something is paid out of the purse {}.", due.what);
    return form;
  }
  if (due.kind == figures::DueKind::tool_deposit) {
    form.fields = {{"do", "tool deposit back"}, {"what", due.what}};
    if (!due.from.empty()) form.fields.emplace_back("supplier", due.from);
    form.asked.push_back({"amount", "came back", due.amount.plain(c)});
    form.purse = likely_purse(visit.book, "tool deposit", "");
    return form;
  }
  book::BackSaid said;
  said.day = visit.today;
  said.line = due.line;
  try {
    const book::SuggestedCore core = book::suggested_core(visit.book, said);
    form.fields = {{"do", "core back"}, {"line", due.line}};
    add_pieces(form, core.back.quantity);
    form.asked.push_back({"amount", "came back", core.back.amount.plain(c)});
    if (!is_zero(core.money.into_purse)) form.purse = core.money.purse;
  } catch (const Refusal& refusal) {
    form.cannot = refusal.what();
  }
  return form;
}

BackForm goes_back(const Visit& visit, const book::MayGoBack& each) {
  const Currency& c = visit.book.currency();
  BackForm form;
  form.button = "Went back";
  form.by = words::shown_day(each.by);
  form.left = words::days_left(each.by, visit.today);
  form.what = fmt::format("{}, {}, at {}", each.what, each.refund.shown(c), each.supplier);
  book::BackSaid said;
  said.day = visit.today;
  said.line = each.line;
  try {
    const book::SuggestedReturn back = book::suggested_return(visit.book, said);
    form.fields = {{"do", "return"}, {"line", each.line}};
    add_pieces(form, back.back.quantity);
    form.asked.push_back({"goods", "for the goods", back.back.goods.plain(c)});
    form.asked.push_back({"tax", "tax that came back", back.back.tax.plain(c)});
    form.asked.push_back({"restocking", "kept by the shop", ""});
    add_core(form, back.back, c);
    if (!is_zero(back.money.into_purse)) form.purse = back.money.purse;
  } catch (const Refusal& refusal) {
    form.cannot = refusal.what();
  }
  return form;
}

}  // namespace

std::vector<BackForm> to_bring_back(const Visit& visit) {
  std::vector<BackForm> forms;
  for (const book::Due& due : book::dues(visit.book)) forms.push_back(brought_back(visit, due));
  return forms;
}

std::vector<BackForm> that_may_go_back(const Visit& visit) {
  std::vector<BackForm> forms;
  for (const book::MayGoBack& each : book::may_go_back(visit.book, visit.today))
    forms.push_back(goes_back(visit, each));
  return forms;
}

}  // namespace nonrunner::page
