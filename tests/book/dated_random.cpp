#include "book/dated_random.h"

#include <algorithm>
#include <set>

namespace dated {

namespace {

const std::vector<std::string> tags = {"dunlin", "osprey", "plover", "teal", "wren"};
const std::vector<std::string> items = {"gloves", "oil"};
const std::vector<std::string> suppliers = {"Cleave Yard", "Harrow Wholesale"};
const std::vector<std::string> tools = {"puller", "press"};
const std::set<std::string> ends = {"pass", "sell", "write off"};
// What turns a car's life: told in this order whatever else is shuffled.
const std::set<std::string> turns = {"buy", "pass", "sell", "write off", "part out", "advertised"};

// What an event takes something from, of which there is only so much.
std::set<std::string> takes_from(const Event& event, const std::map<std::string, LineNow>& lines) {
  std::set<std::string> all;
  const auto line = [&](const std::string& id) {
    if (id.empty()) return;
    all.insert("line " + id);
    const auto found = lines.find(id);
    if (found == lines.end()) return;
    if (!found->second.line.stock.empty()) all.insert("item " + found->second.line.stock);
    if (event.off != 0) all.insert("owed to " + found->second.supplier);
  };
  // What goes back comes off the cars, of which nothing may be left but what parts were moved out.
  const auto cars = [&](const std::string& id) {
    const auto found = lines.find(id);
    if (found == lines.end()) return;
    for (const Part& part : found->second.line.parts) all.insert("put into " + part.tag);
  };
  line(event.line);
  if (event.word == "return") cars(event.line);
  for (const auto& each : event.out_of.value_or(std::map<std::string, Number>()))
    all.insert("put into " + each.first);
  for (const Line& each : event.lines) {
    line(each.core_of);
    line(each.return_of);
    cars(each.return_of);
  }
  const std::string& word = event.word;
  if (word == "draw" || word == "count") all.insert("item " + event.item);
  if (word == "deposit kept" || word == "deposit back" || event.used != 0)
    all.insert("held for " + event.tag);
  if (word == "recover back") all.insert("recovered from " + event.tag);
  if (word == "transfer" || word == "shelve") all.insert("put into " + event.tag);
  if (word == "pay") all.insert("owed to " + event.supplier);
  if (word == "sales tax paid") all.insert(word);
  if (word == "tool deposit back") all.insert("out for " + event.what);
  return all;
}

// What an event gives something to, so that there is less where it is taken back.
std::set<std::string> gives_to(const Event& event) {
  std::set<std::string> all;
  for (const Line& each : event.lines) {
    if (!each.stock.empty()) all.insert("item " + each.stock);
    for (const Part& part : each.parts) all.insert("put into " + part.tag);
  }
  const std::string& word = event.word;
  if (word == "receipt") all.insert("owed to " + event.supplier);
  if (word == "shelve") all.insert("item " + event.item);
  if (word == "buyer deposit") all.insert("held for " + event.tag);
  if (word == "recover") all.insert("recovered from " + event.tag);
  if (word == "buy" || word == "draw" || word == "hours") all.insert("put into " + event.tag);
  if (word == "transfer") all.insert("put into " + event.to);
  if (word == "sell") all.insert("sales tax paid");
  if (word == "tool deposit") all.insert("out for " + event.what);
  return all;
}

}  // namespace

std::string RandomStory::purse() { return one_of(std::vector<std::string>{"cash", "cash", "bank", "card"}); }

std::string RandomStory::a_car(const std::string& states) {
  std::vector<std::string> fitting;
  for (const std::string& tag : tags)
    if (states.find(now_.car(tag, 0).state) != std::string::npos) fitting.push_back(tag);
  return fitting.empty() ? "" : one_of(fitting);
}

std::string RandomStory::a_line(bool (*fits)(const LineNow&)) {
  std::vector<std::string> fitting;
  for (const auto& [id, line] : now_.lines)
    if (fits(line)) fitting.push_back(id);
  return fitting.empty() ? "" : one_of(fitting);
}

Event RandomStory::made(const std::string& word, const std::string& tag, Number amount) {
  Event event;
  event.word = word;
  event.day = day_;
  event.name = "e" + std::to_string(++made_);
  event.tag = tag;
  event.amount = amount;
  event.purse = purse();
  event.what = "thing";
  return event;
}

Story RandomStory::tell(int events) {
  story_ = {};
  story_.parts.resize(1);
  story_.keeper.hour = 2000;
  now_ = {};
  day_ = static_cast<int>(from_to(0, 30));
  const int least = chance(50) ? static_cast<int>(from_to(200, 420)) : never;
  for (int taken = 0; taken < events;) {
    if (story_.closings.empty() && day_ >= least) {
      const int closed = day_ - static_cast<int>(below(40));
      story_.closings.push_back(closed);
      story_.keeper.close(closed);
      story_.parts.emplace_back();
    }
    const Event event = propose();
    if (event.word.empty() || !take(event)) continue;
    ++taken;
    if (!chance(40)) day_ += static_cast<int>(chance(50) ? below(3) : below(30));
    now_ = story_.keeper.at(day_);
  }
  story_.last = day_;
  return story_;
}

// Into the story where it is possible on every day.
bool RandomStory::take(const Event& event) {
  Bookkeeper& keeper = story_.keeper;
  int from = std::max(event.day, keeper.first_open_day());
  for (const std::string& name : {event.names})
    if (const Counted* named = keeper.find(name)) from = std::min(from, named->from);
  keeper.type(event);
  if (!keeper.fault(from).empty()) {
    keeper.forget_last();
    return false;
  }
  Told told{event, story_.parts.back().size(), {}};
  link(told);
  story_.parts.back().push_back(told);
  return true;
}

// What has to be typed before it, of its own part: what it names, and the car's life up to here.
void RandomStory::link(Told& told) {
  const auto& part = story_.parts.back();
  std::set<std::string> names = {told.event.names, told.event.line};
  for (const Line& line : told.event.lines) {
    names.insert(line.core_of);
    names.insert(line.return_of);
  }
  names.erase("");
  const auto turned = [&](const Event& event) -> std::string {
    if (turns.contains(event.word)) return event.tag;
    const bool changes = event.word == "void" || event.word == "correct";
    const Counted* named = changes ? story_.keeper.find(event.names) : nullptr;
    return named && turns.contains(named->event.word) ? named->event.tag : "";
  };
  // What was taken back had to be there for what named its lines, even if that was taken back as well.
  if (const Counted* voided = story_.keeper.find(told.event.names))
    for (const Line& line : voided->event.lines) names.insert(line.id);
  const auto calls_one = [&](const Event& event) {
    return names.contains(event.line) ||
           std::any_of(event.lines.begin(), event.lines.end(), [&](const Line& line) {
             return names.contains(line.core_of) || names.contains(line.return_of);
           });
  };
  const std::string car = turned(told.event);
  auto takes = takes_from(told.event, now_.lines);
  if (const Counted* named = told.event.word == "correct" ? story_.keeper.find(told.event.names) : nullptr) {
    takes.merge(takes_from(named->event, now_.lines));
    takes.merge(gives_to(named->event));
  }
  // What was free to take again only since the other was taken back, or was less since then.
  const auto took_the_same = [&](const Event& earlier) {
    const bool changes = earlier.word == "void" || earlier.word == "correct";
    const Counted* named = changes ? story_.keeper.find(earlier.names) : nullptr;
    if (!named) return false;
    auto took = takes_from(named->event, now_.lines);
    took.merge(gives_to(named->event));
    return std::any_of(took.begin(), took.end(),
                       [&](const std::string& each) { return takes.contains(each); });
  };
  for (std::size_t i = 0; i < part.size(); ++i) {
    const Event& earlier = part[i].event;
    const bool named = names.contains(earlier.name) ||
                       std::any_of(earlier.lines.begin(), earlier.lines.end(),
                                   [&](const Line& line) { return names.contains(line.id); });
    // What was taken back may have rested on what is taken back after it.
    const bool both_void = !told.event.names.empty() && !earlier.names.empty();
    // What was put right is named as it is now, and so are its lines.
    const Counted* right = earlier.word == "correct" ? story_.keeper.find(earlier.names) : nullptr;
    const bool put_right = right && (names.contains(earlier.names) ||
                                     std::any_of(right->event.lines.begin(), right->event.lines.end(),
                                                 [&](const Line& line) { return names.contains(line.id); }));
    if (named || put_right || both_void || (!told.event.names.empty() && calls_one(earlier)) ||
        took_the_same(earlier) || (!car.empty() && turned(earlier) == car))
      told.after.push_back(i);
  }
}

Event RandomStory::propose() {
  const Number what = below(100);
  Event event = what < 7    ? money()
                : what < 16 ? life()
                : what < 24 ? ending()
                : what < 42 ? paper()
                : what < 48 ? quick_line()
                : what < 58 ? back()
                : what < 70 ? shelf()
                : what < 79 ? part()
                : what < 84 ? deposit()
                : what < 89 ? work()
                : what < 93 ? put_right()
                            : taken_back();
  // After a closing some of it bears a day that is closed.
  if (!story_.closings.empty() && !event.word.empty() && event.word != "void" && chance(8)) {
    const int closed = std::max(0, story_.closings.back() - static_cast<int>(below(40)));
    // What becomes of a car is refused where it would count from before its purchase.
    const auto bought = event.tag.empty() ? std::nullopt : now_.car(event.tag, 0).bought;
    const bool before = bought && std::max(closed, story_.keeper.first_open_day()) < *bought;
    if (!turns.contains(event.word) || !before) event.day = closed;
  }
  return event;
}

Event RandomStory::money() {
  switch (below(5)) {
    case 0:
      return made("owner in", "", from_to(1, 90'000));
    case 1:
      return made("owner out", "", from_to(1, 20'000));
    case 2: {
      Event event = made("move", "", from_to(1, 9'000));
      event.to = event.purse == "bank" ? "cash" : "bank";
      return event;
    }
    case 3: {
      Event event = made("pay", "", 0);
      event.supplier = one_of(suppliers);
      if (now_.owed[event.supplier] <= 0) return {};
      event.amount = from_to(1, now_.owed[event.supplier]);
      return event;
    }
    default:
      return now_.sales_tax <= 0 ? Event{} : made("sales tax paid", "", from_to(1, now_.sales_tax));
  }
}

Event RandomStory::life() {
  const std::string tag = a_car("considered passed");
  if (tag.empty()) return {};
  if (chance(25) && now_.vehicles.contains(tag) && now_.car(tag, 0).state == "considered")
    return made("pass", tag, 0);
  Event event = made("buy", tag, chance(5) ? 0 : from_to(1, 200'000));
  if (chance(40)) event.costs.push_back({"title", from_to(1, 9'000), purse()});
  return event;
}

Event RandomStory::ending() {
  const std::string tag = a_car("owned");
  if (tag.empty()) return {};
  if (chance(20)) return made("write off", tag, 0);
  if (chance(10)) return made("part out", tag, from_to(0, 50'000));
  Event event = made("sell", tag, chance(5) ? 0 : from_to(100, 300'000));
  if (chance(30)) event.tax = event.amount * 6 / 100;
  event.used = chance(70) ? std::min(now_.car(tag, 0).held, event.amount) : 0;
  if (chance(50)) event.costs.push_back({"advert", from_to(1, 4'000), purse()});
  if (chance(30)) event.costs.push_back({"valet", from_to(1, 4'000), purse()});
  if (chance(30)) event.rate = from_to(1, 99);
  return event;
}

Line RandomStory::paper_line(int number) {
  Line line;
  line.id = "L" + std::to_string(made_) + "." + std::to_string(number);
  line.kind = one_of(std::vector<std::string>{"part", "part", "part", "consumable", "sublet", "fee", "stock",
                                              "stock", "tool", "overhead", "private"});
  line.pieces = chance(50) ? 1000 : from_to(2, 6) * 1000;
  line.amount = from_to(0, 20'000);
  line.taxed = chance(60);
  if (line.kind == "stock") {
    line.stock = one_of(items);
    line.gives = one_of(std::vector<Number>{1000, 5000, 1500});
  } else if (line.kind != "tool" && line.kind != "overhead" && line.kind != "private") {
    for (Number cars = chance(15) ? 2 : 1; cars > 0; --cars) {
      const std::string tag = one_of(tags);
      if (line.parts.empty() || line.parts.front().tag != tag)
        line.parts.push_back({tag, one_of(std::vector<Number>{1000, 1000, 2000, 3333})});
    }
    if (line.kind == "part" && chance(30)) line.core_each = from_to(1, 5'000);
    line.tax_on_core = line.core_each != 0 && chance(40);
  }
  return line;
}

Event RandomStory::paper() {
  Event event = made("receipt", "", 0);
  event.supplier = one_of(suppliers);
  const Number lines = from_to(1, 3);
  for (int i = 1; i <= lines; ++i) event.lines.push_back(paper_line(i));
  if (!now_.waiting.empty() && chance(50)) event.names = one_of(now_.waiting);
  if (event.names.empty()) add_backs(event);
  const bool plain = std::all_of(event.lines.begin(), event.lines.end(), [](const Line& line) {
    return line.core_of.empty() && line.return_of.empty();
  });
  for (const bool kept = chance(30); Line & line : event.lines) line.tools_kept = kept;
  Number base = 0, goods = 0;
  for (const Line& line : event.lines) {
    const Number core = line.core_each * line.pieces / 1000;
    base += (line.taxed ? line.amount : 0) + (line.tax_on_core ? core : 0);
    event.total += line.amount + core;
    goods += line.amount;
  }
  if (base > 0 && chance(70)) event.tax = base * 7 / 100;
  if (plain && chance(15)) event.shipping = from_to(1, 2'000);
  if (plain && goods > 0 && chance(20)) event.discount = from_to(1, std::min<Number>(goods, 900));
  event.total += event.tax + event.shipping - event.discount;
  const Number on_account = chance(15) && event.total > 0 ? from_to(1, event.total) : 0;
  event.paid = {{purse(), event.total - on_account}};
  return event;
}

// A core handed over the counter, or goods given back on the same paper.
void RandomStory::add_backs(Event& paper) {
  if (const std::string id = a_line([](const LineNow& line) { return line.cores_out() > 0; });
      !id.empty() && chance(20)) {
    const LineNow& from = now_.lines.at(id);
    Line line;
    line.id = "L" + std::to_string(made_) + ".8";
    line.kind = "part";
    line.core_of = id;
    line.pieces = from.cores_out();
    line.amount = -from_to(0, from.due());
    line.share = from.due();
    paper.lines.push_back(line);
  }
  if (const std::string id = a_line([](const LineNow& line) {
        return line.left() > 0 && line.cores_out() == 0 && line.line.amount > 0 &&
               line.line.core_of.empty() && line.line.kind != "tool";
      });
      !id.empty() && chance(20)) {
    const LineNow& from = now_.lines.at(id);
    // What goes back lay there before the paper.
    if (now_.shelves[from.line.stock].pieces * 1000 < from.left() * from.line.gives &&
        !from.line.stock.empty())
      return;
    Line line;
    line.return_of = id;
    line.kind = "part";
    line.pieces = from.left();
    line.amount = -(from.line.amount - from.line.discount) * line.pieces / from.line.pieces;
    paper.lines.push_back(line);
  }
}

Event RandomStory::quick_line() {
  Event event = made("receipt", "", 0);
  event.supplier = one_of(suppliers);
  event.itemised = false;
  event.on_paper = !chance(10);
  Line line;
  line.id = "L" + std::to_string(made_) + ".1";
  line.kind = "part";
  line.amount = event.total = from_to(1, 20'000);
  line.parts = {{one_of(tags), 1000}};
  event.lines = {line};
  event.paid = {{purse(), event.total}};
  return event;
}

// What of the deposit on a line goes with these cores, decided as it stands now; the last take what is left.
static Number share_of(const LineNow& from, Number cores) {
  if (cores == from.cores_out()) return from.due();
  return std::min(from.due(), step(from.line.deposit(), from.cores_back, cores, from.line.pieces));
}

Event RandomStory::back() {
  if (chance(50)) {
    const std::string id = a_line([](const LineNow& line) { return line.cores_out() > 0; });
    if (id.empty()) return {};
    const LineNow& from = now_.lines.at(id);
    Event event = made("core back", "", 0);
    event.line = id;
    event.pieces = chance(60) ? from.cores_out() : from_to(1, from.cores_out() / 1000) * 1000;
    const Number deposit = share_of(from, event.pieces);
    event.amount = chance(60) ? deposit : from_to(0, deposit);
    event.share = deposit;
    return event;
  }
  const std::string id = a_line([](const LineNow& line) {
    return line.left() > 0 && line.line.core_of.empty() && line.line.amount > 0;
  });
  if (id.empty()) return {};
  const LineNow& from = now_.lines.at(id);
  Event event = made("return", "", 0);
  event.line = id;
  event.pieces = chance(50) ? from.left() : from_to(1, from.left() / 1000) * 1000;
  // What of a cent comes with which piece depends on what went before: no more than it is in any order.
  event.amount = (from.line.amount - from.line.discount) * event.pieces / from.line.pieces;
  event.tax = (from.line.tax - from.line.core_tax) * event.pieces / from.line.pieces;
  if (from.cores_out() > 0 && chance(70)) {
    event.cores = std::min(event.pieces, from.cores_out());
    event.deposit = share_of(from, event.cores);
    event.share = event.deposit;
  }
  if (chance(20)) event.restocking = from_to(0, event.amount + event.tax);
  if (from.line.kind == "tool") {
    event.out_of.emplace();
    Number left = event.amount + event.tax - event.restocking;
    for (const auto& [tag, amount] : now_.charged[id])
      if (const Number off = std::min(amount, left); off > 0) {
        (*event.out_of)[tag] = off;
        left -= off;
      }
  }
  const Number owed = now_.owed[from.supplier],
               comes = event.amount + event.tax - event.restocking + event.deposit;
  if (from.on_account && owed > 0 && chance(50)) event.off = std::min(owed, comes);
  return event;
}

Event RandomStory::shelf() {
  const std::string item = one_of(items);
  const Number there = now_.shelves[item].pieces;
  Event event;
  switch (below(6)) {
    case 0:
      event = made("count", "", 0);
      event.item = item;
      event.pieces = chance(20) ? 0 : from_to(0, there / 500) * 500;
      for (const Counted& each : story_.keeper.counted())
        if (each.from == day_ && each.event.word == "count" && each.event.item == item) return {};
      return now_.shelves.at(item).pieces == 0 ? Event{} : event;
    case 1: {
      const std::string id = a_line([](const LineNow& line) {
        return line.left() > 0 && !line.line.parts.empty() && line.line.core_of.empty() &&
               line.line.cost() > 0;
      });
      if (id.empty()) return {};
      const LineNow& from = now_.lines.at(id);
      event = made("shelve", "", 0);
      event.line = id;
      event.pieces = from.left();
      event.amount = step(from.line.cost(), from.line.pieces - from.left(), event.pieces, from.line.pieces);
      event.item = item;
      return event;
    }
    case 2: {
      const std::string tag = a_car("owned considered");
      if (tag.empty() || now_.car(tag, 0).carried <= 0) return {};
      event = made("shelve", tag, from_to(1, std::min<Number>(now_.car(tag, 0).carried, 5'000)));
      event.item = item;
      event.pieces = from_to(1, 4) * 1000;
      return event;
    }
    default:
      if (there <= 0) return {};
      event = made("draw", one_of(tags), 0);
      event.item = item;
      event.pieces = chance(10) ? there : from_to(1, std::max<Number>(there / 1000, 1)) * 500;
      return event.pieces > there ? Event{} : event;
  }
}

Event RandomStory::part() {
  const std::string tag = a_car("owned sold finished considered passed");
  if (!now_.vehicles.contains(tag)) return {};  // nobody has heard of it yet
  const Position car = now_.car(tag, 0);
  if (chance(25)) {
    const std::string id = a_line([](const LineNow& line) {
      return line.line.kind == "tool" && line.left() == line.line.pieces && line.line.cost() > 0;
    });
    if (id.empty()) return {};
    Number left = now_.lines.at(id).line.cost();
    for (const auto& each : now_.charged[id]) left -= each.second;
    if (left <= 0) return {};
    Event event = made("transfer", "tools", from_to(1, left));
    event.to = one_of(tags);
    event.line = id;
    return event;
  }
  if (chance(30)) {
    Event event = made("transfer", tag, 0);
    event.to = one_of(tags);
    if (event.to == tag || car.carried <= 0) return {};
    event.amount = from_to(1, std::min<Number>(car.carried, 9'000));
    return event;
  }
  const Number recovered = car.recovered_before + car.recovered_after;
  if (recovered > 0 && chance(25)) return made("recover back", tag, from_to(1, recovered));
  return made("recover", tag, chance(15) ? from_to(1, 250'000) : from_to(1, 12'000));
}

Event RandomStory::deposit() {
  if (chance(40)) {
    const std::string tool = one_of(tools);
    const Number out = now_.tool_deposits[tool];
    Event event = made(out > 0 && chance(60) ? "tool deposit back" : "tool deposit", "", from_to(1, 9'000));
    event.what = tool;
    if (event.word == "tool deposit") return event;
    event.amount = from_to(1, out);
    if (chance(30)) event.kept = out - event.amount;
    return event;
  }
  const std::string tag = a_car("owned sold");
  const Number held = now_.car(tag, 0).held;
  if (tag.empty()) return {};
  if (held > 0 && chance(60))
    return made(chance(50) ? "deposit kept" : "deposit back", tag, from_to(1, held));
  return made("buyer deposit", tag, from_to(1, 30'000));
}

Event RandomStory::work() {
  if (chance(40)) {
    const bool advert = chance(50);
    const std::string tag = a_car(advert ? "owned" : "owned sold");
    if (tag.empty()) return {};
    if (advert)  // of a car that is sold whole
      for (const Counted& each : story_.keeper.counted())
        if (each.event.word == "part out" && each.event.tag == tag) return {};
    return advert ? made("advertised", tag, from_to(1, 400'000))
                  : made("selling cost", tag, from_to(1, 4'000));
  }
  if (chance(30)) {
    Event event = made("trip", "", from_to(1, 90'000));
    event.parts = {{one_of(tags), 1000}};
    const std::string other = one_of(tags);
    if (other != event.parts.front().tag && chance(30)) event.parts.push_back({other, 2000});
    return event;
  }
  Event event = made("hours", one_of(tags), 0);
  if (chance(60)) {
    event.own = from_to(1, 16) * 250;
  } else {
    event.paid_hours = from_to(1, 6'000);
    event.rate_fine = from_to(1, 4'000) * 1000;
  }
  return event;
}

// Another amount for something that counts, and of which nothing went back.
Event RandomStory::put_right() {
  const std::set<std::string> anywhere = {"owner in", "owner out", "move", "pay", "receipt", "sell", "trip"},
                              of_an_open_period = {"buy", "recover", "selling cost", "buyer deposit", "draw"};
  std::vector<const Counted*> all;
  for (const Counted& each : story_.keeper.counted()) {
    const Event& event = each.event;
    const bool open = each.from >= story_.keeper.first_open_day();
    if (each.until != never || event.name.empty() || each.from > day_) continue;
    if (!anywhere.contains(event.word) && !(open && of_an_open_period.contains(event.word))) continue;
    if (!open && (each.from != event.day || !each.places.empty())) continue;
    if (event.word == "receipt") {
      if (event.lines.size() != 1 || event.paid.size() != 1 || event.paid.front().second != event.total)
        continue;
      const auto found = now_.lines.find(event.lines.front().id);
      if (found == now_.lines.end() || found->second.left() != found->second.line.pieces ||
          found->second.cores_back != 0 || found->second.line.amount <= 0)
        continue;
      // What went back for some days rests on it on these days.
      const std::string& id = found->first;
      const auto went_back = [&](const Counted& other) {
        return other.until > other.from &&
               (other.event.line == id ||
                std::any_of(other.event.lines.begin(), other.event.lines.end(),
                            [&](const Line& line) { return line.core_of == id || line.return_of == id; }));
      };
      const auto& counted = story_.keeper.counted();
      if (std::any_of(counted.begin(), counted.end(), went_back)) continue;
    }
    all.push_back(&each);
  }
  if (all.empty()) return {};
  const Event& named = one_of(all)->event;
  Event event = made("correct", "", 0);
  event.names = named.name;
  if (named.word == "trip") event.what = "distance";
  if (named.word == "draw")
    event.pieces = from_to(1, 6) * 500;
  else if (named.word == "receipt")
    event.amount = std::max(named.discount, from_to(1, 2 * named.lines.front().amount));
  else if (named.word == "sell")
    event.amount = named.amount + from_to(1, 20'000);
  else
    event.amount = from_to(1, 2 * named.amount + 100);
  return event;
}

// Of what nobody took back yet: most often a sale, a write-off, a pass, a paper.
Event RandomStory::taken_back() {
  std::vector<const Counted*> all;
  for (const Counted& each : story_.keeper.counted())
    if (each.until == never && !each.event.name.empty() && each.from <= day_)
      for (int weight = ends.contains(each.event.word) ? 8 : 1; weight > 0; --weight) all.push_back(&each);
  if (all.empty()) return {};
  const Counted& named = *one_of(all);
  Event event = made("void", "", 0);
  event.names = named.event.name;
  event.later =
      named.from < story_.keeper.first_open_day() || chance(ends.contains(named.event.word) ? 75 : 20);
  if (named.event.word == "sell" && event.later && chance(50)) {
    event.stays.emplace();
    for (const Named& cost : named.event.costs)
      if (chance(50)) event.stays->push_back(cost.name);
  }
  return event;
}

}  // namespace dated
