#include "answers/price.h"

#include "commands/command.h"
#include "commands/desk.h"
#include "words/price.h"

namespace nonrunner::commands {

namespace {

using answers::AskingPrice;

std::string lines(const std::vector<std::string>& all) {
  std::string text;
  for (const std::string& each : all) text += in_80(each, 2);
  return text;
}

std::string details(const AskingPrice& answer) {
  Columns columns("lrrrrl");
  columns.row({"from", "price", "chance", "brings", "take from", "against the floor"});
  for (const words::StageRow& row : words::stages(answer))
    columns.row({row.from, row.price, row.chance, row.brings, row.take_from, row.against_floor});
  return "\n" + columns.text() + lines(words::after_the_plan(answer));
}

std::string as_text(const AskingPrice& answer, bool detail) {
  std::string text;
  for (const answers::Doubt& doubt : answer.doubts)
    text += in_80(answer.tag + ": " + words::in_words(doubt), 2);
  text += lines({words::advertise_at(answer)});
  if (const std::string drops = words::drops(answer); !drops.empty()) text += lines({drops});
  text += lines({words::take_from(answer), words::floor_of(answer)});
  text += lines(words::where_it_stands(answer)) + lines({words::expected(answer)});
  text += lines(words::warnings(answer, "; else say --cause NAME"));
  return text + (detail ? details(answer) : fmt::format("\nmore: nonrunner price {} --detail\n", answer.tag));
}

int run_price(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  const AskingPrice answer =
      answers::asking_price(book, given.word(0), given.text_or("cause", ""), terminal.today);
  terminal.out << (given.json() ? words::to_json(answer) : as_text(answer, given.flag("detail")));
  return 0;
}

}  // namespace

extern const Command price;
const Command price{{"price",
                     "TAG",
                     "what to advertise it at, when to drop the price, and the floor",
                     "nonrunner price pip",
                     {{"cause", "NAME", "the cause that was found, where it is not noted in the book"},
                      {"detail", "", "chance, offer to take and distance from the floor at each price"}},
                     true,
                     "From the appraisal in force: what a sound one sells for less what stays on this car, "
                     "what buyers get off, the days a\n"
                     "sale takes and what a day costs. A price stands for whole weeks; at a price above what "
                     "it would fetch nobody buys."},
                    run_price};

}  // namespace nonrunner::commands
