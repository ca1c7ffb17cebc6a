#include "book/dated_words.h"

#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <stdexcept>

namespace dated {

namespace {

using namespace std::chrono;
const sys_days first_day = sys_days(year(2024) / January / 1);

std::string quoted(const std::string& text) { return '"' + text + '"'; }

std::string shares(const std::vector<Part>& parts, const std::string& one) {
  if (parts.size() == 1) return one + " = " + quoted(parts.front().tag);
  std::string text;
  for (const Part& part : parts)
    text += (text.empty() ? "" : ", ") + part.tag + " = " + thousandths(part.weight);
  return "share = { " + text + " }";
}

std::string line_text(const Line& line) {
  std::string text =
      "{ what = \"thing\", qty = " + thousandths(line.pieces) + ", amount = " + money(line.amount);
  if (line.taxed) text += ", taxed = true";
  if (!line.return_of.empty()) return text + ", return_of = " + quoted(line.return_of) + " }";
  text += ", id = " + quoted(line.id);
  if (!line.core_of.empty())
    return text + ", core_of = " + quoted(line.core_of) +
           (line.share ? ", deposit = " + money(*line.share) : "") + " }";
  text += ", kind = " + quoted(line.kind);
  if (!line.parts.empty()) text += ", " + shares(line.parts, "to");
  if (!line.stock.empty()) text += ", stock = " + quoted(line.stock) + ", gives = " + thousandths(line.gives);
  if (line.core_each != 0) text += ", core = " + money(line.core_each);
  if (line.tax_on_core) text += ", tax_on_core = true";
  return text + " }";
}

std::string costs_text(const std::string& key, const std::vector<Named>& costs, const std::string& purse) {
  std::string text;
  for (const Named& cost : costs)
    text +=
        fmt::format("{}{{ name = {}, amount = {}, purse = {} }}", text.empty() ? "" : ", ", quoted(cost.name),
                    money(cost.amount), quoted(cost.purse.empty() ? purse : cost.purse));
  return costs.empty() ? "" : ", " + key + " = [" + text + "]";
}

std::string receipt_text(const Event& paper, const EntryOf& entry) {
  std::string paid, lines, text = ", supplier = " + quoted(paper.supplier) + ", again = true";
  for (const auto& [purse, amount] : paper.paid)
    paid += (paid.empty() ? "" : ", ") + purse + " = " + money(amount);
  Number unpaid = paper.total;
  for (const auto& each : paper.paid) unpaid -= each.second;
  if (!paid.empty()) text += ", paid = { " + paid + " }";
  if (unpaid != 0) text += ", on_account = true";
  if (paper.tax != 0) text += ", tax = " + money(paper.tax);
  if (paper.shipping != 0) text += ", shipping = " + money(paper.shipping);
  if (paper.discount != 0) text += ", discount = " + money(paper.discount);
  if (!paper.itemised) text += ", itemised = false";
  if (!paper.on_paper) text += ", paper = false";
  text += fmt::format(", tools = \"{}\"", paper.lines.front().tools_kept ? "asset" : "expense");
  if (!paper.names.empty()) text += fmt::format(", replaces = {}", entry(paper.names));
  for (const Line& line : paper.lines) lines += (lines.empty() ? "" : ", ") + line_text(line);
  return text + ", total = " + money(paper.total) + ", line = [" + lines + "]";
}

std::string back_text(const Event& back) {
  std::string text = fmt::format(", line = {}, qty = {}, purse = {}, on_account = {}", quoted(back.line),
                                 thousandths(back.pieces), quoted(back.purse), money(back.off));
  if (back.share) text += ", deposit = " + money(*back.share);
  if (back.word == "core back") return text + ", amount = " + money(back.amount);
  if (back.cores != 0) text += ", core = " + money(back.deposit) + ", cores = " + thousandths(back.cores);
  std::string cars;
  for (const auto& [tag, amount] : back.out_of.value_or(std::map<std::string, Number>()))
    cars += (cars.empty() ? "" : ", ") +
            fmt::format("{{ vehicle = {}, amount = {} }}", quoted(tag), money(amount));
  if (!cars.empty()) text += ", out_of = [" + cars + "]";
  return text + fmt::format(", goods = {}, tax = {}, restocking = {}", money(back.amount), money(back.tax),
                            money(back.restocking));
}

std::string shelf_text(const Event& event) {
  const std::string item = ", stock = " + quoted(event.item) + ", qty = " + thousandths(event.pieces);
  if (event.word == "count") return item;
  if (event.word == "draw") return ", vehicle = " + quoted(event.tag) + item;
  return item + ", amount = " + money(event.amount) +
         (event.line.empty() ? ", vehicle = " + quoted(event.tag) + ", what = \"thing\""
                             : ", line = " + quoted(event.line));
}

std::string void_text(const Event& event, const EntryOf& entry) {
  std::string text = fmt::format(", entry = {}, why = \"{}\"", entry(event.names),
                                 event.makes_way ? "replaced by the full paper" : "as it is"),
              names;
  if (event.makes_way) return text + ", makes_way = true";
  if (!event.later) return text;
  text += ", later = true";
  if (!event.stays) return text;
  for (const std::string& name : *event.stays) names += (names.empty() ? "" : ", ") + quoted(name);
  return text + ", stays = [" + names + "]";
}

std::string sale_text(const Event& sale) {
  std::string text = ", price = " + money(sale.amount) + ", purse = " + quoted(sale.purse);
  if (sale.tax != 0) text += ", tax = " + money(sale.tax);
  if (sale.used != 0) text += ", deposit_used = " + money(sale.used);
  if (sale.rate != 0) text += ", commission = " + thousandths(sale.rate);
  return text + costs_text("costs", sale.costs, sale.purse);
}

std::string hours_text(const Event& event) {
  std::string text = ", operation = \"cooling\"";
  if (event.own != 0) text += ", own = " + thousandths(event.own);
  if (event.paid_hours != 0)
    text += fmt::format(", paid = {}, rate = {}, purse = {}", thousandths(event.paid_hours),
                        money(event.rate_fine / 1000), quoted(event.purse));
  return text;
}

}  // namespace

int day(const std::string& iso) {
  const auto number = [&](std::size_t at, std::size_t length) {
    return static_cast<unsigned>(std::atoi(iso.substr(at, length).c_str()));
  };
  const year_month_day date(year(static_cast<int>(number(0, 4))), month(number(5, 2)),
                            std::chrono::day(number(8, 2)));
  return static_cast<int>((sys_days(date) - first_day).count());
}

std::string iso(int day) {
  const year_month_day date(first_day + days(day));
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

std::string money(Number minor) {
  return fmt::format("{}{}.{:02}", minor < 0 ? "-" : "", std::abs(minor) / 100, std::abs(minor) % 100);
}

std::string thousandths(Number number) {
  return fmt::format("{}{}.{:03}", number < 0 ? "-" : "", std::abs(number) / 1000, std::abs(number) % 1000);
}

std::string new_amount(const Event& correction) {
  if (correction.what == "distance") return thousandths(correction.amount);
  return correction.pieces != 0 ? thousandths(correction.pieces) : money(correction.amount);
}

std::string text_of(const Event& event, const EntryOf& entry) {
  const std::string& word = event.word;
  const std::string vehicle = ", vehicle = " + quoted(event.tag), purse = ", purse = " + quoted(event.purse),
                    amount = money(event.amount),
                    begins = fmt::format("{{ do = {}, date = {}", quoted(word), iso(event.day));
  const std::string paid = ", amount = " + amount + purse;
  std::string text;
  if (word == "buyer deposit" || word == "deposit kept" || word == "deposit back")
    text = vehicle + paid;
  else if (word == "recover" || word == "recover back" || word == "selling cost")
    text = vehicle + paid + ", what = \"thing\"";
  else if (word == "owner in" || word == "owner out" || word == "sales tax paid")
    text = paid;
  else if (word == "move")
    text = ", from = " + quoted(event.purse) + ", to = " + quoted(event.to) + ", amount = " + amount;
  else if (word == "pay")
    text = ", supplier = " + quoted(event.supplier) + paid;
  else if (word == "tool deposit" || word == "tool deposit back")
    text = ", what = " + quoted(event.what) + paid + (event.kept != 0 ? ", kept = " + money(event.kept) : "");
  else if (word == "buy")
    text = vehicle + ", price = " + amount + purse + costs_text("fees", event.costs, event.purse);
  else if (word == "pass")
    text = vehicle + ", why = \"rust\"";
  else if (word == "write off")
    text = vehicle;
  else if (word == "part out")
    text = vehicle + ", still_brings = " + amount;
  else if (word == "advertised")
    text = vehicle + ", price = " + amount;
  else if (word == "sell")
    text = vehicle + sale_text(event);
  else if (word == "receipt")
    text = receipt_text(event, entry);
  else if (word == "return" || word == "core back")
    text = back_text(event);
  else if (word == "draw" || word == "count" || word == "shelve")
    text = shelf_text(event);
  else if (word == "transfer")
    text = fmt::format(", from = {}, to = {}, what = \"thing\", amount = {}", quoted(event.tag),
                       quoted(event.to), amount) +
           (event.line.empty() ? "" : ", line = " + quoted(event.line));
  else if (word == "hours")
    text = vehicle + hours_text(event);
  else if (word == "trip")
    text = ", " + shares(event.parts, "vehicle") + ", distance = " + thousandths(event.amount) +
           ", why = \"parts\"";
  else if (word == "void")
    text = void_text(event, entry);
  else if (word == "correct")  // no event of a file: what is put right is entered anew
    text = fmt::format(", entry = {}, amount = {}", entry(event.names), new_amount(event));
  else
    throw std::logic_error("no words for the event \"" + word + "\"");
  return begins + text + " }";
}

}  // namespace dated
