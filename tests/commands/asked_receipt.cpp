// A whole paper, asked for line by line.
#include <sys/stat.h>

#include <catch2/catch.hpp>
#include <sstream>

#include "book/ledger/entry.h"
#include "book/questions/figures.h"
#include "commands/counter.h"
#include "text/toml.h"

using namespace nonrunner;
namespace fs = std::filesystem;

namespace {

class Table : public commands::Counter {
 public:
  explicit Table(const std::string& name) : Counter(name) {
    run({"owner", "in", "2500", "--purse", "cash", "--date", "2026-04-01"});
    run({"buy", "pip", "900", "--date", "2026-04-20"});
    run({"plan", "pip", "60", "radiator"});
    run({"receipt", "pip", "9", "rags", "--supplier", "Cleave Yard", "--kind", "consumable", "--whole",
         "--date", "2026-04-21"});
  }
  // The answers, one a line; gives what was asked and said.
  std::string answer(const std::string& typed, const commands::Words& options = {}, std::size_t columns = 0) {
    std::ostringstream out, err;
    std::istringstream in(typed);
    commands::Terminal terminal{out, err,    true, true, today, "2026-05-02T12:00:00Z", {{"LOGNAME", "ann"}},
                                &in, columns};
    commands::Words words = {"receipt", "--book", book().string()};
    words.insert(words.end(), options.begin(), options.end());
    status = commands::run(words, terminal);
    return err.str() + out.str();
  }
  fs::path draft() const { return book().string() + ".draft-ann"; }
  book::Entry entry(book::EntryId number) { return book::load_entry(book::Book::open(book()), number); }
};

}  // namespace

TEST_CASE("a paper by questions: supplier and lines by number, tax on some of them, the difference shown",
          "[commands]") {
  Table table("asked-paper");
  const std::string said = table.answer(
      "1\n3071\nfri\n"      // Cleave Yard, its number, Friday
      "1\n\n48\n8\n15\n\n"  // line 1: the radiator of pip, one, 48.00, core 8.00 by the 15th; another line
      "yard entrance\n\nfee\n\n2,25\nn\n"
      "3.12\n1\n\n\n"   // tax, on the first line
      "61.73\n61.37\n"  // a slip, then as printed
      "\n\n"            // the purse that is usual, keep
      "n\n");           // the entrance does not stand under the radiator
  CHECK(said.find("   1  Cleave Yard\nsupplier? (a number, or its name) number of the paper? (Enter: none) "
                  "day? [today] ") != std::string::npos);
  CHECK(said.find("still to come:\n   1  pip: radiator\nline 1: what? (a number, or words)   pieces? [1]   "
                  "amount?   core "
                  "deposit on one? [0]   its last day? [none] another line? so far 56.00 [y] ") !=
        std::string::npos);
  CHECK(said.find("total, as printed? [61.37]   the lines come to 61.37, the paper says 61.73: 0.36 is "
                  "missing; < goes back to\n    what is wrong\ntotal, as printed? [61.37] ") !=
        std::string::npos);
  CHECK(said.find("2026-05-01 Cleave Yard 3071, 61.37 from cash\n  1 radiator for pip\n  1 yard entrance for "
                  "pip\nkeep it? [y] ") != std::string::npos);
  CHECK(said.find("entry 5: 61.37 from cash on 2 lines from Cleave Yard\n") != std::string::npos);
  CHECK(table.status == 0);
  CHECK(!fs::exists(table.draft()));
  const book::Book kept = book::Book::open(table.book());
  CHECK(book::dues(kept).at(0).by == Day(2026, 5, 15));
  CHECK(book::figures_of(kept, "pip", table.today).cost == Money::parse("962.37", Currency{}));
  CHECK(table.run({"show", "pip", "--detail"}).find("radiator") != std::string::npos);
}

