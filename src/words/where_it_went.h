// Where the money of a car went (answers/where_it_went.h), in words.
#pragma once
#include <string>
#include <vector>

#include "answers/where_it_went.h"

namespace nonrunner::words {

const char* name_of(figures::MoneyKind);  // "price paid", "parts"
// "it sold for 2,950.00; the largest it went into is parts, 812.40"; empty where nothing moved.
std::string in_words(const std::vector<answers::OfKind>&, const Currency&);
// "deepest on 2026-03-04: 1,234.00 out of pocket; 412.00 in the end".
std::string in_words(const std::vector<answers::StoodAt>&, const Currency&);

}  // namespace nonrunner::words
