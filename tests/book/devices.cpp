// Which device was at the page last.
#include "book/care/devices.h"

#include "book/fixture.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

// Lets one in at that time, as the page does.
Device let_in(Shop& shop, const std::string& name, const std::string& at) {
  Recording recording(shop.book(), at, shop.today);
  const Paired paired = pair(recording, open_code(recording), name, "bea", "http://127.0.0.1:8417");
  REQUIRE(paired.why == Paired::Why::paired);
  recording.keep();
  return paired.device;
}

void is_at_the_page(Shop& shop, const Device& device, const std::string& at) {
  Recording recording(shop.book(), at, shop.today);
  remember_seen(recording, device);
  recording.keep();
}

std::string last_seen(Shop& shop) {
  const auto last = seen_last(shop.book());
  return last ? last->name + " " + last->seen : "nobody";
}

}  // namespace

TEST_CASE("the device that was at the page last is named, but one that was forgotten", "[book][pairing]") {
  Shop shop;
  CHECK(last_seen(shop) == "nobody");
  const Device phone = let_in(shop, "phone", "2025-06-01T08:10:00Z");
  let_in(shop, "laptop", "2025-06-02T09:10:00Z");
  CHECK(last_seen(shop) == "laptop 2025-06-02T09:10:00Z");
  is_at_the_page(shop, phone, "2025-06-03T10:00:00Z");
  CHECK(last_seen(shop) == "phone 2025-06-03T10:00:00Z");
  Recording recording(shop.book(), "2025-06-04T10:00:00Z", shop.today);
  forget_device(recording, "phone");
  recording.keep();
  CHECK(last_seen(shop) == "laptop 2025-06-02T09:10:00Z");
}
