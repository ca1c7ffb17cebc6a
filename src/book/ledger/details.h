// The cells of an entry's details that are read by their place, each named once: in the order of the columns that
// detail_tables() lists (entry.h), against which tests/book/details.cpp holds them.
#pragma once
#include <cstddef>
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

namespace cells {
namespace line {
enum : std::size_t { number };
}
namespace given_back {
enum : std::size_t { line, what, quantity, goods, tax, kept };
}
namespace paper {
enum : std::size_t { supplier, number };
}
namespace labour {
enum : std::size_t { vehicle, operation, own, paid };
}
namespace mention {
enum : std::size_t { vehicle };
}
namespace life {
enum : std::size_t { vehicle, turn };
}
namespace purpose {
enum : std::size_t { vehicle, kind, what, line, quantity, amount, stands };
}
namespace charged {
enum : std::size_t { line };
}
namespace shelf {
enum : std::size_t { item, what, about, vehicle, line, quantity, amount, said };
}
namespace stood {
enum : std::size_t { day, own, paid };
}
}  // namespace cells

const std::string& text_in(const Detail&, std::size_t cell);
std::int64_t number_in(const Detail&, std::size_t cell);
// The cars that an entry is about, in the order in which it names them.
std::vector<std::string> mentioned_in(const Entry&);

}  // namespace nonrunner::book
