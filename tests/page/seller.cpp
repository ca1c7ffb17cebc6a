// Before the seller: the page says in every state of the tests what the appraisal says, keeps nothing of what is
// tapped, and what is bought or left takes it along.
#include <catch2/catch.hpp>
#include <sstream>

#include "answers/known.h"
#include "book/care/export.h"
#include "book/care/restore.h"
#include "book/events/appraisals.h"
#include "book/events/finding.h"
#include "book/ledger/names.h"
#include "commands/command.h"
#include "commands/terminal.h"
#include "page/yard_shop.h"
#include "text/json.h"

using namespace nonrunner;
using namespace nonrunner::page;

namespace {

// What the command says of the same book, as a tree.
Value asked_of_the_command(YardShop& shop, std::vector<std::string> words) {
  std::ostringstream out, err;
  words.insert(words.begin(), "appraise");
  for (const char* more : {"--json", "--book"}) words.emplace_back(more);
  words.push_back(shop.file().string());
  commands::Terminal terminal{out, err, false, false, shop.today, shop.now, {}};
  REQUIRE(commands::run(words, terminal) == 0);
  return *parse_json(out.str());
}

std::string text(const Value& tree, const char* key) {
  const Value* found = tree.find(key);
  return found && found->kind == Value::Kind::text ? found->text : "";
}

std::string shown(const std::string& amount) { return Money::parse(amount, Currency{}).shown(Currency{}); }

const char* word_of(const std::string& verdict) {
  if (verdict == "buy") return "BUY";
  if (verdict == "test first") return "TEST FIRST";
  return verdict == "offer less" ? "OFFER LESS" : "WALK AWAY";
}

}  // namespace

TEST_CASE("in every state of its tests the page says what the command says", "[page]") {
  YardShop shop;
  shop.look_at("drayman");
  const appraisal::Job job = *answers::job_as_found(shop.book(), "drayman");
  REQUIRE(job.tests.size() == 3);
  for (std::size_t state = 0; state < 27; ++state) {
    std::string seen;
    std::vector<std::string> words = {"drayman"};
    for (std::size_t t = 0, left = state; t < 3; ++t, left /= 3) {
      if (left % 3 == 0) continue;
      seen += (seen.empty() ? "" : ",") + std::to_string(t + 1) + ":" + std::to_string(left % 3);
      words.emplace_back("--seen");
      words.push_back(job.tests[t].name + "=" + job.tests[t].outcomes[left % 3 - 1]);
    }
    INFO(seen);
    const Value command = asked_of_the_command(shop, words);
    const Answer page = shop.get("/seller/drayman" + (seen.empty() ? "" : "?seen=" + seen));
    REQUIRE(page.status == 200);
    const std::string read = read_aloud(page);
    INFO(read);
    CHECK(read.find(std::string("\n") + word_of(text(command, "verdict"))) != std::string::npos);
    const std::string limit = text(*command.find("walk_away"), "price");
    if (limit.front() == '-')
      CHECK(says(page, "not unseen, even as a gift"));
    else
      CHECK(says(page, shown(limit)));
    // The with-tests price stands there where it is more than the walk-away price.
    const std::string with_tests = text(command, "with_tests_price");
    if (with_tests != limit && with_tests.front() != '-')
      CHECK(read.find(shown(with_tests)) != std::string::npos);
    const Value* next = command.find("next_test");
    const bool has_next = next && next->kind == Value::Kind::table;
    CHECK((read.find(": next\n") != std::string::npos) == has_next);
    if (has_next) CHECK(read.find(". " + text(*next, "test") + ": next\n") != std::string::npos);
  }
}

