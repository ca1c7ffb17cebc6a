#include "reports/year_words.h"

namespace nonrunner::reports {

std::string in_words(const figures::YearBought& bought) {
  using figures::BoughtFor;
  switch (bought.what) {
    case BoughtFor::cars:
      return "cars";
    case BoughtFor::fees:
      return "fees";
    case BoughtFor::parts:
      return "parts, " + (bought.source.empty() ? "not said whether new" : bought.source);
    case BoughtFor::consumables:
      return "consumables";
    case BoughtFor::sublet:
      return "work sent out";
    case BoughtFor::paid_help:
      return "paid help";
    case BoughtFor::moved_between_cars:
      return "moved between cars";
    case BoughtFor::moved_to_shelf:
      return "moved to the shelf";
    case BoughtFor::other:
      return "other costs";
    case BoughtFor::not_said:
      return "by entries that do not say what for";
    case BoughtFor::after_sale:
      return "less what came after a sale";
    case BoughtFor::looking:
      return "less looking at cars that were left";
  }
  return "";
}

std::string in_words(figures::YearOwed::Kind kind) {
  using Kind = figures::YearOwed::Kind;
  switch (kind) {
    case Kind::buyer_deposit:
      return "buyer's deposit";
    case Kind::on_account:
      return "on account";
    case Kind::sales_tax:
      return "sales tax collected";
    case Kind::card:
      return "owed on the card";
  }
  return "";
}

}  // namespace nonrunner::reports
