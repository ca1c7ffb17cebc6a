// Text as Unicode, over utf8proc: what is UTF-8, what a reader can see, how wide it stands, what it looks
// like.
//
// UTF-8 as the Unicode standard has it (table 3-7): overlong forms, surrogates and values beyond U+10FFFF are
// none. Unseen is what moves a cursor, turns the direction of writing or takes no room: the controls (C0,
// DEL, C1), the marks of format (zero-width blanks and joiners, bidirectional controls, the byte-order mark,
// soft hyphens, tags), the separators of lines and paragraphs, private and unassigned characters.
#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace nonrunner {

// The first byte that is no UTF-8; nothing where all of it is.
std::optional<std::size_t> broken_utf8(std::string_view);

// Reads the character at `at` and moves past it; U+FFFD, and one byte further, where it is no UTF-8.
char32_t next_character(std::string_view, std::size_t& at);

enum class Lines { one, many };  // many: tabs and line ends belong to the text
// The first character that nobody sees; U+FFFD stands for a byte that is no UTF-8.
std::optional<char32_t> unseen(std::string_view, Lines = Lines::one);
// The first letter, mark or sign by its class that shows nothing all the same: a filler, a cell of Braille without a dot.
std::optional<char32_t> filler(std::string_view);
// Blanks of any width and nothing else.
bool is_blank(std::string_view);

// UTF-8 whatever it was: a byte that is none becomes U+FFFD.
std::string made_utf8(std::string_view);
// One line that moves no cursor: a control becomes a blank, everything else that is unseen or broken U+FFFD.
std::string printable(std::string_view);

// Columns on a terminal: two for wide characters, none for marks that stand on another one.
std::size_t shown_width(std::string_view);
// printable(), and no wider than `width`: what is cut ends with "...".
std::string cut_to(std::string_view, std::size_t width);

// The same for words that look alike: small letters, without marks that are not seen, compatible forms as one
// (NFKC), and the letters of Greek and Cyrillic that look like Latin ones as these (after the table of
// Unicode Technical Standard 39; the common ones, from memory).
std::string likeness(std::string_view);

std::string code_point(char32_t);  // "U+202E"

}  // namespace nonrunner