TEST_CASE("a tap again takes it back, another outcome takes its place, and what cannot be is no button",
          "[page]") {
  YardShop shop;
  shop.look_at("drayman");
  const std::string none = read_aloud(shop.get("/seller/drayman"));
  CHECK(none.find("<pressure in range -> /seller/drayman?seen=1%3A1#tests>") != std::string::npos);
  CHECK(none.find("<not made -> /seller/drayman?seen=1%3A0#tests>") != std::string::npos);
  const std::string one = read_aloud(shop.get("/seller/drayman?seen=1:1"));
  CHECK(one.find("<seen: pressure in range -> /seller/drayman#tests>") != std::string::npos);
  CHECK(one.find("<low or none -> /seller/drayman?seen=1%3A2#tests>") != std::string::npos);
  CHECK(one.find("<lamp flashes -> /seller/drayman?seen=1%3A1%2C2%3A2#tests>") != std::string::npos);
  // Nothing of it is in the book.
  CHECK(book::findings(shop.book(), "drayman").empty());
}

TEST_CASE("the price that the seller says is asked at once", "[page]") {
  YardShop shop;
  shop.look_at("drayman");
  const Answer page = shop.get("/seller/drayman?asked=900");
  CHECK(read_aloud(page).find("price asked [900]") != std::string::npos);
  const Value command = asked_of_the_command(shop, {"drayman", "--offer", "900"});
  CHECK(read_aloud(page).find(std::string("\n") + word_of(text(command, "verdict"))) != std::string::npos);
  const std::string refused = read_aloud(shop.get("/seller/drayman?seen=1:1&asked=much"));
  CHECK(refused ==
        "That does not go\nprice asked: found \"much\", expected an amount, such as 1450\n<Back, with what "
        "was tapped "
        "-> /seller/drayman?seen=1%3A1>\n");
  CHECK(read_aloud(shop.get("/seller/drayman?asked=1,450.00")).find("price asked [1,450.00]") !=
        std::string::npos);
}

TEST_CASE("the price that the seller says, and figures changed by hand, may have a decimal comma", "[page]") {
  YardShop shop;
  shop.look_at("drayman");
  shop.post("/seller/drayman",
            {{"asked", "1300,50"}, {"by.shop.hour", "22,5"}, {"by.value.sound", "5200,5 5900 6700,25"}});
  CHECK(book::appraisals_of(shop.book(), "drayman")[1].settled ==
        "by_hand = [{ at = \"shop.hour\", is = [22.5] }, { at = \"value.sound\", is = [5200.5, 5900, "
        "6700.25] }, "
        "{ at = \"deal.asking\", is = [1300.50] }]\n");
  shop.post("/seller/drayman", {{"by.value.sound", "5200,5900,6700"}});
  CHECK(answers::job_as_found(shop.book(), "drayman")->sound->low == 5200);
}

TEST_CASE("for the seller's eyes there is no figure on the page", "[page]") {
  YardShop shop;
  shop.look_at("drayman");
  const std::string read = read_aloud(shop.get("/seller/drayman?hide=1&seen=1:1"));
  CHECK(read.find("never pay more than") == std::string::npos);
  CHECK(read.find("2,750") == std::string::npos);
  CHECK(read.find("<Show figures -> /seller/drayman?seen=1%3A1>") != std::string::npos);
  CHECK(read.find("<seen: pressure in range") != std::string::npos);
}

