#include "book/events/post.h"

#include <fmt/format.h>

#include "book/events/advertised.h"
#include "book/events/appraisals.h"
#include "book/events/assigned.h"
#include "book/events/attach.h"
#include "book/events/buy.h"
#include "book/events/buyer_deposit.h"
#include "book/events/core_back.h"
#include "book/events/done.h"
#include "book/events/fields.h"
#include "book/events/finding.h"
#include "book/events/goods_back.h"
#include "book/events/hours.h"
#include "book/events/move.h"
#include "book/events/owner.h"
#include "book/events/part_out.h"
#include "book/events/pass.h"
#include "book/events/pay.h"
#include "book/events/plan.h"
#include "book/events/receipt.h"
#include "book/events/recover.h"
#include "book/events/sell.h"
#include "book/events/selling_cost.h"
#include "book/events/shelf.h"
#include "book/events/tool_deposit.h"
#include "book/events/transfer.h"
#include "book/events/trip.h"
#include "book/events/void_entry.h"
#include "book/events/write_off.h"
#include "book/ledger/checks.h"
#include "book/ledger/desk_notes.h"
#include "book/ledger/kept.h"
#include "book/ledger/marks.h"
#include "book/ledger/query.h"
#include "book/ledger/settings.h"
#include "book/ledger/stands.h"
#include "book/questions/alike.h"
#include "exact/hint.h"
#include "exact/nearest.h"
#include "text/beside.h"
#include "text/json.h"
#include "text/toml.h"