TEST_CASE("what was typed is kept for the next call, readable by its owner only", "[commands]") {
  Table table("asked-draft");
  const std::string ended = table.answer("Cleave Yard\n3071\n");
  CHECK(
      ended.find(
          "nonrunner: receipt: the input ended before the paper was whole; what was typed is kept: nonrunner "
          "receipt goes on with it\n") != std::string::npos);
  CHECK(table.status == 1);
  struct stat file {};
  REQUIRE(::stat(table.draft().c_str(), &file) == 0);
  CHECK((file.st_mode & 0777) == 0600);
  CHECK(read_file(table.draft().string()) == "supplier\tCleave Yard\nnumber\t3071\n");
  const std::string on = table.answer("y\ntoday\nhose\n\n\n\n\n12\n\nn\n\n\n\n\n\n\n");
  CHECK(on.find("a paper of Cleave Yard was begun: go on with it? [Y/n]") == 0);
  CHECK(on.find("supplier?") == std::string::npos);
  CHECK(on.find("entry 5: 12.00 from cash for pip, hose\n") != std::string::npos);
  CHECK(!fs::exists(table.draft()));
  // Nobody wants the one that was begun.
  table.answer("Cleave Yard\n");
  const std::string anew = table.answer("n\nMillgate Parts\n");
  CHECK(anew.find("supplier? (a number, or its name)") != std::string::npos);
  CHECK(read_file(table.draft().string()) == "supplier\tMillgate Parts\n");
}

TEST_CASE("< goes back a step, as often as there are steps", "[commands]") {
  Table table("asked-back");
  table.answer("Cleave Yard\n3071\n<\n3072\n<\n<\n<\n<\nMillgate Parts\n");
  CHECK(read_file(table.draft().string()) == "supplier\tMillgate Parts\n");
}

TEST_CASE("an answer that does not fit is said in one line and asked again; not kept is kept as a draft",
          "[commands]") {
  Table table("asked-wrong");
  const std::string said = table.answer(
      "7\nCleave Yard\n\n2026-06-01\ntoday\n"
      "lamp\nppi\npip\nprat\npart\nyard\nsalvage\n0\n2\n1,234\n@6.50\n-1\n0\nn\n"
      "-3\n0\n\n\n13\nbamk\ncash\nn\n");
  for (const char* line :
       {"  found 7, expected a number from 1 to 1, or who sold it\n",
        "  found 2026-06-01, which has not come yet, expected 2026-05-02 at the latest\n",
        "  found \"ppi\", expected pip, stock, tool, overhead or private, did you mean\n    \"pip\"?\n",
        "  found \"prat\", expected part, consumable, sublet or fee, did you mean \"part\"?\n",
        "  found \"yard\", expected new, salvage, reman or unsaid\n", "  found 0, expected more than 0\n",
        "  found \"1,234\", which may be 1234 or 1.234; write 1234 or 1.23\n",
        "  found -1.00, expected 0 or more\n", "  found -3.00, expected 0 or more\n",
        "  found \"bamk\", expected cash or on account\n",
        "nonrunner: receipt: not kept; what was typed waits: nonrunner receipt goes on with it\n"}) {
    INFO(line << "\nin\n" << said);
    CHECK(said.find(line) != std::string::npos);
  }
  CHECK(table.status == 1);
  CHECK(table.answer("\n\n").find("entry 5: 13.00 from cash for pip, lamp\n") != std::string::npos);
}

TEST_CASE(
    "a paper takes the place of the quick line that waited for it, and where nobody sits nothing is asked",
    "[commands]") {
  Table table("asked-tray");
  table.run({"receipt", "pip", "13", "lamp", "--supplier", "Cleave Yard"});
  const std::string said = table.answer("1\n\n\nlamp\n\n\n\n\n13\n\nn\n\n\n\n\n\n\n\n");
  CHECK(said.find("may be the paper of a quick line in the tray") != std::string::npos);
  CHECK(table.run({"tray"}) == "the tray is empty: every paper is in the book\n");
  CHECK(table.run({"receipt"}) ==
        "nonrunner: receipt: found no words, expected TAG AMOUNT WHAT, or --file or --csv; questions are "
        "asked at a "
        "terminal only; see: nonrunner receipt --help\n");
  CHECK(table.status == 2);
}

