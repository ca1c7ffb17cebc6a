// Photographs: one that belongs to an entry is kept beside the book, as an attachment is; one that is kept is
// shown by its SHA-256.
#include <fmt/format.h>

#include <array>
#include <fstream>

#include "book/events/attach.h"
#include "book/ledger/kept.h"
#include "book/questions/attached.h"
#include "book/questions/entry_now.h"
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
  const book::EntryId entry = book::as_it_counts_now(visit.book, kept->entry);
  book::Attach attach;
  attach.day = visit.today;
  attach.vehicle = book::first_car_of(visit.book, entry);
  attach.entry = entry;
  attach.file = visit.request.uploaded;
  attach.name = fmt::format("entry-{}.{}", entry, ending_of(visit.request.media_type));
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
  const bool known = book::is_attached(visit.book, hash);
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
