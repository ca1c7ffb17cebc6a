#include "book/ledger/desk_notes.h"

#include <fmt/format.h>
#include <nettle/sha2.h>

#include <cstring>

#include "book/ledger/query.h"
#include "text/unicode.h"

namespace nonrunner::book {

namespace {

std::string hexadecimal(const void* bytes, std::size_t size) {
  std::string text;
  for (std::size_t i = 0; i < size; ++i)
    text += fmt::format("{:02x}", static_cast<const unsigned char*>(bytes)[i]);
  return text;
}

std::string field(std::string_view text) { return fmt::format("{}:{}", text.size(), text); }

Hash digest(std::string_view bytes) {
  sha256_ctx context;
  sha256_init(&context);
  sha256_update(&context, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
  Hash hash;
  sha256_digest(&context, hash.size(), hash.data());
  return hash;
}

std::string digest_in_hexadecimal(std::string_view bytes) {
  const Hash hash = digest(bytes);
  return hexadecimal(hash.data(), hash.size());
}

struct Note {
  std::int64_t note = 0;
  std::string what;
  std::optional<std::string> value;
  EntryId entry = 0;
  std::string recorded;
};

// Each field with its length, after the seal of the note before and that of the last entry.
Hash sealed(const Note& note, const std::string& before, const std::string& entry_seal) {
  return digest(field(before) + field(entry_seal) + field(std::to_string(note.note)) + field(note.what) +
                (note.value ? "v" + field(*note.value) : "-") + field(std::to_string(note.entry)) +
                field(note.recorded));
}

// The kinds of things: how they are called, and what they say, from their tables. `key` is what follows the
// word.
struct Kind {
  const char* word;
  const char* rows;  // key and what is said, the one asked for where :key is not null
  bool long_text;    // what is said is kept as its SHA-256
};
constexpr Kind kinds[] = {
    {"setting", "SELECT name, value FROM setting WHERE name = coalesce(:key, name)", false},
    {"comparable",
     "SELECT comparable, quote(price) || ' ' || kind || ' ' || odometer || ' ' || year || ' ' || grade || ' "
     "' || day || ' ' "
     "|| quote(model) || ' ' || quote(note) FROM comparable WHERE comparable = coalesce(:key, comparable)",
     false},
    {"heading",
     "SELECT vehicle || ' ' || what, heading FROM assigned WHERE vehicle || ' ' || what = coalesce(:key, "
     "vehicle || ' ' || what)",
     false},
    {"file", "SELECT sha256, day || ' ' || name FROM taken_in WHERE sha256 = coalesce(:key, sha256)", false},
    {"appraisal",
     "SELECT appraisal, vehicle || ' ' || day || ' ' || coalesce(entry, 0) || ' ' || after_entry || ' ' || "
     "quote(job) || "
     "' ' || quote(settled) || ' ' || quote(figures) FROM appraisal WHERE appraisal = coalesce(:key, "
     "appraisal)",
     true}};

std::string said(const Kind& kind, const std::string& text) {
  return kind.long_text ? digest_in_hexadecimal(text) : text;
}

const Kind& kind_of(const std::string& what, std::string& key) {
  const auto blank = what.find(' ');
  key = what.substr(blank + 1);
  for (const Kind& kind : kinds)
    if (what.substr(0, blank) == kind.word) return kind;
  throw std::logic_error("nothing on the desk is called " + what);
}

std::string seal_of_entry(const Book& book, EntryId entry) {
  const auto hash =
      first<std::string>(book, "SELECT hash FROM entry WHERE entry = :entry", {{":entry", entry}});
  return hash ? hexadecimal(hash->data(), hash->size()) : "";
}

void write(Recording& recording, const std::string& what, const std::optional<std::string>& value) {
  Book& book = recording.book();
  const DeskHead head = desk_head(book);
  const Note note{head.note + 1, what, value, last_entry(book), recording.now()};
  const Hash hash = sealed(note, head.seal, seal_of_entry(book, note.entry));
  auto& insert = book.query("INSERT INTO desk_note VALUES (?, ?, ?, ?, ?, ?)");
  insert.bind(1, note.note);
  insert.bind(2, note.what);
  if (note.value)
    insert.bind(3, *note.value);
  else
    insert.bind(3);
  insert.bind(4, note.entry);
  insert.bind(5, note.recorded);
  insert.bind(6, hash.data(), static_cast<int>(hash.size()));
  insert.exec();
  recording.notes_named = false;
}

// The chain of notes read anew, and what their last ones say.
std::vector<std::string> chain_findings(const Book& book, Desk& noted) {
  std::vector<std::string> findings;
  std::string before;
  std::int64_t expected = 1;
  rows(book, "SELECT note, what, value, entry, recorded, hash FROM desk_note ORDER BY note", {},
       [&](const Row& row) {
         Note note;
         std::string hash;
         row.into(note.note, note.what, note.value, note.entry, note.recorded, hash);
         const std::string seal = hexadecimal(hash.data(), hash.size());
         const Hash anew = sealed(note, before, seal_of_entry(book, note.entry));
         if (note.note != expected) findings.push_back(fmt::format("note {}: is missing", expected));
         if (hexadecimal(anew.data(), anew.size()) != seal)
           findings.push_back(
               fmt::format("note {} ({}): it, or what stood before it, was changed behind the program's back",
                           note.note, cut_to(note.what, 60)));
         expected = note.note + 1;
         before = seal;
         if (note.value)
           noted[note.what] = *note.value;
         else
           noted.erase(note.what);
       });
  each<EntryId, std::int64_t>(
      book,
      "SELECT b.entry, b.note FROM noted_before b LEFT JOIN desk_note n USING (note) WHERE n.note IS NULL OR "
      "lower(hex(n.hash)) <> b.seal",
      {}, [&](EntryId entry, std::int64_t note) {
        findings.push_back(fmt::format("note {}: is not the one that entry {} names", note, entry));
      });
  return findings;
}

}  // namespace

DeskHead desk_head(const Book& book) {
  DeskHead head;
  each<std::int64_t, std::string>(book, "SELECT note, hash FROM desk_note ORDER BY note DESC LIMIT 1", {},
                                  [&](std::int64_t note, const std::string& hash) {
                                    head = {note, hexadecimal(hash.data(), hash.size())};
                                  });
  return head;
}

Desk desk_of(const Book& book) {
  Desk desk;
  for (const Kind& kind : kinds)
    each<std::string, std::string>(book, kind.rows, {}, [&](const std::string& key, const std::string& text) {
      desk[std::string(kind.word) + " " + key] = said(kind, text);
    });
  return desk;
}

std::optional<std::string> thing_on_desk(const Book& book, const std::string& what) {
  std::string key;
  const Kind& kind = kind_of(what, key);
  const bool number = std::strcmp(kind.word, "comparable") == 0 || std::strcmp(kind.word, "appraisal") == 0;
  const Bound asked = number ? Bound(":key", static_cast<std::int64_t>(std::stoll(key))) : Bound(":key", key);
  std::optional<std::string> value;
  row(book, kind.rows, {asked}, [&](const Row& found) { value = said(kind, found.text(1)); });
  return value;
}

void note_desk(Recording& recording, const std::string& what) {
  write(recording, what, thing_on_desk(recording.book(), what));
}

void note_desk_as_found(Recording& recording) {
  if (desk_head(recording.book()).note != 0) return;
  for (const auto& [what, value] : desk_of(recording.book())) write(recording, what, value);
}

std::optional<std::pair<std::int64_t, std::string>> unnamed_note(const Book& book) {
  const DeskHead head = desk_head(book);
  if (head.note == 0) return std::nullopt;
  if (first<int>(book, "SELECT 1 FROM noted_before WHERE note = :note", {{":note", head.note}}))
    return std::nullopt;
  return std::pair(head.note, head.seal);
}

std::vector<std::string> desk_findings(const Book& book) {
  Desk noted;
  std::vector<std::string> findings = chain_findings(book, noted);
  // Nothing was recorded in it yet by a version that takes notes.
  if (desk_head(book).note == 0) return findings;
  const Desk now = desk_of(book);
  for (const auto& [what, value] : noted) {
    const auto found = now.find(what);
    if (found == now.end())
      findings.push_back(fmt::format("{}: was taken away behind the program's back", cut_to(what, 100)));
    else if (found->second != value)
      findings.push_back(fmt::format("{}: was changed behind the program's back", cut_to(what, 100)));
  }
  for (const auto& [what, value] : now)
    if (!noted.contains(what))
      findings.push_back(fmt::format("{}: was added behind the program's back", cut_to(what, 100)));
  return findings;
}

}  // namespace nonrunner::book
