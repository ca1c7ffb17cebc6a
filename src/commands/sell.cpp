#include "book/events/sell.h"

#include "answers/purse.h"
#include "book/events/suggested.h"
#include "book/questions/figures.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/named_amounts.h"
#include "commands/typed_forms.h"
#include "exact/ends.h"

namespace nonrunner::commands {

namespace {
// "2,5%", "0.035" or an amount.
std::string plain_share(const std::string& typed, const Currency& currency) {
  if (typed.ends_with('%')) return plain_number(typed.substr(0, typed.size() - 1)) + "%";
  return plain_money(typed, currency);
}

// What came in beside the price, and why it is another amount: "2,641.50 into cash: the price less a deposit of
// 200.00, costs of 108.50".
std::string came_in(const book::Sale& sale, const answers::MovedThrough& through, const std::string& as_said,
                    const Currency& currency) {
  Money costs = sale.commission;
  for (const book::NamedAmount& cost : sale.costs) costs += cost.amount;
  std::vector<std::string> less;
  if (!is_zero(sale.deposit_used)) less.push_back("a deposit of " + sale.deposit_used.shown(currency));
  if (!is_zero(costs)) less.push_back("costs of " + costs.shown(currency));
  std::string why = less.empty() ? "" : fmt::format(": the price less {}", fmt::join(less, " and "));
  if (!is_zero(sale.tax))
    why += fmt::format("{} with {} of tax", why.empty() ? ": the price" : ",", sale.tax.shown(currency));
  const bool amount_is_said = through.in_several || through.moved.size() != 1;
  if (why.empty() || amount_is_said) return as_said + why;
  const answers::Moved& moved = through.moved.front();
  return fmt::format("{} {} {}{}", (is_negative(moved.amount) ? -moved.amount : moved.amount).shown(currency),
                     is_negative(moved.amount) ? "from" : "into", moved.purse, why);
}

int run_sell(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const Currency& currency = book.currency();
  book::Sale sale;
  sale.day = date_of(given, terminal);
  sale.vehicle = given.word(0);
  sale.price = given.word_as_money(1, currency);
  sale.purse = purse_of(given, terminal, book, "sell");
  sale.costs = named_amounts(given, "cost", currency);
  sale.tax = given.money("tax", currency).value_or(Money{});
  sale.to = given.text("to").value_or("");
  sale.odometer = odometer_of(given);
  try {
    if (const auto commission = given.text("commission")) {
      const book::Commission said =
          book::commission_of(plain_share(*commission, currency), sale.price, currency);
      sale.commission = said.amount;
      sale.commission_rate = said.rate;
    }
  } catch (const Refusal& refusal) {
    given.wrong(std::string("--commission: ") + refusal.what());
  }
  sale.deposit_used =
      given.money("deposit-used", currency).value_or(book::deposit_to_use(book, sale.vehicle, sale.price));
  book::EntryId entry = 0;
  return record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        entry = record(recording, sale);
        const auto figures = book::figures_of(book, sale.vehicle, terminal.today);
        recording.remarks().push_back(fmt::format(
            "cash profit {}, after own hours {}{}", figures.cash_profit->shown(currency),
            figures.profit->shown(currency), is_negative(*figures.cash_profit) ? ": a loss" : ""));
        return entry;
      },
      Done([&](const std::string& through) {
        const std::string came = came_in(sale, answers::through_purses(book, entry), through, currency);
        return fmt::format("sold {} for {}{}{}", sale.vehicle, sale.price.shown(currency),
                           came.empty() ? "" : ", ", came);
      }));
}
}  // namespace

extern const Command sell;
const Command sell{{"sell",
                    "TAG PRICE",
                    "a vehicle sold",
                    "nonrunner sell pip 2950 --cost advert=25 --date 2026-05-02",
                    {{"cost", "NAME=AMOUNT", "a cost of selling; NAME=AMOUNT@PURSE from another purse", true},
                     {"commission", "RATE", "a share of the price such as 0.03 or 3%, or an amount"},
                     {"deposit-used", "AMOUNT", "of a deposit that is held (else all of it)"},
                     {"tax", "AMOUNT", "sales tax collected on top of the price"},
                     {"to", "NAME", "who bought it"},
                     {"odometer", "N", "what it stands at"},
                     purse_option(),
                     date_option(),
                     new_option()},
                    true,
                    ""},
                   run_sell};

}  // namespace nonrunner::commands
