// Formulas that several sheets write, each written once. All in the form of the file format: English names,
// commas, a point; functions of OOXML 2007 (ECMA-376 part 1, 18.17.7) and OpenFormula 1.2 alike.
#pragma once
#include <initializer_list>
#include <string>
#include <vector>

#include "exact/currency.h"
#include "exact/rate.h"
#include "reports/cell.h"

namespace nonrunner::reports::formula {

// To whole minor units, half away from zero, as the book rounds.
std::string rounded(const std::string& formula, const Currency&);
std::string rounded(const std::string& formula, int digits);
std::string sum(const std::string& range, const Currency&);

// The sale price that leaves `costs` after a commission of `rate` of it: costs / (1 - rate), and never below zero.
// Rounded once six digits further to take the noise of binary fractions away, then up to the minor unit, so that
// the price always suffices. Algebra: price - rate x price = costs.
std::string price_for(const std::string& costs, const std::string& rate, const Currency&);
Money price_for(Money costs, const Rate&);  // what that formula comes to
// The same of what was not sold whole, where what it brought beyond its costs is shown below zero: rounded away from it.
std::string not_recovered(const std::string& costs, const std::string& rate, const Currency&);

// "less", "more" or what is said where `of` is zero.
std::string direction(const std::string& of, const std::string& zero);

// As shown where a price is there, else blank.
std::string when_priced(const std::string& price, const std::string& formula);

// A number as a formula writes it, every digit kept.
std::string literal(double);

}  // namespace nonrunner::reports::formula
