// One reading of the entries that count on a day, in the order of days; see dated_bookkeeper.h.
#pragma once
#include "book/dated_bookkeeper.h"

namespace dated {

class Reading {
 public:
  explicit Reading(Books& books) : books_(books) {}
  // All entries that count, from the earliest day on.
  void read(std::vector<const Counted*> entries);

 private:
  void impossible(const std::string& what) {
    if (books_.fault.empty()) books_.fault = what;
  }
  Vehicle& vehicle(const std::string& tag) { return books_.vehicles[tag]; }
  LineNow* line(const std::string& id);
  void spend(const std::vector<Part>& parts, Number amount, int stands);
  void spend_on(const Line& line, Number amount, int stands);

  // Within a day: what comes in, what went back, all draws together, the count.
  void money(const Counted&);
  void car(const Counted&);
  Number sale(const Event&, Vehicle&);
  void pay(const Event&, const Named& cost);
  void receipt(const Counted&);
  void came_in(const Counted&);
  void went_back(const Counted&);
  void draws(const std::vector<const Counted*>&);
  void count(const Counted&);

  void goods_back(const std::string& id, Number pieces, Number refund, const Counted&);
  void core_back(const std::string& id, Number pieces, Number received, std::optional<Number> share, int day);
  void tool_back(const std::string& id, const Line& line, Number refund, const Counted&);
  void transfer(const Counted&);
  void off_account(const Counted&, Number amount);

  Books& books_;
};

}  // namespace dated
