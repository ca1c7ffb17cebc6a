// The asking price and its plan (answers/price.h), said alike on every surface. Keys of the
// JSON text are the interface: they stay, others may come beside them; money is a decimal string.
#pragma once
#include <string>
#include <vector>

#include "answers/price.h"

namespace nonrunner::words {

std::string in_words(const answers::Doubt&);
// To the whole unit, as one advertises: "3,490".
std::string shown_round(double units, const Currency&);
// "pip: advertise at 3,490"; where no price is the right one what to do in its place.
std::string advertise_at(const answers::AskingPrice&);
std::string drops(const answers::AskingPrice&);  // "unsold, drop to 3,290 on 2026-05-23"; empty: none
std::string take_from(const answers::AskingPrice&);
std::string floor_of(const answers::AskingPrice&);
// How long it has stood at which price, and what follows; empty where it does not stand in the advert.
std::vector<std::string> where_it_stands(const answers::AskingPrice&);
std::string expected(const answers::AskingPrice&);
// What to know before it is advertised. `say_cause`: how the cause is named, in the words of the front end.
std::vector<std::string> warnings(const answers::AskingPrice&, const std::string& say_cause);
// A price of the plan, in words, beside its price.
struct StageRow {
  std::string from, price, chance, brings, take_from, against_floor;
};
std::vector<StageRow> stages(const answers::AskingPrice&);
std::vector<std::string> after_the_plan(const answers::AskingPrice&);
std::string to_json(const answers::AskingPrice&);

}  // namespace nonrunner::words
