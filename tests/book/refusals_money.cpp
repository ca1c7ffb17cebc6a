// The refusals of events that move money between purses, the owner, suppliers and lenders of tools.
#include "book/walk.h"

using namespace nonrunner::book;

TEST_CASE("owner in and owner out refuse an amount that is not above 0, then a purse without a good name",
          "[book]") {
  Shop shop;
  const std::string long_name(41, 'p');
  walk(shop, {
                 {R"({ do = "owner in", date = 2025-03-01, purse = ")" + long_name + R"(", amount = 0 })",
                  "owner in: the amount is 0.00, expected more than 0"},
                 {R"({ do = "owner in", date = 2025-03-01, purse = ")" + long_name + R"(", amount = 5 })",
                  "owner in: found the purse \"" + long_name +
                      "\", expected a name of 1 to 40 characters, such as cash"},
                 {R"({ do = "owner in", date = 2025-03-01, purse = "cash", amount = 5 })", "accepted"},
             });
  walk(shop, {
                 {R"({ do = "owner out", date = 2025-03-01, purse = "cash", amount = -5 })",
                  "owner out: the amount is -5.00, expected more than 0"},
                 {R"({ do = "owner out", date = 2025-03-01, purse = "cash", amount = 5 })", "accepted"},
             });
}

TEST_CASE("move refuses an amount that is not above 0, then one purse on both sides", "[book]") {
  Shop shop;
  walk(shop,
       {
           {R"({ do = "move", date = 2025-03-01, from = "cash", to = "cash", amount = 0 })",
            "move: the amount is 0.00, expected more than 0"},
           {R"({ do = "move", date = 2025-03-01, from = "cash", to = "cash", amount = 5 })",
            "move: from and to are both \"cash\", expected two purses"},
           {R"({ do = "move", date = 2025-03-01, from = "cash", to = "bank", amount = 5 })", "accepted"},
       });
}

TEST_CASE("pay refuses an amount that is not above 0, then more than is owed, and names the nearest supplier",
          "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-01, supplier = "Harrow Wholesale", on_account = true, total = 120.00,
                 line = [{ what = "oil", amount = 120.00, kind = "overhead" }] })");
  walk(
      shop,
      {
          {R"({ do = "pay", date = 2025-03-02, supplier = "Harow Wholesale", amount = 0, purse = "bank" })",
           "pay: the amount is 0.00, expected more than 0"},
          {R"({ do = "pay", date = 2025-03-02, supplier = "Harow Wholesale", amount = 120.01, purse = "bank" })",
           "pay: 120.01, but 0.00 is owed to \"Harow Wholesale\", did you mean \"Harrow Wholesale\"?"},
          {R"({ do = "pay", date = 2025-03-02, supplier = "Harrow Wholesale", amount = 120.01, purse = "bank" })",
           "pay: 120.01, but 120.00 is owed to \"Harrow Wholesale\""},
          {R"({ do = "pay", date = 2025-03-02, supplier = "Harrow Wholesale", amount = 120.00, purse = "bank" })",
           "accepted"},
      });
}

TEST_CASE("sales tax paid refuses an amount that is not above 0, then more than was collected", "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 100.00, purse = "cash" },
               { do = "sell", date = 2025-03-02, vehicle = "pip", price = 200.00, tax = 14.00, purse = "cash" })");
  walk(shop,
       {
           {R"({ do = "sales tax paid", date = 2025-03-03, amount = 0, purse = "bank" })",
            "sales tax paid: the amount is 0.00, expected more than 0"},
           {R"({ do = "sales tax paid", date = 2025-03-03, amount = 14.01, purse = "bank" })",
            "sales tax paid: 14.01, but 14.00 is owed"},
           {R"({ do = "sales tax paid", date = 2025-03-03, amount = 14.00, purse = "bank" })", "accepted"},
       });
}

TEST_CASE(
    "a tool deposit refuses an amount that is not above 0; back, more than is out, naming the nearest tool",
    "[book]") {
  Shop shop;
  walk(shop,
       {
           {R"({ do = "tool deposit", date = 2025-03-01, what = "hub puller", amount = 0, purse = "cash" })",
            "tool deposit: the amount is 0.00, expected more than 0"},
           {R"({ do = "tool deposit", date = 2025-03-01, what = "hub puller", amount = 60, purse = "cash" })",
            "accepted"},
       });
  shop.post(
      R"({ do = "tool deposit", date = 2025-03-01, what = "hub puller", amount = 60, purse = "cash" })");
  walk(
      shop,
      {
          {R"({ do = "tool deposit back", date = 2025-03-02, what = "hub pullar", amount = -1, kept = -1 })",
           "tool deposit back: kept is -1.00, expected 0 or more"},
          {R"({ do = "tool deposit back", date = 2025-03-02, what = "hub pullar", amount = -1, purse = "cash" })",
           "tool deposit back: the amount is -1.00, expected 0 or more"},
          {R"({ do = "tool deposit back", date = 2025-03-02, what = "hub puller", amount = 0, purse = "cash" })",
           "tool deposit back: the amount is 0, expected more than 0; where no more comes back: --kept"},
          {R"({ do = "tool deposit back", date = 2025-03-02, what = "hub puller", amount = 59, kept = 1.01 })",
           "tool deposit back: 60.01 for \"hub puller\", but 60.00 is out for it"},
          {R"({ do = "tool deposit back", date = 2025-03-02, what = "hub puller", amount = 59, kept = 1 })",
           "tool deposit back: 59.00 came back and no purse took it; say the purse"},
          {R"({ do = "tool deposit back", date = 2025-03-02, what = "hub puller", amount = 0, kept = 60 })",
           "accepted"},
          {R"({ do = "tool deposit back", date = 2025-03-02, what = "hub pullar", amount = 60.01, purse = "cash" })",
           "tool deposit back: 60.01 for \"hub pullar\", but 0.00 is out for it, did you mean \"hub "
           "puller\"?"},
          {R"({ do = "tool deposit back", date = 2025-03-02, what = "hub puller", amount = 60.01, purse = "cash" })",
           "tool deposit back: 60.01 for \"hub puller\", but 60.00 is out for it"},
          {R"({ do = "tool deposit back", date = 2025-03-02, what = "hub puller", amount = 60, purse = "cash" })",
           "accepted"},
      });
}
