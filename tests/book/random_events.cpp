#include "book/random_events.h"

#include <fmt/format.h>

#include <algorithm>

namespace second {

namespace {

const std::vector<std::string> suppliers = {"Cleave Yard", "Harrow Wholesale", "Millgate Parts"};
const std::vector<std::string> items = {"gloves", "oil", "brake cleaner", "hub cap"};
const std::vector<std::string> tools = {"puller", "press", "scan tool"};
const std::vector<std::string> operations = {"brakes", "cooling", "pulling parts"};

std::string money(Number minor) {
  return fmt::format("{}{}.{:02}", minor < 0 ? "-" : "", std::abs(minor) / 100, std::abs(minor) % 100);
}
std::string thousandths(Number number) {
  return fmt::format("{}{}.{:03}", number < 0 ? "-" : "", std::abs(number) / 1000, std::abs(number) % 1000);
}
std::string fine(Number number) {
  return fmt::format("{}{}.{:05}", number < 0 ? "-" : "", std::abs(number) / 100'000,
                     std::abs(number) % 100'000);
}
std::string in_quotes(const std::string& text) { return '"' + text + '"'; }

std::string shares(const std::vector<Part>& parts) {
  if (parts.size() == 1) return "to = " + in_quotes(parts.front().tag);
  std::string text;
  for (const Part& part : parts)
    text += (text.empty() ? "" : ", ") + part.tag + " = " + thousandths(part.weight);
  return "share = { " + text + " }";
}

std::string line_text(const PaperLine& line) {
  if (!line.return_of.empty())
    return fmt::format("{{ return_of = {}, what = \"thing\", qty = {}, amount = {}{} }}",
                       in_quotes(line.return_of), thousandths(line.pieces), money(line.amount),
                       line.taxed ? ", taxed = true" : "");
  std::string text =
      fmt::format("id = {}, what = \"thing\", qty = {}", in_quotes(line.id), thousandths(line.pieces));
  text += line.unit_fine != 0 ? ", unit = " + fine(line.unit_fine) : ", amount = " + money(line.amount);
  if (!line.core_of.empty())
    return "{ " + text + ", core_of = " + in_quotes(line.core_of) + (line.taxed ? ", taxed = true }" : " }");
  text += ", kind = " + in_quotes(line.kind);
  if (!line.parts.empty()) text += ", " + shares(line.parts);
  if (!line.stock.empty())
    text += fmt::format(", stock = {}, gives = {}", in_quotes(line.stock), thousandths(line.gives));
  if (line.core_each != 0) text += ", core = " + money(line.core_each);
  if (line.taxed) text += ", taxed = true";
  if (line.tax_on_core) text += ", tax_on_core = true";
  return "{ " + text + " }";
}

std::string paper_text(const Paper& paper) {
  std::string text = "supplier = " + in_quotes(paper.supplier) + ", again = true", paid, lines;
  for (const auto& [purse, amount] : paper.paid)
    paid += (paid.empty() ? "" : ", ") + purse + " = " + money(amount);
  text += ", paid = { " + paid + " }, on_account = true";
  if (paper.tax != 0) text += ", tax = " + money(paper.tax);
  if (paper.shipping != 0) text += ", shipping = " + money(paper.shipping);
  if (paper.discount != 0) text += ", discount = " + money(paper.discount);
  if (!paper.itemised) text += ", itemised = false";
  if (!paper.on_paper) text += ", paper = false";
  text += fmt::format(", tools = \"{}\"", paper.lines.front().tools_kept ? "asset" : "expense");
  if (paper.replaces != 0) text += fmt::format(", replaces = {}", paper.replaces);
  for (const PaperLine& line : paper.lines) lines += (lines.empty() ? "" : ", ") + line_text(line);
  return text + ", total = " + money(paper.total) + ", line = [" + lines + "]";
}

}  // namespace

std::string RandomEvents::purse() {
  return one_of(std::vector<std::string>{"cash", "cash", "bank", "card", "yard-credit"});
}

std::string RandomEvents::any_car(std::initializer_list<const char*> states) {
  std::vector<std::string> fitting;
  for (const std::string& tag : keeper_.tags()) {
    const std::string is = keeper_.life(tag).state;
    for (const char* state : states)
      if (is == state) fitting.push_back(tag);
  }
  return fitting.empty() ? "" : one_of(fitting);
}

std::string RandomEvents::event(const std::string& word, const std::string& rest) {
  return fmt::format("{{ do = \"{}\", date = {}, {} }}", word, calendar(day_).iso(), rest);
}

Proposal RandomEvents::next(int next_entry) {
  entry_ = next_entry;
  day_ += chance(40) ? static_cast<int>(below(3)) : 0;
  for (;;) {
    const Number what = below(100);
    Proposal proposal = what < 6    ? money()
                        : what < 12 ? buy()
                        : what < 36 ? paper()
                        : what < 44 ? back()
                        : what < 56 ? work()
                        : what < 65 ? shelf()
                        : what < 75 ? part()
                        : what < 80 ? deposit()
                        : what < 86 ? sale()
                        : what < 95 ? correction()
                                    : mistake();
    if (!proposal.toml.empty()) return proposal;
  }
}

Proposal RandomEvents::money() {
  const std::string purse = this->purse();
  const Number amount = from_to(1, 90'000);
  const std::string in = fmt::format("purse = {}, amount = {}", in_quotes(purse), ::second::money(amount));
  switch (below(5)) {
    case 0:
      return {event("owner in", in), [=, this] { keeper_.owner(purse, amount); }, {}, {}};
    case 1:
      return {event("owner out", in), [=, this] { keeper_.owner(purse, -amount); }, {}, {}};
    case 2: {
      const std::string other = purse == "bank" ? "cash" : "bank";
      return {event("move", fmt::format("from = {}, to = {}, amount = {}", in_quotes(purse), in_quotes(other),
                                        ::second::money(amount))),
              [=, this] { keeper_.move(purse, other, amount); },
              {},
              {}};
    }
    case 3: {
      const std::string supplier = one_of(suppliers);
      const Number owed = keeper_.sum("owed " + supplier);
      if (owed <= 0) return {};
      const Number pays = from_to(1, owed);
      return {event("pay", fmt::format("supplier = {}, amount = {}, purse = {}", in_quotes(supplier),
                                       ::second::money(pays), in_quotes(purse))),
              [=, this] { keeper_.pay(supplier, pays, purse); },
              {},
              {}};
    }
    default: {
      const Number owed = keeper_.sum("sales tax");
      if (owed <= 0) return {};
      const Number pays = from_to(1, owed);
      return {event("sales tax paid",
                    fmt::format("amount = {}, purse = {}", ::second::money(pays), in_quotes(purse))),
              [=, this] { keeper_.sales_tax_paid(pays, purse); },
              {},
              {}};
    }
  }
}

Proposal RandomEvents::buy() {
  std::string tag = chance(40) ? any_car({"considered", "passed"}) : "";
  const bool is_new = tag.empty();
  if (is_new) tag = fmt::format("car-{}", cars_ + 1);
  if (!is_new && keeper_.car(tag).state == "considered" && chance(50)) {
    const std::string looked_at = tag;
    return {event("pass", fmt::format("vehicle = {}, why = \"rust\"", in_quotes(tag))),
            [=, this] { keeper_.pass(looked_at); },
            {},
            {}};
  }
  const std::string purse = this->purse(), fee_purse = this->purse();
  const Number price = chance(5) ? 0 : from_to(100, 200'000), fee = chance(50) ? from_to(0, 9'000) : 0;
  std::string rest = fmt::format("vehicle = {}, price = {}, purse = {}", in_quotes(tag),
                                 ::second::money(price), in_quotes(purse));
  if (fee != 0)
    rest += fmt::format(", fees = [{{ name = \"title\", amount = {}, purse = {} }}]", ::second::money(fee),
                        in_quotes(fee_purse));
  if (is_new) ++cars_;
  return {event("buy", rest), [=, this] { keeper_.buy(tag, price, purse, fee, fee_purse); }, {}, {}};
}

Proposal RandomEvents::paper() {
  Paper paper;
  paper.supplier = one_of(suppliers);
  paper.itemised = !chance(15);
  paper.on_paper = !chance(10);
  if (const std::vector<int> waiting = keeper_.quick_lines();
      paper.itemised && !waiting.empty() && chance(40))
    paper.replaces = one_of(waiting);
  const Number lines = paper.itemised ? from_to(1, 5) : 1;
  for (Number i = 0; i < lines; ++i) {
    PaperLine line;
    line.id = fmt::format("L{}.{}", entry_, i + 1);
    line.kind = one_of(std::vector<std::string>{"part", "part", "part", "consumable", "sublet", "fee",
                                                "stock", "tool", "overhead", "private"});
    if (chance(50)) line.pieces = from_to(1, 6) * 1000;
    if (chance(10)) line.pieces = from_to(1, 9'999);
    if (chance(50))
      line.unit_fine = from_to(1, 40'000) * 1000 + (chance(20) ? below(1000) : 0);
    else
      line.amount = chance(8) ? -from_to(1, 900) : from_to(0, 30'000);
    if (line.kind == "stock") {
      line.stock = one_of(items);
      line.gives = one_of(std::vector<Number>{1000, 5000, 100'000, 1500});
      line.amount = std::abs(line.amount);
    } else if (line.kind != "tool" && line.kind != "overhead" && line.kind != "private") {
      for (Number car = chance(15) ? from_to(2, 3) : 1; car > 0; --car) {
        std::string tag = any_car({"considered", "owned", "owned", "owned", "sold", "finished", "passed"});
        if (tag.empty() || chance(3)) tag = fmt::format("car-{}", ++cars_);
        if (std::none_of(line.parts.begin(), line.parts.end(),
                         [&](const Part& part) { return part.tag == tag; }))
          line.parts.push_back({tag, one_of(std::vector<Number>{1000, 1000, 2000, 500, 3333})});
      }
      if (line.kind == "part" && chance(25)) line.core_each = from_to(1, 5'000);
      if (line.core_each != 0) line.amount = std::abs(line.amount);
      line.tax_on_core = line.core_each != 0 && chance(40);
    }
    line.taxed = chance(60);
    paper.lines.push_back(line);
  }
  if (const auto due = keeper_.cores_due(); paper.itemised && !due.empty() && chance(15)) {
    const auto [id, deposit] = one_of(due);  // an old part handed over the counter
    PaperLine line;
    line.id = fmt::format("L{}.{}", entry_, lines + 1);
    line.kind = "part";
    line.core_of = id;
    line.pieces = keeper_.lines().at(id).line.pieces - keeper_.lines().at(id).sum("core", &Back::pieces);
    line.amount = -from_to(0, deposit);
    paper.lines.push_back(line);
  }
  bool back = false;
  if (const auto lines_out = returnable(); paper.itemised && !lines_out.empty() && chance(20)) {
    const std::string id = one_of(lines_out);
    const LineKept& kept = keeper_.lines().at(id);
    PaperLine line;
    line.return_of = id;
    line.pieces = chance(60) ? kept.pieces_left() : from_to(1, kept.pieces_left());
    line.amount = -from_to(0, std::max<Number>(kept.goods_of(line.pieces), 0));
    line.taxed = chance(50);
    const Number used = half_away(line.pieces * kept.line.gives, 1000);
    back = kept.line.kind != "stock" || (used > 0 && keeper_.pieces(kept.line.stock) >= used);
    if (back) paper.lines.push_back(line);
  }
  for (const bool kept = chance(30); PaperLine & line : paper.lines) line.tools_kept = kept;
  Number tax_base = 0;
  for (const PaperLine& line : paper.lines) {
    const Number amount =
        line.unit_fine != 0 ? half_away(line.unit_fine * line.pieces, 1'000'000) : line.amount;
    const Number core = half_away(line.core_each * line.pieces, 1000);
    const Number base = (line.taxed ? amount : 0) + (line.tax_on_core ? core : 0);
    tax_base += base;
    paper.total += amount + core;
  }
  if (tax_base > 0 && chance(70)) paper.tax = tax_base * 7 / 100;
  if (paper.itemised && chance(15)) paper.shipping = from_to(1, 2'000);
  if (paper.itemised && chance(10)) paper.discount = from_to(1, 500);
  paper.total += paper.tax + paper.shipping - paper.discount;
  // A core handed over takes its share of shipping and discount only where everything is free: keep those
  // apart.
  if (std::any_of(paper.lines.begin(), paper.lines.end(),
                  [](const PaperLine& line) { return !line.core_of.empty() || !line.return_of.empty(); })) {
    paper.total -= paper.shipping - paper.discount;
    paper.shipping = paper.discount = 0;
  }
  const std::string first = purse(), second_purse = first == "bank" ? "cash" : "bank";
  const Number on_account = chance(15) && paper.total > 0 ? from_to(1, paper.total) : 0;
  const Number from_second = chance(15) ? below(std::max<Number>(paper.total - on_account, 1)) : 0;
  paper.paid.emplace_back(first, paper.total - on_account - from_second);
  if (from_second != 0) paper.paid.emplace_back(second_purse, from_second);
  const auto fate = paper.replaces != 0 || back ? Proposal::Fate::either : Proposal::Fate::accepted;
  return {event("receipt", paper_text(paper)), [=, this] { keeper_.receipt(paper); }, fate, ""};
}

std::vector<std::string> RandomEvents::returnable() const {
  std::vector<std::string> lines;
  for (const auto& [id, kept] : keeper_.lines())
    if (kept.counts() && kept.line.core_of.empty() && kept.line.amount > 0 && kept.pieces_left() > 0 &&
        kept.day + 60 > day_)
      lines.push_back(id);
  return lines;
}

// Says where the money goes: into a purse, some of it off what is owed, or nothing, as it goes by itself.
std::string RandomEvents::money_back(const std::string& id, Number amount, Keeper::Where& where) {
  const Number owed = std::max<Number>(keeper_.sum("owed " + keeper_.paper_of(id).supplier), 0);
  if (chance(40)) {
    where = keeper_.money_back(id, amount);
    if (where.off == amount || !where.purse.empty()) return "";
  }
  where = {chance(20) ? from_to(0, std::min(amount, owed)) : 0, purse()};
  return fmt::format(", purse = {}", in_quotes(where.purse)) +
         (where.off != 0 ? ", on_account = " + ::second::money(where.off) : "");
}

Proposal RandomEvents::back() {
  Keeper::Where where;
  if (chance(50)) {
    const auto due = keeper_.cores_due();
    if (due.empty()) return {};
    const std::string id = one_of(due).first;
    const LineKept& kept = keeper_.lines().at(id);
    const Number out = kept.line.pieces - kept.sum("core", &Back::pieces);
    const Number pieces = chance(60) ? out : from_to(1, out);
    const auto up_to = [&](Number count) {
      return count == kept.line.pieces ? kept.deposit() : half_away(kept.deposit() * count, kept.line.pieces);
    };
    const Number step = up_to(kept.line.pieces - out + pieces) - up_to(kept.line.pieces - out);
    const Number deposit = pieces == out ? kept.core_due() : std::min(step, kept.core_due());
    const Number received = chance(60) ? deposit : from_to(0, deposit);
    const std::string to = money_back(id, received, where);
    return {event("core back", fmt::format("line = {}, qty = {}, amount = {}{}", in_quotes(id),
                                           thousandths(pieces), ::second::money(received), to)),
            [=, this] { keeper_.core_back(id, pieces, received, where); },
            {},
            {}};
  }
  const std::vector<std::string> returnable = this->returnable();
  if (returnable.empty()) return {};
  const std::string id = one_of(returnable);
  const LineKept& kept = keeper_.lines().at(id);
  const Number pieces = chance(60) ? kept.pieces_left() : from_to(1, kept.pieces_left());
  const Number used = half_away(pieces * kept.line.gives, 1000);
  if (kept.line.kind == "stock" && (used == 0 || keeper_.pieces(kept.line.stock) < used)) return {};
  const Number goods = from_to(0, std::max<Number>(kept.goods_of(pieces), 0));
  const Number tax = from_to(0, std::max<Number>(kept.tax_of(pieces), 0));
  const Number restocking = chance(30) ? from_to(0, goods + tax) : 0;
  const std::string to = money_back(id, goods + tax - restocking, where);
  return {event("return", fmt::format("line = {}, qty = {}, goods = {}, tax = {}, restocking = {}{}",
                                      in_quotes(id), thousandths(pieces), ::second::money(goods),
                                      ::second::money(tax), ::second::money(restocking), to)),
          [=, this] { keeper_.goods_back(id, pieces, goods, tax, restocking, where); },
          kept.line.kind == "stock" ? Proposal::Fate::either : Proposal::Fate::accepted,
          {}};
}

Proposal RandomEvents::work() {
  std::string tag = any_car({"considered", "owned", "owned", "owned", "sold", "passed", "finished"});
  if (tag.empty() || chance(10)) tag = fmt::format("car-{}", ++cars_);
  const std::string car = "vehicle = " + in_quotes(tag);
  const std::string purse = this->purse();
  switch (below(6)) {
    case 0: {
      const std::string other = any_car({"owned", "sold", "considered"});
      const Number distance = from_to(1, 90'000);
      std::vector<Part> parts = {{tag, from_to(1, 3) * 1000}};
      if (!other.empty() && other != tag && chance(30)) parts.push_back({other, from_to(1, 3) * 1000});
      const std::string cars = parts.size() == 1 ? car : shares(parts);
      return {event("trip", cars + ", distance = " + thousandths(distance) + ", why = \"parts\""),
              [=, this] { keeper_.trip(parts, distance); },
              {},
              {}};
    }
    case 1:
      return {event("finding", car + ", text = \"bracket bent\""), [] {}, {}, {}};
    case 2: {
      const Number paid = from_to(1, 6'000), rate = from_to(100'000, 4'000'000);
      return {event("hours", fmt::format("{}, operation = {}, paid = {}, rate = {}, purse = {}", car,
                                         in_quotes(one_of(operations)), thousandths(paid), fine(rate),
                                         in_quotes(purse))),
              [=, this] { keeper_.hours(tag, 0, paid, rate, purse); },
              {},
              {}};
    }
    default: {
      const Number own = from_to(1, 32) * 250;
      return {event("hours", fmt::format("{}, operation = {}, own = {}", car, in_quotes(one_of(operations)),
                                         thousandths(own))),
              [=, this] { keeper_.hours(tag, own, 0, 0, ""); },
              {},
              {}};
    }
  }
}

Proposal RandomEvents::shelf() {
  const std::string item = one_of(items);
  const Number there = keeper_.pieces(item);
  const std::string tag = any_car({"owned", "owned", "considered", "sold", "passed"});
  if (tag.empty()) return {};
  switch (below(6)) {
    case 0: {
      if (keeper_.places("shelf").empty() || there == 0) return {};
      const Number found = chance(20) ? 0 : from_to(0, there + there / 10);
      return {event("count", fmt::format("stock = {}, qty = {}", in_quotes(item), thousandths(found))),
              [=, this] { keeper_.count(item, found); },
              Proposal::Fate::either,  // another count of that day may have found something else
              {}};
    }
    case 1: {
      std::vector<std::string> fitting;
      for (const auto& [id, kept] : keeper_.lines()) {
        bool carried = kept.counts() && !kept.line.parts.empty() && kept.line.core_of.empty() &&
                       kept.pieces_left() > 0 && kept.cost() >= 0;
        for (const Part& part : kept.line.parts) {
          const Car car = keeper_.car(part.tag);
          carried =
              carried && (car.carried >= kept.cost() || (car.state != "owned" && car.state != "considered"));
        }
        if (carried && kept.day + 60 > day_) fitting.push_back(id);
      }
      if (fitting.empty()) return {};
      const std::string id = one_of(fitting);
      const Number left = keeper_.lines().at(id).pieces_left(), pieces = chance(50) ? left : from_to(1, left);
      return {event("shelve", fmt::format("line = {}, stock = {}, qty = {}", in_quotes(id), in_quotes(item),
                                          thousandths(pieces))),
              [=, this] { keeper_.shelve_line(id, item, pieces); },
              {},
              {}};
    }
    case 2: {
      const Number carried = keeper_.car(tag).carried;
      if (carried <= 0) return {};
      const Number amount = from_to(0, std::min<Number>(carried, 5'000)), pieces = from_to(1, 4) * 1000;
      return {event("shelve", fmt::format("vehicle = {}, what = \"lamp\", amount = {}, stock = {}, qty = {}",
                                          in_quotes(tag), ::second::money(amount), in_quotes(item),
                                          thousandths(pieces))),
              [=, this] { keeper_.shelve(tag, item, pieces, amount); },
              {},
              {}};
    }
    default: {
      if (there == 0) return {};
      const Number pieces = chance(10) ? there : from_to(1, std::min<Number>(there, 5'000));
      return {event("draw", fmt::format("vehicle = {}, stock = {}, qty = {}", in_quotes(tag), in_quotes(item),
                                        thousandths(pieces))),
              [=, this] { keeper_.draw(tag, item, pieces); },
              Proposal::Fate::either,  // a count of that day comes after it
              {}};
    }
  }
}

Proposal RandomEvents::part() {
  const std::string purse = this->purse();
  const std::string tag = any_car({"owned", "owned", "sold", "finished", "considered", "passed"});
  if (tag.empty()) return {};
  const Car car = keeper_.car(tag);
  const std::string vehicle = "vehicle = " + in_quotes(tag);
  switch (below(5)) {
    case 0: {
      const std::string to = any_car({"owned", "sold", "considered"});
      if (const Number in_tools = keeper_.sum("tools") + keeper_.sum("tools kept");
          !to.empty() && in_tools > 0 && chance(30)) {
        const Number amount = from_to(1, std::min<Number>(in_tools, 9'000));
        return {event("transfer", fmt::format("from = \"tools\", to = {}, what = \"jack\", amount = {}",
                                              in_quotes(to), ::second::money(amount))),
                [=, this] { keeper_.transfer("tools", to, amount); },
                {},
                {}};
      }
      if (const Number kept = keeper_.sum("tools kept"); kept > 0 && chance(10))
        return {event("transfer", "from = \"tools\", to = \"overhead\", what = \"worn out\", amount = " +
                                      ::second::money(kept)),
                [=, this] { keeper_.transfer("tools", "overhead", kept); },
                {},
                {}};
      if (to.empty() || to == tag || (car.carried <= 0 && car.state != "sold")) return {};
      const Number amount = from_to(1, car.state == "sold" ? 3'000 : std::min<Number>(car.carried, 9'000));
      return {event("transfer", fmt::format("from = {}, to = {}, what = \"starter\", amount = {}",
                                            in_quotes(tag), in_quotes(to), ::second::money(amount))),
              [=, this] { keeper_.transfer(tag, to, amount); },
              {},
              {}};
    }
    case 1: {
      const Number recovered = keeper_.sum("recovered " + tag);
      if (recovered <= 0) return {};
      const Number amount = from_to(1, recovered);
      return {event("recover back", fmt::format("{}, what = \"seat\", amount = {}, purse = {}", vehicle,
                                                ::second::money(amount), in_quotes(purse))),
              [=, this] { keeper_.recover_back(tag, amount, purse); },
              {},
              {}};
    }
    default: {
      const Number amount = chance(15) ? from_to(1, 250'000) : from_to(1, 12'000);
      return {event("recover", fmt::format("{}, what = \"seat\", amount = {}, purse = {}", vehicle,
                                           ::second::money(amount), in_quotes(purse))),
              [=, this] { keeper_.recover(tag, amount, purse); },
              {},
              {}};
    }
  }
}

Proposal RandomEvents::deposit() {
  const std::string purse = this->purse();
  if (chance(40)) {
    const std::string tool = one_of(tools);
    const Number out = keeper_.sum("tool deposit " + tool);
    const bool back = out > 0 && chance(60);
    const Number amount = back ? from_to(1, out) : from_to(1, 9'000);
    const Number lost = back && chance(30) ? out - amount : 0;  // it never comes back
    return {
        event(back ? "tool deposit back" : "tool deposit",
              fmt::format("what = {}, amount = {}, purse = {}{}", in_quotes(tool), ::second::money(amount),
                          in_quotes(purse), lost != 0 ? ", kept = " + ::second::money(lost) : "")),
        [=, this] {
          keeper_.tool_deposit(tool, back ? -amount : amount, purse);
          if (lost != 0) keeper_.deposit_lost(tool, lost);
        },
        {},
        {}};
  }
  const std::string tag = any_car({"owned", "owned", "sold"});
  if (tag.empty()) return {};
  const Number held = keeper_.sum("held " + tag);
  const std::string vehicle = "vehicle = " + in_quotes(tag);
  if (held > 0 && chance(60)) {
    const Number amount = from_to(1, held);
    const std::string what =
        fmt::format("{}, amount = {}, purse = {}", vehicle, ::second::money(amount), in_quotes(purse));
    if (chance(50))
      return {event("deposit kept", what), [=, this] { keeper_.deposit_kept(tag, amount); }, {}, {}};
    return {event("deposit back", what), [=, this] { keeper_.deposit_back(tag, amount, purse); }, {}, {}};
  }
  const Number amount = from_to(1, 30'000);
  return {event("buyer deposit", fmt::format("{}, amount = {}, purse = {}", vehicle, ::second::money(amount),
                                             in_quotes(purse))),
          [=, this] { keeper_.buyer_deposit(tag, amount, purse); },
          {},
          {}};
}

Proposal RandomEvents::sale() {
  const std::string tag = any_car({"owned"}), purse = this->purse();
  if (tag.empty()) return {};
  const std::string vehicle = "vehicle = " + in_quotes(tag);
  switch (below(6)) {
    case 5: {
      const Number amount = from_to(0, 100'000);
      return {event("part out", vehicle + ", still_brings = " + ::second::money(amount)),
              [=, this] { keeper_.part_out(tag, amount); },
              {},
              {}};
    }
    case 0:
      return {event("advertised", vehicle + ", price = " + ::second::money(from_to(1, 400'000))),
              [] {},
              Proposal::Fate::either,  // one in pieces is not sold whole
              {}};
    case 1: {
      const Number amount = from_to(1, 4'000);
      return {event("selling cost", fmt::format("{}, what = \"advert\", amount = {}, purse = {}", vehicle,
                                                ::second::money(amount), in_quotes(purse))),
              [=, this] { keeper_.selling_cost(tag, amount, purse); },
              {},
              {}};
    }
    case 2:
      return {event("write off", vehicle), [=, this] { keeper_.write_off(tag); }, {}, {}};
    default: {
      const Number price = chance(5) ? 0 : from_to(100, 400'000), tax = chance(30) ? price * 6 / 100 : 0;
      const Number used = chance(70) ? std::min(keeper_.sum("held " + tag), price) : 0;
      const Number cost = chance(40) ? from_to(0, 5'000) : 0;
      // A share of the price; a rate of three decimals of it rounded half away from zero.
      const Number rate = chance(30) ? from_to(1, 99) : 0, commission = half_away(price * rate, 1000);
      std::string rest =
          fmt::format("{}, price = {}, purse = {}", vehicle, ::second::money(price), in_quotes(purse));
      if (tax != 0) rest += ", tax = " + ::second::money(tax);
      if (used != 0) rest += ", deposit_used = " + ::second::money(used);
      if (cost != 0)
        rest += fmt::format(", costs = [{{ name = \"valet\", amount = {} }}]", ::second::money(cost));
      if (rate != 0) rest += ", commission = " + thousandths(rate);
      return {event("sell", rest),
              [=, this] { keeper_.sell(tag, price, tax, used, cost + commission, rate, purse); },
              {},
              {}};
    }
  }
}

Proposal RandomEvents::correction() {
  if (entry_ < 3) return {};
  const int entry = static_cast<int>(from_to(std::max(1, entry_ - 25), entry_ - 1));
  return {event("void", fmt::format("entry = {}, why = \"typed twice\"", entry)),
          [=, this] { keeper_.take_back(entry); }, Proposal::Fate::either, "void: "};
}

// What a careful book does not take.
Proposal RandomEvents::mistake() {
  const auto refused = [&](const std::string& word, const std::string& rest) {
    return Proposal{event(word, rest), [] {}, Proposal::Fate::refused, word + ": "};
  };
  const std::string owned = any_car({"owned"}), sold = any_car({"sold"}), item = one_of(items);
  switch (below(8)) {
    case 0:
      return sold.empty()
                 ? Proposal{}
                 : refused("sell", fmt::format("vehicle = \"{}\", price = 1, purse = \"cash\"", sold));
    case 1:
      return owned.empty()
                 ? Proposal{}
                 : refused("buy", fmt::format("vehicle = \"{}\", price = 1, purse = \"cash\"", owned));
    case 2:
      return keeper_.pieces(item) == 0 || owned.empty()
                 ? Proposal{}
                 : refused("draw", fmt::format("vehicle = \"{}\", stock = \"{}\", qty = {}", owned, item,
                                               thousandths(keeper_.pieces(item) + 1)));
    case 3: {
      for (const auto& [id, kept] : keeper_.lines())
        if (kept.counts() && kept.line.core_of.empty() && kept.pieces_left() > 0 && chance(10))
          return refused("return", fmt::format("line = \"{}\", qty = {}, goods = 0, purse = \"cash\"", id,
                                               thousandths(kept.pieces_left() + 1)));
      return {};
    }
    case 4: {
      for (const auto& [id, due] : keeper_.cores_due())
        return refused("core back", fmt::format("line = \"{}\", qty = 0.001, amount = {}, purse = \"cash\"",
                                                id, ::second::money(due + 1)));
      return {};
    }
    case 5:
      return owned.empty() || keeper_.car(owned).carried < 0
                 ? Proposal{}
                 : refused("transfer",
                           fmt::format("from = \"{}\", to = \"elsewhere\", what = \"x\", amount = {}", owned,
                                       // More than was put into it, whatever was recovered since.
                                       ::second::money(std::max<Number>(keeper_.car(owned).cost, 0) + 1)));
    case 6:
      return refused("receipt", fmt::format("supplier = \"Harrow Wholesale\", paid = \"cash\", total = 2.00, "
                                            "line = [{{ what = \"x\", amount = 1.99, "
                                            "kind = \"overhead\" }}]"));
    default:
      return owned.empty() ? Proposal{}
                           : refused("deposit back",
                                     fmt::format("vehicle = \"{}\", amount = {}, purse = \"cash\"", owned,
                                                 ::second::money(keeper_.sum("held " + owned) + 1)));
  }
}

}  // namespace second