TEST_CASE("odds changed by hand answer at once, and kept they are a new appraisal beside the old file",
          "[page]") {
  YardShop shop;
  shop.look_at("drayman");
  const std::string file = YardShop::sample("drayman/job.toml");
  const Answer changed = shop.get("/seller/drayman?seen=1:1&by.cause.3.odds=05&by.shop.hour=25");
  const Answer kept =
      shop.post("/seller/drayman", {{"seen", "1:1"}, {"by.cause.3.odds", "5"}, {"by.shop.hour", "25"}});
  CHECK(kept.status == 303);
  CHECK(kept.location == "/seller/drayman?kept=yes");
  CHECK(read_aloud(shop.get(kept.location)).find("In the book: the appraisal of 2025-06-30 Mon, ") !=
        std::string::npos);
  const auto all = book::appraisals_of(shop.book(), "drayman");
  REQUIRE(all.size() == 2);
  CHECK(all[1].job == file);
  CHECK(all[1].settled ==
        "by_hand = [{ at = \"cause.3.odds\", is = [5] }, { at = \"shop.hour\", is = [25] }]\n");
  const appraisal::Job now = *answers::job_as_found(shop.book(), "drayman");
  CHECK(now.causes[3].odds == 5);
  CHECK(now.shop.hour == 25);
  // The same file with the two figures edited says the same.
  std::string edited = file;
  edited.replace(edited.find("hour            = 20"), 20, "hour            = 25");
  edited.replace(edited.find("odds       = 30"), 15, "odds       = 5 ");
  answers::ToAppraise by_file =
      answers::file_to_appraise(edited, "job.toml", &shop.book(), Currency{}, shop.today);
  answers::see(by_file, {"1=1"});
  const appraisal::Appraisal expected =
      appraisal::appraise(by_file.job, appraisal::sound_value_of(by_file.job));
  CHECK(text(*parse_json(all[1].figures)->find("walk_away"), "price") ==
        Money::of_minor(std::llround(expected.walk_away.price * 100)).plain(Currency{}));
  CHECK(says(changed, Money::of_minor(std::llround(expected.walk_away.price * 100)).shown(Currency{})));
  // Sent once more it is not kept once more.
  shop.post("/seller/drayman", {{"by.cause.3.odds", "5"}, {"by.shop.hour", "25"}});
  CHECK(book::appraisals_of(shop.book(), "drayman").size() == 2);
}

TEST_CASE("figures changed by hand come through an export with the file that they stand beside", "[page]") {
  YardShop shop;
  shop.look_at("drayman");
  shop.post("/seller/drayman", {{"by.value.sound", "5200, 5900, 6700"}, {"asked", "2400"}});
  book::export_to(shop.book(), shop.folder() / "out", true, shop.today);
  const auto again = shop.folder() / "again.book";
  book::restore(shop.folder() / "out", again, {shop.now, shop.today, words::appraise_for_book, {}});
  const book::Book restored = book::Book::open(again);
  const appraisal::Job job = *answers::job_as_found(restored, "drayman");
  CHECK(job.sound->low == 5200);
  CHECK(job.sound->high == 6700);
  CHECK(job.deal.asking == 2400);
  CHECK(book::appraisals_of(restored, "drayman")[1].figures ==
        book::appraisals_of(shop.book(), "drayman")[1].figures);
}

TEST_CASE("a figure that the appraisal does not have, and one that is no number, are refused", "[page]") {
  YardShop shop;
  shop.look_at("drayman");
  CHECK(says(shop.get("/seller/drayman?by.cause.9.odds=5"),
             "changed by hand: found a figure (cause.9.odds) that the appraisal of drayman does not have, or "
             "has no more; look at "
             "it again"));
  CHECK(says(shop.get("/seller/drayman?by.shop.hour=-5"),
             "the shop, an own hour has to earn: found \"-5\", expected a number, or low, likely and high"));
  CHECK(says(shop.get("/seller/drayman?seen=9:1"),
             "seen: found 9:1, and the appraisal of drayman has no such test and outcome"));
  CHECK(says(shop.get("/seller/drayman?seen=once"),
             "seen: found \"once\", expected the numbers of tests and outcomes, such as 1:2,3:0"));
}

TEST_CASE("bought takes along what was seen, once", "[page]") {
  YardShop shop;
  shop.look_at("drayman");
  shop.Shop::post(R"({ do = "owner in", date = 2025-06-01, purse = "cash", amount = 3000.00 })");
  const Fields form = {{"do", "buy"},
                       {"vehicle", "drayman"},
                       {"price", "1900"},
                       {"purse", "cash"},
                       {"tests_seen", "watch the security lamp while cranking=lamp flashes"},
                       {"next", "/car/drayman"},
                       {"kept", "0123456789abcdef0123456789abcdef"}};
  CHECK(shop.post("/entry", form).status == 303);
  CHECK(shop.post("/entry", form).status == 303);
  const auto findings = book::findings(shop.book(), "drayman");
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].text == "tests seen, before it was decided");
  CHECK(findings[0].facts[0].name == "watch the security lamp while cranking");
  CHECK(findings[0].facts[0].value == "lamp flashes");
  CHECK(book::life_of(shop.book(), "drayman").state == book::State::owned);
}

