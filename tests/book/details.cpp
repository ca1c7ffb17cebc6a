// The places by which the cells of an entry's details are read.
#include "book/ledger/details.h"

#include "book/fixture.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {
// Which column stands at that place of a detail table.
std::string column_at(const std::string& table, std::size_t place) {
  const std::string& columns = detail_tables()[detail_table(table)].columns;
  std::size_t begin = 0;
  for (; place > 0; --place) begin = columns.find(", ", begin) + 2;
  return columns.substr(begin, columns.find(',', begin) - begin);
}
}  // namespace

TEST_CASE("a cell that is read by its place is the column of that name", "[book]") {
  namespace in = cells;
  CHECK(column_at("line", in::line::number) == "line");
  CHECK(column_at("given_back", in::given_back::line) == "line");
  CHECK(column_at("given_back", in::given_back::what) == "what");
  CHECK(column_at("given_back", in::given_back::quantity) == "quantity");
  CHECK(column_at("given_back", in::given_back::goods) == "goods");
  CHECK(column_at("given_back", in::given_back::tax) == "tax");
  CHECK(column_at("given_back", in::given_back::kept) == "kept");
  CHECK(column_at("paper", in::paper::supplier) == "supplier");
  CHECK(column_at("paper", in::paper::number) == "number");
  CHECK(column_at("labour", in::labour::vehicle) == "vehicle");
  CHECK(column_at("labour", in::labour::operation) == "operation");
  CHECK(column_at("labour", in::labour::own) == "own");
  CHECK(column_at("labour", in::labour::paid) == "paid");
  CHECK(column_at("mention", in::mention::vehicle) == "vehicle");
  CHECK(column_at("life", in::life::vehicle) == "vehicle");
  CHECK(column_at("life", in::life::turn) == "turn");
  CHECK(column_at("purpose", in::purpose::vehicle) == "vehicle");
  CHECK(column_at("purpose", in::purpose::kind) == "kind");
  CHECK(column_at("purpose", in::purpose::what) == "what");
  CHECK(column_at("purpose", in::purpose::line) == "line");
  CHECK(column_at("purpose", in::purpose::quantity) == "quantity");
  CHECK(column_at("purpose", in::purpose::amount) == "amount");
  CHECK(column_at("purpose", in::purpose::stands) == "stands");
  CHECK(column_at("charged", in::charged::line) == "line");
  CHECK(column_at("shelf", in::shelf::item) == "item");
  CHECK(column_at("shelf", in::shelf::what) == "what");
  CHECK(column_at("shelf", in::shelf::about) == "about");
  CHECK(column_at("shelf", in::shelf::vehicle) == "vehicle");
  CHECK(column_at("shelf", in::shelf::line) == "line");
  CHECK(column_at("shelf", in::shelf::quantity) == "quantity");
  CHECK(column_at("shelf", in::shelf::amount) == "amount");
  CHECK(column_at("shelf", in::shelf::said) == "said");
  CHECK(column_at("stood", in::stood::day) == "day");
  CHECK(column_at("stood", in::stood::own) == "own");
  CHECK(column_at("stood", in::stood::paid) == "paid");
}

TEST_CASE("the cars that an entry is about come in the order in which it names them, each once", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-01, supplier = "Cleave Yard", paid = "cash", total = 15.00, line = [
                 { what = "yard entrance", amount = 10.00, kind = "fee", share = { teal = 1, pip = 1 } },
                 { what = "hose", amount = 5.00, kind = "part", to = "pip" }] })");
  CHECK(mentioned_in(load_entry(shop.book(), 1)) == std::vector<std::string>{"teal", "pip"});
}
