#include "commands/at_login.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

#include "book/care/devices.h"
#include "book/fixture.h"
#include "commands/command.h"
#include "commands/terminal.h"

using namespace nonrunner;
using namespace nonrunner::commands;

TEST_CASE("the unit runs the program with its words as they are", "[commands]") {
  CHECK(unit_text({"/usr/bin/nonrunner", "serve", "--book", "/home/ada/my $hop 100%\"\\.book"}) ==
        "[Unit]\nDescription=The page of the shop\n\n[Service]\n"
        "ExecStart=\"/usr/bin/nonrunner\" \"serve\" \"--book\" \"/home/ada/my $$hop 100%%\\\"\\\\.book\"\n"
        "Restart=on-failure\nRestartSec=10\nUMask=0077\nNoNewPrivileges=yes\n\n[Install]\nWantedBy=default."
        "target\n");
}

TEST_CASE("a unit is written, written over and removed with the link that wants it", "[commands]") {
  book::TemporaryFolder folder;
  const auto unit = write_unit(folder.path(), "one\n");
  CHECK(unit == folder.path() / "systemd/user/nonrunner.service");
  write_unit(folder.path(), "two\n");
  std::stringstream text;
  text << std::ifstream(folder.path() / "systemd/user/default.target.wants/nonrunner.service").rdbuf();
  CHECK(text.str() == "two\n");
  CHECK(remove_unit(folder.path()));
  CHECK_FALSE(std::filesystem::exists(unit));
  CHECK_FALSE(
      std::filesystem::is_symlink(folder.path() / "systemd/user/default.target.wants/nonrunner.service"));
  CHECK_FALSE(remove_unit(folder.path()));
}

TEST_CASE("the house that opens by itself is the one that the phones were paired by", "[commands]") {
  book::Shop shop;
  const auto unit_after = [&](std::vector<std::string> more) {
    std::ostringstream out, err;
    std::vector<std::string> words{"serve", "--at-login", "on", "--book", shop.file().string()};
    words.insert(words.end(), more.begin(), more.end());
    Terminal terminal{out, err, false, false, shop.today, shop.now, {}};
    terminal.environment["XDG_CONFIG_HOME"] = shop.folder().string();
    REQUIRE(run(words, terminal) == 0);
    std::stringstream text;
    text << std::ifstream(shop.folder() / "systemd/user/nonrunner.service").rdbuf();
    return out.str() + text.str();
  };
  const std::string alone = unit_after({});
  CHECK(alone.find("on this machine only: with --lan ADDRESS a phone reaches it too\n") != std::string::npos);
  CHECK(alone.find("--lan\"") == std::string::npos);
  shop.record([](book::Recording& recording) {
    book::set_house_address(recording, {"https", "192.168.1.20", 8500}, false);
  });
  // Nobody is let in by that address: it is not opened to the network.
  CHECK(unit_after({}).find("--lan\"") == std::string::npos);
  shop.record([](book::Recording& recording) {
    book::pair(recording, book::open_code(recording), "phone", "me", "https://192.168.1.20:8500");
  });
  const std::string home = unit_after({});
  CHECK(home.find("in the home network: https://192.168.1.20:8500/\n") != std::string::npos);
  CHECK(home.find("\"--port\" \"8500\" \"--lan\" \"192.168.1.20\" \"--authority\"\n") != std::string::npos);
}
