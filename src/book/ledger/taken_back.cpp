#include "book/ledger/taken_back.h"

#include <fmt/format.h>

namespace nonrunner::book {

std::string taken_back_on(const std::string& v) {
  return fmt::format(
      "(CASE WHEN {0}.voids < (SELECT s.entry FROM sealed_from s WHERE s.what = 'days') THEN "
      "coalesce((SELECT "
      "max({0}.day, r.day) FROM entry r JOIN place l ON l.entry = r.entry WHERE r.entry = {0}.entry + 1 AND "
      "r.kind = 'receipt' AND l.how = 'replaces' AND l.takes = {0}.voids), {0}.day) ELSE {0}.day END)",
      v);
}

}  // namespace nonrunner::book