namespace {

// drayman looked at, and then once more at another price asked: by which of the two it was decided is what a form says.
struct DecidedShop : YardShop {
  book::KeptAppraisal decided;
  DecidedShop() {
    Shop::post(R"({ do = "owner in", date = 2025-06-01, purse = "cash", amount = 3000.00 })");
    look_at("drayman");
    decided = *book::appraisal_known(book(), "drayman");
  }
  void look_again() {
    std::string other = sample("drayman/job.toml");
    other.replace(other.find("asking = 2750"), 13, "asking = 2700");
    keep(other);
    REQUIRE(in_force() != answers::named(decided));
  }
  std::string in_force() { return answers::named(*book::appraisal_in_force(book(), "drayman")); }
  Fields bought(const std::string& day) {
    return {{"do", "buy"},     {"vehicle", "drayman"}, {"price", "1900"},
            {"purse", "cash"}, {"date", day},          {"decided_by", answers::named(decided)}};
  }
};

}  // namespace

TEST_CASE("a car is bought under the appraisal that it was decided by, whatever was kept meanwhile",
          "[page]") {
  DecidedShop shop;
  const Value along = *parse_json(shop.get("/take-along/drayman.json").body);
  CHECK(text(along, "appraisal") == answers::named(shop.decided));
  shop.look_again();
  CHECK(says(shop.post("/entry", shop.bought("2025-06-30")),
             "it was decided by the appraisal of 2025-06-30, and stands under that one; another was kept "
             "meanwhile, on 2025-06-30"));
  CHECK(shop.in_force() == answers::named(shop.decided));
  // It goes where its purchase goes: taken back, the later one is in force; put right, it is kept with the new one.
  shop.post("/correct/2", {{"amount", "1800"}});
  CHECK(shop.in_force() == answers::named(shop.decided));
  CHECK(book::appraisal_in_force(shop.book(), "drayman")->bought_by == 4);
  shop.post("/undo", {});
  CHECK(shop.in_force() == answers::named(shop.decided));
  CHECK(book::appraisal_in_force(shop.book(), "drayman")->bought_by == 6);
  shop.Shop::post(R"({ do = "void", date = 2025-06-30, entry = 6, why = "it was not" })");
  CHECK(book::life_of(shop.book(), "drayman").bought == 0);
  CHECK(shop.in_force() != answers::named(shop.decided));
}

TEST_CASE("what is taken along comes part after part, and is the same as in one", "[page]") {
  YardShop shop;
  shop.look_at("drayman");
  const Value whole = *parse_json(shop.get("/take-along/drayman.json").body);
  CHECK(text(whole, "how_whole") == "27 states of the tests, all there are");
  std::vector<std::string> keys;
  for (std::string from = "0"; !from.empty();) {
    const Value part = *parse_json(shop.get("/take-along/drayman.json?from=" + from).body);
    REQUIRE(!part.find("states")->entries.empty());
    for (const auto& [key, state] : part.find("states")->entries) {
      keys.push_back(key);
      CHECK(text(state, "walk_away") == text(*whole.find("states")->find(key), "walk_away"));
    }
    const Value* go_on = part.find("go_on");
    from = go_on && go_on->kind == Value::Kind::whole ? go_on->text : "";
    if (from.empty()) CHECK(text(part, "how_whole") == text(whole, "how_whole"));
  }
  CHECK(keys.size() == 27);
  CHECK(says(shop.get("/take-along/drayman.json?from=all"),
             "take along: found \"all\", expected how many states are there"));
}

TEST_CASE("a purchase dated before its appraisal was kept stands under it, and says so", "[page]") {
  DecidedShop shop;
  CHECK(says(shop.post("/entry", shop.bought("2025-06-28")),
             "it was decided by the appraisal of 2025-06-30, and stands under that one, though it was bought "
             "before that, on 2025-06-28"));
  CHECK(shop.in_force() == answers::named(shop.decided));
}