namespace nonrunner::book {

namespace {

struct Context {
  Recording& recording;
  const std::filesystem::path& beside;
  const Appraise& appraise;
  const Numbers* numbers;
  const Currency& currency() const { return recording.currency(); }
};

// The job file that an event names, and what it comes to. An export says what was settled when it was kept.
AppraisedJob read_job(const Context& context, Day day, const std::string& file,
                      const std::optional<std::string>& settled, const std::string& came_to) {
  const std::string path = file_below(context.beside, file).string();
  const std::string job = read_file(path);
  AppraisedJob read = context.appraise ? context.appraise(job, path, day, settled)
                                       : AppraisedJob{job, settled.value_or(""), ""};
  if (came_to.empty()) return read;
  const std::string figures = file_below(context.beside, came_to).string();
  read.figures = read_file(figures, any_size);
  if (const auto came_to_then = parse_json(read.figures);
      !came_to_then || came_to_then->kind != Value::Kind::table)
    throw Refusal(figures +
                  ": found no JSON object, expected what the appraisal came to, as an export wrote it");
  return read;
}

// A job file kept for its date: no entry.
struct JobKept {
  Day day;
  std::string vehicle, job_file;
  std::optional<std::string> settled;
  std::string came_to;
};
void fields(JobKept& kept, Fields& f) {
  f.day({"date", "the day from which it holds"}, kept.day);
  f.text({"vehicle", "the car"}, Text::tag, kept.vehicle);
  f.text({"job", "the job file"}, Text::file, kept.job_file);
  settled_field(f, kept.settled);
  came_to_field(f, kept.came_to);
}

EntryId record(const Context& context, Buy buy) {
  if (!buy.job_file.empty())
    buy.appraised = read_job(context, buy.day, buy.job_file, buy.settled, buy.came_to);
  return record(context.recording, buy);
}

EntryId record(const Context& context, const JobKept& kept) {
  keep_appraisal(context.recording, kept.vehicle, kept.day, 0,
                 read_job(context, kept.day, kept.job_file, kept.settled, kept.came_to));
  return 0;
}

EntryId numbered(const Context& context, EntryId entry) {
  return context.numbers && entry != 0 ? context.numbers->made_for(entry) : entry;
}

EntryId record(const Context& context, Assign request) {
  request.entry = numbered(context, request.entry);
  assign(context.recording, request);
  return 0;
}

EntryId record(const Context& context, Attach attach) {
  const std::string named = attach.file.string(), called = attach.file.filename().string();
  // As an export names it: by what is in it.
  if (named == "attachments/" + called && is_sha256(called)) attach.sha256 = called;
  attach.file = file_below(context.beside, named);
  attach.entry = numbered(context, attach.entry);
  return record(context.recording, attach);
}

EntryId record(const Context& context, Void request) {
  request.entry = numbered(context, request.entry);
  return record(context.recording, request);
}

EntryId record(const Context& context, Receipt receipt) {
  if (receipt.replaces) receipt.replaces = numbered(context, *receipt.replaces);
  expect_no_double(context.recording, receipt);
  return record(context.recording, receipt);
}

EntryId record(const Context& context, const Labour& labour) {
  expect_no_double(context.recording, labour);
  return record(context.recording, labour);
}

// Money and ways that are typed in a moment, and so typed twice.
template <class Event>
EntryId record_once(const Context& context, const Event& event) {
  // Who writes a file sees both beside each other: it is asked about what was there before.
  const Once one = once(event);
  const auto like = context.numbers ? entry_like(context.recording.book(), one) : std::nullopt;
  if (!like || !context.numbers->is_of_file(*like)) expect_no_double(context.recording, one);
  return record(context.recording, event);
}
EntryId record(const Context& context, const Recover& recover) { return record_once(context, recover); }
EntryId record(const Context& context, const OwnerMoney& money) { return record_once(context, money); }
EntryId record(const Context& context, const BuyerDeposit& deposit) { return record_once(context, deposit); }
EntryId record(const Context& context, const Trip& trip) { return record_once(context, trip); }

// The end of a period.
struct Close {
  Day day;
  std::string why;
};
void fields(Close& end, Fields& f) {
  f.day({"date", "the last day of the period"}, end.day);
  f.text({"why", "why it ends", Need::may}, Text::words, end.why);
}

EntryId record(const Context& context, const Close& end) {
  return close(context.recording, end.day, end.why);
}

template <class Event>
EntryId record(const Context& context, const Event& event) {
  return record(context.recording, event);
}

struct Word {
  EventWord about;
  std::function<EntryId(const Context&, const Table&)> record;
};

// `start` is the event with what its word says of it.
template <class Event>
Word word(const char* name, const char* says, const char* example, const Event& start = {}) {
  const std::vector<Described> known = described(start);
  return {{name, says, example, known}, [start, known](const Context& context, const Table& table) {
            return record(context, read(table, context.currency(), start, known));
          }};
}

const std::vector<Word>& words() {
  using Deposit = BuyerDeposit::What;
  const auto owner = [](bool in) {
    OwnerMoney money;
    money.in = in;
    return money;
  };
  const auto recovered = [](bool back) {
    Recover recover;
    recover.back = back;
    return recover;
  };
  const auto tool = [](bool back) {
    ToolDeposit deposit;
    deposit.back = back;
    return deposit;
  };
  const auto paying = [](bool tax) {
    Pay pay;
    pay.sales_tax = tax;
    return pay;
  };
  const auto buyers = [](Deposit what) {
    BuyerDeposit deposit;
    deposit.what = what;
    return deposit;
  };
  static const std::vector<Word> all = {
      word<OwnerMoney>("owner in", "the owner's money put into the shop",
                       R"(purse = "cash", amount = 2500.00)", owner(true)),
      word<OwnerMoney>("owner out", "and taken out of it", R"(purse = "bank", amount = 300.00)",
                       owner(false)),
      word<Move>("move", "money from one purse to another", R"(from = "bank", to = "cash", amount = 200.00)"),
      word<Buy>(
          "buy", "a car bought",
          R"(vehicle = "pip", price = 900.00, purse = "cash", fees = [{ name = "title", amount = 62.00 }])"),
      word<Pass>("pass", "a car looked at and left: what that cost is the overhead of looking",
                 R"(vehicle = "troupe", why = "asked too much")"),
      word<Receipt>(
          "receipt", "a paper with what stands on it, or a quick line",
          R"(supplier = "Cleave Yard", number = "3071", paid = { cash = 46.20 }, tax = 2.20, total = 46.20, line = [{ what = "radiator", unit = 36.00, core = 8.00, kind = "part", source = "salvage", to = "pip", taxed = true }])"),
      word<GoodsBack>(
          "return", "goods of a receipt line going back",
          R"(line = "R06.2", qty = 1, goods = 48.00, tax = 3.12, restocking = 4.80, purse = "card")"),
      word<CoreBack>("core back", "an old part going back for its deposit",
                     R"(line = "R03.1", qty = 1, amount = 18.00, purse = "card")"),
      word<ToolDeposit>(
          "tool deposit", "the deposit on a borrowed tool",
          R"(supplier = "Millgate Parts", what = "pressure-fill tool", amount = 60.00, purse = "card")",
          tool(false)),
      word<ToolDeposit>("tool deposit back", "and its coming back",
                        R"(what = "pressure-fill tool", amount = 60.00, purse = "card")", tool(true)),
      word<Labour>("hours", "hours worked: own ones, or a helper's that are paid",
                   R"(vehicle = "pip", operation = "front brakes", own = 1.5)"),
      word<Draw>("draw", "stock off the shelf for a car", R"(vehicle = "pip", stock = "gloves", qty = 4)"),
      word<Count>("count", "what the shelf really holds; the difference is overhead",
                  R"(stock = "gloves", qty = 70)"),
      word<Shelve>("shelve", "a part off a car to the shelf, at cost",
                   R"(line = "R05.4", stock = "hub cap", qty = 2)"),
      word<Transfer>("transfer", "a part from one car to another at cost, or tools to a car",
                     R"(from = "drayman", to = "pip", what = "starter", amount = 35.00)"),
      word<Recover>("recover", "parts sold off a car, scrap",
                    R"(vehicle = "pip", what = "old seat", amount = 25.00, purse = "cash")",
                    recovered(false)),
      word<Recover>("recover back", "money given back to the buyer of a part",
                    R"(vehicle = "pip", what = "old seat", amount = 25.00, purse = "cash")", recovered(true)),
      word<Advertised>("advertised", "the price a car is advertised at",
                       R"(vehicle = "pip", price = 3490.00)"),
      word<BuyerDeposit>("buyer deposit", "a buyer's deposit on a car",
                         R"(vehicle = "pip", amount = 200.00, purse = "cash")", buyers(Deposit::taken)),
      word<BuyerDeposit>("deposit kept", "the buyer forfeits it", R"(vehicle = "pip", amount = 200.00)",
                         buyers(Deposit::kept)),
      word<BuyerDeposit>("deposit back", "it is given back",
                         R"(vehicle = "pip", amount = 200.00, purse = "cash")", buyers(Deposit::back)),
      word<Sale>(
          "sell", "a car sold",
          R"(vehicle = "pip", price = 2950.00, purse = "cash", costs = [{ name = "advert", amount = 25.00 }])"),
      word<SellingCost>("selling cost", "a cost of selling on its own: an advert, a bank's charge",
                        R"(vehicle = "pip", what = "advert", amount = 20.00, purse = "card")"),
      word<PartOut>("part out", "a car goes to pieces", R"(vehicle = "drayman", still_brings = 2600.00)"),
      word<WriteOff>("write off", "a car in pieces is finished: what is left of its cost is its loss",
                     R"(vehicle = "drayman")"),
      word<Trip>("trip", "distance driven; no money",
                 R"(vehicle = "pip", distance = 34, why = "view and test")"),
      word<Finding>("finding", "what was found on a car",
                    R"(vehicle = "pip", text = "impeller gone", cause = "coolant pump failed")"),
      word<Plan>("plan", "a line of the budget by hand: needed for certain",
                 R"(vehicle = "pip", name = "heater matrix", amount = 88.00)"),
      word<Done>("done",
                 "lines of the budget that are done, not needed, or open again; none: the car is ready",
                 R"(vehicle = "pip", lines = ["radiator"], says = "not needed")"),
      word<Void>("void", "takes an entry back", R"(entry = 118, why = "typed twice")"),
      word<Close>("close", "the end of a period: what comes in later counts after it",
                  R"(why = "the year is handed in")"),
      word<Pay>("pay", "what was on account is paid",
                R"(supplier = "Harrow Wholesale", amount = 120.00, purse = "bank")", paying(false)),
      word<Pay>("sales tax paid", "sales tax that was collected is paid on",
                R"(amount = 90.00, purse = "bank")", paying(true)),
      word<Attach>("attach", "a photograph or a scan, copied beside the book",
                   R"(vehicle = "pip", file = "title.jpg")"),
      word<JobKept>("appraisal", "a job file kept for its date: no entry",
                    R"(vehicle = "pip", job = "pip.toml")"),
      word<Assign>("under", "where something stands in the budget: no entry",
                   R"(vehicle = "pip", line = "R07.1", heading = "discovery")"),
  };
  return all;
}

void read_head(Recording& recording, const Table& root) {
  root.only({"hour", "stop_at", "currency", "distance", "set", "closed", "tools_from_here", "event",
             "taken_in", "continued_in"});
  if (root.has("currency") && root.text("currency") != recording.currency().code)
    root.refuse("currency", "\"" + recording.currency().code + "\", the currency of this book");
  if (root.has("distance") && root.text("distance") != recording.book().distance_unit())
    root.refuse("distance", "\"" + recording.book().distance_unit() + "\", the unit of this book");
  if (root.has("hour"))
    set(recording, "hour", root.money("hour", recording.currency()).plain(recording.currency()));
  if (const auto settings = root.table("set", "[set]"))
    for (const auto& [name, value] : settings->value().entries) {
      try {
        set(recording, name, value.text);
      } catch (const Refusal& refusal) {
        settings->refuse_whole(refusal.what(), name);
      }
    }
}

}  // namespace

EntryId Numbers::made_for(EntryId number) const {
  if (number <= before_) return number;
  const auto at = static_cast<std::size_t>(number - before_ - 1);
  return at < made_.size() ? made_[at] : number + (made_.empty() ? 0 : made_.back() - before_);
}

void Numbers::take(const Book& book, EntryId before, EntryId entry) {
  if (entry == 0) return;
  // A paper that replaces is two entries: the reversal, then the paper. What followed by itself is not
  // counted.
  each<EntryId>(book,
                "SELECT e.entry FROM entry e WHERE e.entry > :before AND e.entry <= :entry AND e.kind <> "
                "'average'",
                {{":before", before}, {":entry", entry}}, [&](EntryId made) { made_.push_back(made); });
}

const std::vector<std::string>& event_words() {
  static const std::vector<std::string> all = [] {
    std::vector<std::string> names;
    for (const Word& word : words()) names.push_back(word.about.name);
    return names;
  }();
  return all;
}

const std::vector<EventWord>& events_described() {
  static const std::vector<EventWord> described = [] {
    std::vector<EventWord> all;
    for (const Word& word : words()) all.push_back(word.about);
    return all;
  }();
  return described;
}

namespace {

// An event whose id was kept before is there already; the same id with other content is a mistake.
bool there_already(Recording& recording, const Table& event) {
  if (!recording.kept_as) return false;
  const auto kept = kept_as(recording.book(), recording.kept_as->id);
  if (!kept) return false;
  const std::string entry = kept->entry == 0 ? "" : fmt::format(" as entry {}", kept->entry);
  if (!kept->sent.empty() && !recording.kept_as->sent.empty() && kept->sent != recording.kept_as->sent)
    event.refuse_whole(fmt::format("the id \"{}\" is in the book already{}, with other content; what is "
                                   "another one needs an id of its own",
                                   kept->id, entry),
                       "kept_as");
  recording.remarks().push_back(fmt::format("{}: there already{}{}", event.place(), entry,
                                            kept->taken_back ? ", taken back since" : ""));
  recording.kept_as.reset();
  return true;
}

}  // namespace

EntryId record_event(Recording& recording, const Table& table, const std::filesystem::path& beside,
                     const Appraise& appraise, const Numbers* numbers) {
  const std::string name = table.text("do");
  Table event = table;
  event.rename("the event \"" + name + "\"");
  for (const Word& word : words())
    if (name == word.about.name) {
      try {
        const auto day = event.day_if("date");
        if (recording.wary && day) expect_come(recording, name, *day);
        if (day && *day > recording.today())
          recording.remarks().push_back(
              fmt::format("{}: the day {} has not come yet", table.place(), day->iso()));
        const Value unkept = without_kept(recording, event);
        if (there_already(recording, event)) return 0;
        const Value anew =
            without_corrects(recording, Table(unkept, event.file(), event.name()),
                             [&](EntryId entry) { return numbers ? numbers->made_for(entry) : entry; });
        const auto corrects = recording.corrects;
        const Value bare = without_marks(recording, Table(anew, event.file(), event.name()));
        const EntryId entry = word.record(Context{recording, beside, appraise, numbers},
                                          Table(bare, event.file(), event.name()));
        keep_id(recording, 0, name);  // what it did is no entry
        if (corrects) photos_follow(recording, corrects->entry, entry);
        return entry;
      } catch (const Refusal& refusal) {
        // A rule of the book does not know the place in the file; the reader of the file does.
        const std::string what = refusal.what();
        if (what.starts_with(table.file() + ":")) throw;
        refuse_as(table.place() + ": " + what, refusal);
      }
    }
  const std::string hint = did_you_mean(name, event_words());
  table.refuse("do", "an event of the book" + (hint.empty() ? std::string(", such as receipt") : hint));
}

EventsFile read_events(const std::string& text, const std::string& name,
                       const std::filesystem::path& beside) {
  EventsFile file{parse_toml(text, name), name, beside};
  const Table root(file.value, name, "the head of the file");
  file.all = root.tables("event", "the event").size();
  return file;
}

namespace {

void post_events(Recording& recording, const EventsFile& file, const Appraise& appraise, Numbers& numbers,
                 Posted& posted, const std::function<void(std::size_t, std::size_t)>& tick) {
  const Table root(file.value, file.name, "the head of the file");
  for (const Table& event : root.tables("event", "the event")) {
    if (tick)
      tick(static_cast<std::size_t>(posted.events),
           std::max(file.all, static_cast<std::size_t>(posted.events)));
    const EntryId before = last_entry(recording.book());
    const EntryId entry = record_event(recording, event, file.beside, appraise, &numbers);
    numbers.take(recording.book(), before, entry);
    ++posted.events;
    if (entry == 0) continue;
    if (posted.first == 0) posted.first = entry;
    posted.last = entry;
  }
}

void remember_files(Recording& recording, const Table& root) {
  for (const Table& each : root.tables("taken_in", "the file taken in")) {
    each.only({"sha256", "name", "date"});
    const std::string hash = each.text("sha256");
    if (!is_sha256(hash)) each.refuse("sha256", "64 hexadecimal digits");
    change(recording.book(), "INSERT OR IGNORE INTO taken_in VALUES (:hash, :name, :day)",
           {{":hash", hash}, {":name", each.text("name")}, {":day", each.day("date")}});
    note_desk(recording, "file " + hash);
  }
}

}  // namespace

Posted post(Recording& recording, const EventsFile& file, const Appraise& appraise,
            const std::function<void(std::size_t, std::size_t)>& tick) {
  const Table root(file.value, file.name, "the head of the file");
  read_head(recording, root);
  Posted posted;
  Numbers numbers(last_entry(recording.book()));
  post_events(recording, file, appraise, numbers, posted, tick);
  if (root.has("continued_in"))
    for (const std::string& named : root.texts("continued_in")) {
      const std::filesystem::path path = file_below(file.beside, named);
      const EventsFile part = read_events(read_file(path.string(), any_size), path.string(), file.beside);
      Table(part.value, path.string(), "the head of the file").only({"event"});
      post_events(recording, part, appraise, numbers, posted, tick);
    }
  remember_files(recording, root);
  if (root.has("tools_from_here")) {
    try {
      set(recording, "tools", root.text("tools_from_here"));
    } catch (const Refusal& refusal) {
      root.refuse_whole(refusal.what(), "tools_from_here");
    }
  }
  if (root.has("closed")) {
    const auto closed = closed_until(recording.book());
    if (!closed || *closed < root.day("closed")) close(recording, root.day("closed"));
  }
  return posted;
}

Posted post(Recording& recording, const std::string& text, const std::string& name,
            const std::filesystem::path& beside, const Appraise& appraise,
            const std::function<void(std::size_t, std::size_t)>& tick) {
  return post(recording, read_events(text, name, beside), appraise, tick);
}

}  // namespace nonrunner::book