TEST_CASE("a paper may be of a car that was sold, and is asked about again where an answer is none",
          "[commands]") {
  Table table("asked-late");
  table.run({"sell", "pip", "1500", "--date", "2026-04-30"});
  table.answer("Cleave Yard\n");
  const std::string said =
      table.answer("starter motor\ny\n3071\n2026-04-29\nlamp\npup\npip\npart\n\n\n13\n\nn\n\n\n\n13\n\n\n");
  INFO(said);
  CHECK(said.find("found \"starter motor\", expected y or n\n") != std::string::npos);
  CHECK(said.find("  found \"pup\", expected pip, stock,") != std::string::npos);
  CHECK(said.find("entry 6: 13.00 from cash for pip, lamp\n") != std::string::npos);
}

TEST_CASE("a draft that fits the book no more, or is none, is asked anew from there", "[commands]") {
  Table table("asked-spoilt");
  std::ofstream(table.draft()) << "supplier\tCleave Yard\nnumber\t1\nday\tnever\nline 1 what\tlamp\n";
  table.answer("y\n");
  CHECK(table.answer("y\ntoday\n").find("day? [today]") != std::string::npos);
  CHECK(read_file(table.draft().string()) == "supplier\tCleave Yard\nnumber\t1\nday\t2026-05-02\n");
  std::ofstream(table.draft()) << "supplier\t\xff\xfe\n";
  CHECK(table.answer("").find("supplier?") != std::string::npos);
}

TEST_CASE(
    "a paper that the book refused at its end is gone on with at its last question, and shows what was typed",
    "[commands]") {
  Table table("asked-refused");
  table.run({"close", "2026-04-30"});
  std::ofstream(table.draft())
      << "supplier\tCleave Yard\nnumber\t3071\nday\t2026-05-01\nline 1 what\tlamp\n"
         "line 1 for\tpip\nline 1 kind\tpart\nline 1 source\tunsaid\nline 1 pieces\t2\n"
         "line 1 amount\t@6.50\nline 1 core\t8.00\nline 1 core by\t2026-04-02\n"
         "more after 1\tno\ntax\t0.00\nshipping\t2.00\ndiscount\t0.00\n"
         "total\t31.00\npurse\tcash\nkeep\tyes\n";
  const std::string refused = table.answer("y\n\n");
  CHECK(refused.find("a paper of Cleave Yard was begun: go on with it? [Y/n] Cleave Yard, 3071, 2026-05-01\n"
                     "  1  lamp, for pip, 2 pieces, 6.50 each, core 8.00\n  shipping 2.00\n  from cash\n") ==
        0);
  CHECK(refused.find("the last day for the core of \"lamp\" is 2026-04-02") != std::string::npos);
  CHECK(table.status == 1);
  // The summary and < come back: to the core's last day, and on from there.
  const std::string mended = table.answer("y\n<\n<\n<\n<\n<\n<\n<\nfri\nn\n0\n2\n0\n\n\n\n");
  INFO(mended);
  CHECK(mended.find("keeps what was typed\n2026-05-01 Cleave Yard 3071, 31.00 from cash\n  2 lamp for pip\n"
                    "keep it? [y] ") != std::string::npos);
  CHECK(book::dues(book::Book::open(table.book())).at(0).by == Day(2026, 5, 8));
}

TEST_CASE(
    "a supplier written nearly as a known one is asked about at its question, and taken when typed once more",
    "[commands]") {
  Table table("asked-nearly");
  const std::string said = table.answer("Cleve Yard\n\nCleve Yard\n");
  CHECK(said.find("  found \"Cleve Yard\", did you mean \"Cleave Yard\"? if it is a new one type it\n    "
                  "once more, as it "
                  "is\n") != std::string::npos);
  CHECK(read_file(table.draft().string()) == "supplier\tCleve Yard\n");
  // Not again where the draft is read, and not at the end.
  const std::string on = table.answer("y\n\ntoday\nhose\n\n\n\n\n12\n\nn\n\n\n13\n0\n\ncash\n\n");
  INFO(on);
  CHECK(on.find("did you mean") == std::string::npos);
  CHECK(on.find("  found 13.00, expected at most 12.00, what the paper comes to without it\n") !=
        std::string::npos);
  CHECK(on.find("entry 5: 12.00 from cash for pip, hose\n") != std::string::npos);
  // One whose paper was taken back is no known one.
  table.run({"void", "5", "wrong yard"});
  CHECK(table.answer("").find("   1  Cleave Yard\nsupplier?") != std::string::npos);
}

