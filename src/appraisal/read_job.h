// Reads a job file: TOML text to a checked Job. Nothing is guessed.
//
// Throws Refusal `file:line: what was found, what was expected` for the first mistake found: text that is not
// TOML, unknown keys (naming the nearest), wrong types, negative amounts, three points out of order, odds
// that are all zero, chances that do not add up to 1 within 1e-9, names that do not exist, corrections that
// lead back to themselves, outcomes seen that cannot have come together.
//
// Required: [vehicle] tag; [deal] asking; [shop] hour, pace, hours_per_week; [sale] days; [aims] profit;
// [value] sound or comparables; a [[cause]] with name, odds, found. What else is absent is zero, certain or
// not on offer: no fees, no tax, no waiting, no parting out, no aim for the chance of a loss. paper = "lost"
// bars the road for certain unless a [[trouble]] with bars_road says how likely that is.
#pragma once
#include <string>
#include <string_view>

#include "appraisal/job.h"
#include "exact/currency.h"
#include "text/value.h"

namespace nonrunner::appraisal {

Job read_job(std::string_view text, const std::string& file, const Currency&);
Job read_job(const Value& tree, const std::string& file, const Currency&);  // of a tree already parsed

// Notes the outcome of a test, in place of what the file says. `given` is TEST=OUTCOME with names as in the
// file. Throws WrongUsage where there is no such test or outcome, Refusal where the test is spoiled or the
// outcome cannot be.
void see(Job&, std::string_view given);

// Throws Refusal where a text or a key of a file that somebody hands in holds what nobody sees, or nothing but blanks:
// what is called so could not be named again; and where a correction has two lines of money, or two operations, of one
// name (text/same_name.h), or something is called as a line that every car has (figures/every_budget.h): one name is one line
// of the budget. What was kept is taken as it was.
void refuse_unfit_names(const Value& tree, const std::string& file);

// Throws Refusal where the text is longer than a job file may be.
void refuse_too_long(std::string_view text, const std::string& file);

}  // namespace nonrunner::appraisal
