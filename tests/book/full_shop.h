// A shop of ten entries, so that every table of details holds a row.
#pragma once
#include <fstream>

#include "book/fixture.h"
#include "book/ledger/entry.h"

namespace nonrunner::book {

struct FullShop : Shop {
  FullShop() {
    std::ofstream(folder() / "title.jpg") << "a photograph";
    post(R"({ do = "owner in", date = 2025-03-01, purse = "cash", amount = 1000.00 },
            { do = "buy", date = 2025-03-02, vehicle = "pip", price = 300.00, purse = "cash" },
            { do = "receipt", date = 2025-03-03, supplier = "Cleave Yard", number = "3071", paid = { cash = 42.00 }, total = 42.00, line = [
              { id = "alt", what = "alternator", unit = 34.00, core = 8.00, kind = "part", to = "pip" }] },
            { do = "return", date = 2025-03-04, line = "alt", goods = 34.00, purse = "cash" },
            { do = "hours", date = 2025-03-05, vehicle = "pip", operation = "brakes", own = 2 },
            { do = "trip", date = 2025-03-06, vehicle = "pip", distance = 12, why = "viewing" },
            { do = "advertised", date = 2025-03-07, vehicle = "pip", price = 900.00 },
            { do = "tool deposit", date = 2025-03-08, what = "puller", amount = 20.00, purse = "cash", back_by = 2025-04-01 },
            { do = "attach", date = 2025-03-09, vehicle = "pip", file = "title.jpg" },
            { do = "finding", date = 2025-03-10, vehicle = "pip", text = "bracket bent" })");
  }
  std::int64_t rows(const std::string& table) {
    return book().database().execAndGet("SELECT count(*) FROM " + table).getInt64();
  }
};

}  // namespace nonrunner::book
