// Photographs: one that belongs to an entry is kept beside the book, as an attachment is; one that is kept is
// shown by its SHA-256.
#include <fmt/format.h>

#include <array>
#include <fstream>

#include "book/events/attach.h"
#include "book/ledger/kept.h"
#include "book/ledger/query.h"
#include "page/entry.h"
#include "page/rooms.h"
#include "words/entered.h"

namespace nonrunner::page {

namespace {

const char* ending_of(const std::string& media_type) {
  if (media_type == "image/png") return "png";
  if (media_type == "image/webp") return "webp";
  return "jpg";
}

// By its first bytes; empty: no picture that a browser shows.
std::string type_of(const std::filesystem::path& file) {
  std::array<char, 12> head{};
  std::ifstream(file, std::ios::binary).read(head.data(), head.size());
  const std::string_view first(head.data(), head.size());
  if (first.starts_with("\xff\xd8\xff")) return "image/jpeg";
  if (first.starts_with("\x89PNG\r\n\x1a\n")) return "image/png";
  if (first.starts_with("RIFF") && first.substr(8) == "WEBP") return "image/webp";
  return "";
}

// The first car that the entry is about.
std::string car_of(const book::Book& book, book::EntryId entry) {
  return book::first<std::string>(book,
                                  "SELECT vehicle FROM mention WHERE entry = :entry ORDER BY rowid LIMIT 1",
                                  {{":entry", entry}})
      .value_or("");
}

// The entry that stands in its place where it was put right or gave its place to its paper.
book::EntryId as_it_counts_now(const book::Book& book, book::EntryId entry) {
  for (int step = 0; step < 100; ++step) {
    const auto reversal =
        book::first<book::EntryId>(book, "SELECT entry FROM entry WHERE voids = :entry", {{":entry", entry}});
    if (!reversal) return entry;
    const auto next = book::first<book::EntryId>(
        book,
        "SELECT min(n.entry) FROM entry n JOIN entry o ON o.entry = :entry WHERE n.entry > :reversal AND "
        "n.kind = o.kind AND n.recorded = (SELECT recorded FROM entry WHERE entry = :reversal)",
        {{":entry", entry}, {":reversal", *reversal}});
    if (!next || *next == 0) return entry;
    entry = *next;
  }
  return entry;
}

}  // namespace

namespace rooms {

Answer keep_photo(Visit& visit) {
  const auto kept = book::kept_as(visit.book, visit.stars.front());
  Answer answer;
  answer.type = "application/json";
  if (!kept || kept->entry == 0) {
    answer.status = 404;
    answer.body = words::entered_as_json("refused", 0, "its entry is not in the book; send that first");
    return answer;
  }
  const book::EntryId entry = as_it_counts_now(visit.book, kept->entry);
  book::Attach attach;
  attach.day = visit.today;
  attach.vehicle = car_of(visit.book, entry);
  attach.entry = entry;
  attach.file = visit.request.uploaded;
  attach.name = fmt::format("entry-{}.{}", entry, ending_of(visit.request.media_type));
  if (attach.vehicle.empty())
    throw Refusal(fmt::format("photo: entry {} is about no car, expected one whose photograph it is", entry));
  const std::string hash = book::sha256_of_file(attach.file);
  for (const book::Photo& there : book::photos_of(visit.book, entry))
    if (there.sha256 == hash) {
      answer.body = words::entered_as_json("there already", entry, "");
      return answer;
    }
  std::vector<std::string> remarks;
  record_here(
      visit, [&](book::Recording& recording) { return record(recording, attach); }, remarks);
  answer.status = 201;
  answer.body = words::entered_as_json("in the book", entry, "");
  return answer;
}

Answer show_photo(Visit& visit) {
  const std::string& hash = visit.stars.front();
  Answer answer;
  const bool known = book::is_sha256(hash) &&
                     book::first<std::int64_t>(visit.book, "SELECT 1 FROM attachment WHERE sha256 = :hash",
                                               {{":hash", hash}});
  const std::filesystem::path file = known ? visit.book.attachments() / hash : std::filesystem::path();
  answer.type = known ? type_of(file) : "";
  if (!answer.type.empty()) {
    answer.file = file;
    return answer;
  }
  answer =
      page(visit, "No such photograph", html("<p>{}</p>\n", "The book keeps no photograph of that name."));
  answer.status = 404;
  return answer;
}

}  // namespace rooms

}  // namespace nonrunner::page