TEST_CASE("an appraisal that the book does not have is told, and under which the purchase stands instead",
          "[page]") {
  DecidedShop shop;
  Fields form = shop.bought("2025-06-30");
  form.back().second = std::string(64, 'a');
  CHECK(says(shop.post("/entry", form),
             "the appraisal that it was decided by is not in this book: it stands under that of 2025-06-30"));
  Fields other = form;
  other[1].second = "wren";
  other.emplace_back("new", "wren");
  CHECK(says(shop.post("/entry", other),
             "the appraisal that it was decided by is not in this book: it stands under none"));
}

TEST_CASE("leaving a car keeps no appraisal, and what the newer one knows no name for is kept in words",
          "[page]") {
  DecidedShop shop;
  std::string other = YardShop::sample("drayman/job.toml");
  const std::string name = "watch the security lamp while cranking";
  other.replace(other.find(name), name.size(), "look at the lamp");
  shop.keep(other);
  const Answer left = shop.post("/entry", {{"do", "pass"},
                                           {"vehicle", "drayman"},
                                           {"why", "rot"},
                                           {"tests_seen", name + "=lamp flashes"},
                                           {"decided_by", answers::named(shop.decided)}});
  INFO(read_aloud(left));
  CHECK(
      says(left, "it was decided by the appraisal of 2025-06-30; another was kept meanwhile, on 2025-06-30"));
  CHECK(
      read_aloud(left).find("what tests have shown is kept in words only: note: the appraisal of drayman of "
                            "2025-06-30 knows no test \"" +
                            name + "\", expected one of") != std::string::npos);
  CHECK(book::appraisals_of(shop.book(), "drayman").size() == 2);
  const auto findings = book::findings(shop.book(), "drayman");
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].text == "tests seen, before it was decided: " + name + "=lamp flashes");
  CHECK(findings[0].facts.empty());
}

TEST_CASE("a car that is bought by the appraisal in force keeps no second one", "[page]") {
  YardShop shop;
  shop.look_at("drayman");
  shop.Shop::post(R"({ do = "owner in", date = 2025-06-01, purse = "cash", amount = 3000.00 })");
  const auto decided = *book::appraisal_known(shop.book(), "drayman");
  CHECK(shop.post("/entry", {{"do", "buy"},
                             {"vehicle", "drayman"},
                             {"price", "1900"},
                             {"purse", "cash"},
                             {"decided_by", answers::named(decided)}})
            .status == 303);
  CHECK(book::appraisals_of(shop.book(), "drayman").size() == 1);
}

TEST_CASE("the list shows cars that were looked at, and apart those that were left", "[page]") {
  YardShop shop;
  CHECK(says(shop.get("/seller"), "No car was looked at: an appraisal has to be kept first, at the prompt."));
  shop.look_at("drayman");
  const std::string read = read_aloud(shop.get("/seller"));
  CHECK(read.find("<drayman -> /seller/drayman> | offer less | 1,906.97 | 2,750.00 | 2025-06-30") !=
        std::string::npos);
  const Answer left =
      shop.post("/entry", {{"do", "pass"}, {"vehicle", "drayman"}, {"why", "rot"}, {"next", "/seller"}});
  CHECK(left.location == "/seller?entry=1");
  CHECK(read_aloud(shop.get("/seller")).find("\nLeft\n") != std::string::npos);
  CHECK(says(shop.get(left.location),
             "In the book: entry 1, pass: drayman, rot. <Put it right -> /correct/1>"));
  const std::string job = read_aloud(shop.get("/car/drayman"));
  CHECK(job.find("\nIt was left: nothing is to be done on it.\n") != std::string::npos);
  CHECK(job.find("[Done]") == std::string::npos);
}

TEST_CASE("a job without ranges says in one sentence how it comes out", "[page]") {
  YardShop shop;
  shop.keep(YardShop::sample("five-cars/tern.toml"));
  const std::string read = read_aloud(shop.get("/seller/tern"));
  INFO(read);
  CHECK(
      read.find(
          "\nHow it may come out\nNo figure of the appraisal is a range: the cash profit is about 900.\n") !=
      std::string::npos);
  CHECK(read.find("Cash profit and its chance") == std::string::npos);
}
