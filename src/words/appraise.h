// Is it worth buying (appraisal/appraisal.h) in sentences, said alike on every surface. Amounts that rest on
// chances are said to three figures, in full where that is asked for.
#pragma once
#include <string>
#include <vector>

#include "appraisal/appraisal.h"

namespace nonrunner::words {

// "31 %", "below 1 %", "above 99 %".
std::string in_percent(double chance);
// An amount that rests on chances, to three figures: more would pretend to know more.
std::string about(double amount, const Currency&);

// What a test takes: "takes 0.4 own hours and 4.00".
std::string cost_in_words(const appraisal::Job&, const appraisal::Test&);
// Beside costs to name that are marked with a star.
inline constexpr const char* only_to_put_right =
    "* only to put it right, which is not what pays here: a reason to ask for less, not a cost that is "
    "counted";

// Keeps a reference to the appraisal.
class AppraisalInWords {
 public:
  AppraisalInWords(const appraisal::Appraisal& appraisal, bool in_full)
      : a_(appraisal), job_(appraisal.job), in_full_(in_full) {}

  std::string money(double amount) const;
  std::string roughly(double amount) const;  // rests on a chance

  std::string verdict() const;       // "TEST FIRST"; where deciding now takes another offer, with its name
  std::string word() const;          // "TEST FIRST"
  std::string never_more() const;    // the walk-away price; empty where it is none
  std::string before_price() const;  // what stands before it: "never pay more than (USD), as things are ..."
  // Under the price, a sentence or two each; what says nothing is left out: a better offer, the aim that sets
  // the price, what it hangs on, what to do at other prices, what is to be expected, the cash to have at hand, that
  // it was drawn with fewer points than usual.
  std::vector<std::string> reasons() const;
  std::string prices() const;
  std::string expected() const;
  std::string at_hand() const;
  std::string fewer_points() const;

  // What to do now, after the word of the verdict.
  std::string next() const;
  std::string first_test() const;  // Precondition: next_plan() begins with one
  std::string test_next() const;   // "Test next, at 2,750.00: tap the frame; worth 207."
  // What an outcome of that test leaves to pay: "up to 1,950.00", "walk away".
  std::string up_to(const appraisal::AfterTest&) const;
  std::string barred(const appraisal::AfterTest&) const;      // empty where it bars nothing
  std::string best_of(const appraisal::CauseFigures&) const;  // "put right or scrap"
  std::string troubles() const;  // "whatever the cause, perhaps: rot (12 %)"; empty where there are none

  // How the cash profit is spread, if it is bought at the price that is told to pay: in a sentence, and step by
  // step as a picture shows it.
  std::string spread() const;
  struct SpreadStep {
    std::string from, to, chance;  // amounts of cash profit; "12 %"
    double height = 0;             // its share of the likeliest step's
    bool is_loss = false;
  };
  std::vector<SpreadStep> spread_steps() const;

 private:
  std::string aim() const;
  std::string above_all() const;
  std::string offer_less() const;
  std::string gain_or_loss(double amount) const;
  std::string expected_at(const appraisal::AtPrice&) const;

  const appraisal::Appraisal& a_;
  const appraisal::Job& job_;
  bool in_full_;
};

}  // namespace nonrunner::words
