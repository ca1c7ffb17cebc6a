// Random stories of a shop over two years, every kind of event: sales that fall through, papers that come
// late, write-offs and passes taken back, closings. A story is possible on every day, by the bookkeeper by
// days; the same seed tells the same story on every machine.
#pragma once
#include <random>
#include <string>
#include <vector>

#include "book/dated_bookkeeper.h"

namespace dated {

struct Told {
  Event event;
  std::size_t number;              // in its part
  std::vector<std::size_t> after;  // the numbers of what has to be typed before it
};

struct Story {
  std::vector<std::vector<Told>> parts;  // between two of them the books are closed
  std::vector<int> closings;
  Bookkeeper keeper;
  int last = 0;  // the last day of it
};

class RandomStory {
 public:
  explicit RandomStory(std::uint64_t seed) : random_(seed) {}
  Story tell(int events);

 private:
  Number below(Number limit) { return static_cast<Number>(random_() % static_cast<std::uint64_t>(limit)); }
  Number from_to(Number least, Number most) { return least + below(most - least + 1); }
  bool chance(int percent) { return below(100) < percent; }
  template <class All>
  auto one_of(const All& all) {
    return *std::next(std::begin(all), below(static_cast<Number>(std::size(all))));
  }
  std::string purse();
  std::string a_car(const std::string& states);  // any of these, or empty
  std::string a_line(bool (*fits)(const LineNow&));
  Event made(const std::string& word, const std::string& tag, Number amount);

  Event propose();
  Event money();
  Event life();
  Event ending();
  Event paper();
  Line paper_line(int number);
  void add_backs(Event& paper);
  Event quick_line();
  Event back();
  Event shelf();
  Event part();
  Event deposit();
  Event work();
  Event put_right();
  Event taken_back();
  bool take(const Event&);
  void link(Told&);

  std::mt19937_64 random_;
  Story story_;
  Books now_;  // at the end of the day that is told
  int day_ = 0, made_ = 0;
};

}  // namespace dated