TEST_CASE("options without words answer their questions, and those that answer none are refused",
          "[commands]") {
  Table table("asked-beside");
  const std::string said = table.answer("3072\n", {"--supplier", "Tarn Tyres", "--date", "fri"});
  CHECK(said.find("supplier?") == std::string::npos);
  CHECK(said.find("day?") == std::string::npos);
  CHECK(read_file(table.draft().string()) == "supplier\tTarn Tyres\nnumber\t3072\nday\t2026-05-01\n");
  CHECK(table.answer("y\n", {"--supplier", "Cleave Yard"})
            .find("nonrunner: receipt: found options beside a paper that was begun, expected none") !=
        std::string::npos);
  CHECK(table.answer("n\n", {"--kind", "fee"})
            .find("nonrunner: receipt: found --kind without words, expected TAG AMOUNT WHAT beside it") == 0);
}

TEST_CASE("at 40 columns no question and no refusal inside them is wider than the screen", "[commands]") {
  Table table("asked-narrow");
  const std::string said = table.answer(
      "7\nCleave Yard\n\n2026-06-01\ntoday\n"
      "a bracket that holds the lamp\nppi\npip\nprat\npart\nyard\nsalvage\n2\n1,234\n@6.50\n-1\n0\nn\n"
      "0\n\n\n14\n13\nbamk\ncash\nn\n",
      {}, 40);
  // What was typed ends no line here: a prompt stands before the next text.
  CHECK(said.find("line 1: what? (a number, or words) ") != std::string::npos);
  CHECK(said.find("  for which car? (or stock, tool,\n    overhead, private) [pip] ") != std::string::npos);
  CHECK(said.find(
            "  found 2026-06-01, which has not come\n    yet, expected 2026-05-02 at the\n    latest\n") !=
        std::string::npos);
  CHECK(said.find("  the lines come to 13.00, the paper\n    says 14.00: 1.00 is missing; < goes\n    back "
                  "to what is "
                  "wrong\n") != std::string::npos);
  CHECK(said.find("  amount for all of them? (or each:\n    @12.50) ") != std::string::npos);
}

TEST_CASE("a number is one of the list only where it was typed beside that list", "[commands]") {
  Table table("asked-number");
  CHECK(table.answer("", {"--supplier", "1"}).find("number of the paper?") != std::string::npos);
  CHECK(read_file(table.draft().string()) == "supplier\t1\n");
  // Nor is it one where the draft is gone on with.
  CHECK(table.answer("y\n3071\n").find("number of the paper?") != std::string::npos);
  CHECK(read_file(table.draft().string()) == "supplier\t1\nnumber\t3071\n");
}

TEST_CASE("what was answered before < is the usual answer when it is asked again", "[commands]") {
  Table table("asked-again");
  const std::string said = table.answer("Cleave Yard\n3071\n\nrags\n\nconsumable\n\n22\n<\n<\n<\n\n\n\nn\n");
  CHECK(said.find("  part, consumable, sublet or fee? [consumable] ") != std::string::npos);
  CHECK(said.find("  amount? [22.00] ") != std::string::npos);
  CHECK(said.find("another line? so far 22.00 [y] tax? ") != std::string::npos);
}

TEST_CASE(
    "y or n in place of a further line's words is no thing that was bought, and a car looked at is a car",
    "[commands]") {
  Table table("asked-no");
  table.run({"pass", "kite", "asked", "too", "much", "--new"});
  const std::string said = table.answer("Cleave Yard\n\n\ndoor handle\nkite\n\n\n\n12\n\n\ny\nn\n");
  INFO(said);
  CHECK(said.find("  found \"y\", expected what else was bought; Enter: no other line\n") !=
        std::string::npos);
  CHECK(said.find(" (Enter: no other line) tax? ") != std::string::npos);
}
