// A form as the event that it stands for: the tree that the reader of an events file makes, with the types that
// the event's fields have (book/events/fields.h). So a key that is new to an event is one of the form at once.
//
//   do=receipt  supplier=Cleave Yard  paid.cash=46.20  line.1.what=radiator  line.1.unit=36  line.1.taxed=on
//
// `tests_seen` beside a purchase or a car that is left is what tests have shown, each "TEST=OUTCOME": a finding;
// `decided_by` is the appraisal that it was decided by (answers/appraise.h). `rows` is how many lines a form of a
// paper has without a script (paper.cpp).
//
// What is empty was not said; a row of a list in which nothing was typed is none. A quick line may say vehicle,
// amount and what in place of its one line. Numbers are read as at the prompt (text/typed_numbers.h).
#pragma once
#include <string>

#include "answers/entering.h"
#include "page/request.h"

namespace nonrunner::page {

// `today`: where the form says no day (`date`, or `day`, which a phone says).
answers::Entering entering_of(const book::Book&, const Form&, Day today);
// Refuses what has no room on the page: its device sees no form of it, so none is taken from one.
void expect_on_page(const Form&);
// The id by which the form is kept once: its field `kept` of 32 hexadecimal digits, since an event has a key of that
// name too (what of a deposit never comes back); empty where it has none.
std::string kept_id(const Form&);
// What it would be held against if it came again: SHA-256 of all but the id and the way on.
std::string sent_hash(const Form&);
// Refuses "1.250" and "1,250", as the prompt does, where the currency has fewer than three decimals.
// `label` stands before what is said.
void expect_money_of_one_reading(const std::string& typed, const Currency&, const std::string& label = {});
// How the forms call a field; empty: as its event describes it.
std::string label_of_key(const std::string& key);
// The fields of the form that are the event's or answers to what was asked: without the id and the way on.
bool is_of_event(const std::string& key);

}  // namespace nonrunner::page
