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
#include "book/ledger/marks.h"
#include "book/ledger/settings.h"
#include "exact/hint.h"
#include "exact/nearest.h"
#include "text/toml.h"

namespace nonrunner::book {

namespace {

struct Context {
  Recording& recording;
  const std::filesystem::path& beside;
  const Appraise& appraise;
  const Currency& currency() const { return recording.currency(); }
};

// The job file that an event names, and what it comes to. An export says what was settled when it was kept.
AppraisedJob read_job(const Context& context, const Table& table, const std::string& file) {
  const std::string path = (context.beside / file).string();
  std::optional<std::string> settled;
  if (const Value* text = table.find("settled")) settled = text->text;
  const std::string job = read_file(path);
  return context.appraise ? context.appraise(job, path, table.day("date"), settled)
                          : AppraisedJob{job, settled.value_or(""), ""};
}

EntryId record_buy(const Context& context, const Table& table) {
  std::string job;
  Buy buy = read_buy(table, context.currency(), job);
  if (!job.empty()) buy.appraised = read_job(context, table, job);
  return record(context.recording, buy);
}

EntryId record_appraisal(const Context& context, const Table& table) {
  table.only({"do", "date", "vehicle", "job", "settled"});
  keep_appraisal(context.recording, table.text("vehicle"), table.day("date"), 0,
                 read_job(context, table, table.text("job")));
  return 0;
}

EntryId assign_heading(const Context& context, const Table& table) {
  assign(context.recording, read_assign(table));
  return 0;
}

using Event = EntryId (*)(const Context&, const Table&);
struct Word {
  const char* name;
  Event event;
};
using Deposit = BuyerDeposit::What;
const Word words[] = {
    {"owner in",
     [](const Context& c, const Table& t) { return record(c.recording, read_owner(t, c.currency(), true)); }},
    {"owner out", [](const Context& c,
                     const Table& t) { return record(c.recording, read_owner(t, c.currency(), false)); }},
    {"move",
     [](const Context& c, const Table& t) { return record(c.recording, read_move(t, c.currency())); }},
    {"buy", record_buy},
    {"pass", [](const Context& c, const Table& t) { return record(c.recording, read_pass(t)); }},
    {"receipt",
     [](const Context& c, const Table& t) { return record(c.recording, read_receipt(t, c.currency())); }},
    {"return",
     [](const Context& c, const Table& t) { return record(c.recording, read_goods_back(t, c.currency())); }},
    {"core back",
     [](const Context& c, const Table& t) { return record(c.recording, read_core_back(t, c.currency())); }},
    {"tool deposit",
     [](const Context& c, const Table& t) {
       return record(c.recording, read_tool_deposit(t, c.currency(), false));
     }},
    {"tool deposit back",
     [](const Context& c, const Table& t) {
       return record(c.recording, read_tool_deposit(t, c.currency(), true));
     }},
    {"hours",
     [](const Context& c, const Table& t) { return record(c.recording, read_hours(t, c.currency())); }},
    {"draw", [](const Context& c, const Table& t) { return record(c.recording, read_draw(t)); }},
    {"count", [](const Context& c, const Table& t) { return record(c.recording, read_count(t)); }},
    {"shelve",
     [](const Context& c, const Table& t) { return record(c.recording, read_shelve(t, c.currency())); }},
    {"transfer",
     [](const Context& c, const Table& t) { return record(c.recording, read_transfer(t, c.currency())); }},
    {"recover", [](const Context& c,
                   const Table& t) { return record(c.recording, read_recover(t, c.currency(), false)); }},
    {"recover back", [](const Context& c,
                        const Table& t) { return record(c.recording, read_recover(t, c.currency(), true)); }},
    {"advertised",
     [](const Context& c, const Table& t) { return record(c.recording, read_advertised(t, c.currency())); }},
    {"buyer deposit",
     [](const Context& c, const Table& t) {
       return record(c.recording, read_buyer_deposit(t, c.currency(), Deposit::taken));
     }},
    {"deposit kept",
     [](const Context& c, const Table& t) {
       return record(c.recording, read_buyer_deposit(t, c.currency(), Deposit::kept));
     }},
    {"deposit back",
     [](const Context& c, const Table& t) {
       return record(c.recording, read_buyer_deposit(t, c.currency(), Deposit::back));
     }},
    {"sell",
     [](const Context& c, const Table& t) { return record(c.recording, read_sale(t, c.currency())); }},
    {"selling cost", [](const Context& c,
                        const Table& t) { return record(c.recording, read_selling_cost(t, c.currency())); }},
    {"part out",
     [](const Context& c, const Table& t) { return record(c.recording, read_part_out(t, c.currency())); }},
    {"write off", [](const Context& c, const Table& t) { return record(c.recording, read_write_off(t)); }},
    {"trip", [](const Context& c, const Table& t) { return record(c.recording, read_trip(t)); }},
    {"finding", [](const Context& c, const Table& t) { return record(c.recording, read_finding(t)); }},
    {"plan",
     [](const Context& c, const Table& t) { return record(c.recording, read_plan(t, c.currency())); }},
    {"done", [](const Context& c, const Table& t) { return record(c.recording, read_done(t)); }},
    {"void", [](const Context& c, const Table& t) { return record(c.recording, read_void(t)); }},
    {"pay",
     [](const Context& c, const Table& t) { return record(c.recording, read_pay(t, c.currency(), false)); }},
    {"sales tax paid",
     [](const Context& c, const Table& t) { return record(c.recording, read_pay(t, c.currency(), true)); }},
    {"attach",
     [](const Context& c, const Table& t) { return record(c.recording, read_attach(t, c.beside)); }},
    {"appraisal", record_appraisal},
    {"under", assign_heading},
};

void read_head(Recording& recording, const Table& root) {
  root.only({"hour", "stop_at", "currency", "distance", "set", "closed", "tools_from_here", "event"});
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

const std::vector<std::string>& event_words() {
  static const std::vector<std::string> all = [] {
    std::vector<std::string> names;
    for (const Word& word : words) names.emplace_back(word.name);
    return names;
  }();
  return all;
}

EntryId record_event(Recording& recording, const Table& table, const std::filesystem::path& beside,
                     const Appraise& appraise) {
  const std::string name = table.text("do");
  Table event = table;
  event.rename("the event \"" + name + "\"");
  for (const Word& word : words)
    if (name == word.name) {
      try {
        if (const auto day = event.day_if("date"); day && *day > recording.today())
          recording.remarks().push_back(
              fmt::format("{}: the day {} has not come yet", table.place(), day->iso()));
        const Value bare = without_marks(recording, event);
        return word.event(Context{recording, beside, appraise}, Table(bare, event.file(), event.name()));
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

Posted post(Recording& recording, const std::string& text, const std::string& name,
            const std::filesystem::path& beside, const Appraise& appraise,
            const std::function<void(std::size_t, std::size_t)>& tick) {
  const Value value = parse_toml(text, name);
  const Table root(value, name, "the head of the file");
  read_head(recording, root);
  Posted posted;
  const auto events = root.tables("event", "the event");
  for (const Table& event : events) {
    const EntryId entry = record_event(recording, event, beside, appraise);
    if (tick) tick(static_cast<std::size_t>(posted.events), events.size());
    ++posted.events;
    if (entry == 0) continue;
    if (posted.first == 0) posted.first = entry;
    posted.last = entry;
  }
  if (root.has("tools_from_here")) {
    try {
      set(recording, "tools", root.text("tools_from_here"));
    } catch (const Refusal& refusal) {
      root.refuse_whole(refusal.what(), "tools_from_here");
    }
  }
  if (root.has("closed")) close(recording, root.day("closed"));
  return posted;
}

}  // namespace nonrunner::book
