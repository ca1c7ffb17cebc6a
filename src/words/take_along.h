// What is taken along to a seller (answers/take_along.h): its sentences, and its JSON for a phone. Keys are the
// interface: they stay, others may come beside them; money is a decimal string.
//
//   states   by the outcomes seen, as an address holds them: "" for none, "1:2,3:1" for the second outcome of
//            test 1 and the first of test 3; `walk_away` null: not unseen, even as a gift
//   go_on    how many states are there with this part and those before it, where more are to be asked for; else null
//   limit    the walk-away price in words
//   at_prices  what to say to a price that is named: the first row whose `up_to` it does not exceed; the last has null
#pragma once
#include <string>

#include "answers/take_along.h"

namespace nonrunner::words {

// Takes it along with the sentence of each state filled in.
answers::TakeAlong taken_along(const appraisal::Job&, const answers::GoOnTaking& = {},
                               std::size_t states = answers::states_max, std::size_t from = 0);
std::string key_of(const answers::State&);  // "1:2,3:1"
// "144 states of the tests, all there are"; else how many of how many, and which.
std::string how_whole(const answers::TakeAlong&);
std::string verdict_of(const answers::State&);                 // "TEST FIRST"
std::string limit_of(const answers::State&, const Currency&);  // "never pay more than 1,906.97"
// "never pay more than 1,906.97; below 850.00 buy it as it is, from there to 2,113.00 test first, above that offer
// less".
std::string prices_of(const answers::State&, const Currency&);
// `appraisal`: by which a purchase names it (answers/appraise.h).
std::string to_json(const answers::TakeAlong&, const std::string& as_of, const std::string& appraisal);

}  // namespace nonrunner::words
