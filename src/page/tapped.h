// What was tapped before the seller, as the address of the page holds it: nothing of it is in the book until it
// is bought, left or kept.
//
//   seen=1:2,3:0   of test 1 its second outcome; test 3 could not be made
//   asked=850      the price that he says
//   hide=1         no figures, for his eyes
//   by.PLACE=31    a figure of the appraisal changed by hand (answers/by_hand.h)
#pragma once
#include <map>
#include <string>
#include <vector>

#include "answers/by_hand.h"
#include "appraisal/job.h"
#include "page/request.h"

namespace nonrunner::page {

struct Tapped {
  std::map<std::size_t, std::size_t> seen;  // both from 1; outcome 0: it could not be made
  std::string asked;
  bool is_hidden = false;
  std::vector<answers::ByHand> changed;

  // Throws Refusal where what stands in the address is no such thing; changes that say what stands there
  // anyway are left out.
  static Tapped read(const Form&, const std::vector<answers::Changeable>&);

  // The address of the same room with this tapped; what has it already loses it.
  std::string with(const std::string& tag, std::size_t test, std::size_t outcome) const;
  std::string path(const std::string& tag) const;
  Form form() const;

  // "TEST=OUTCOME" by names. Throws Refusal where the job has no such test or outcome.
  std::vector<std::string> outcomes(const appraisal::Job&) const;
  std::vector<std::size_t> left_out() const;  // places of tests
  // With the price asked among them.
  std::vector<answers::ByHand> figures() const;
};

}  // namespace nonrunner::page
