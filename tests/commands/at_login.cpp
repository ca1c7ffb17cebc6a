#include "commands/at_login.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

#include "book/fixture.h"

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
