// A question as a value: what is asked, the answers that there are, which of them Enter takes, and the option
// that gives each of them beforehand. Whoever knows the rule makes it; a terminal asks it, a page shows it,
// and where nobody is there to answer it is a refusal that names the options.
//
// An option is named as an events file names it (`replaces`, `on_account`); each front end spells it its own
// way.
#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace nonrunner::answers {

struct Choice {
  std::string key;     // what is typed for it: "y", "n", "38"
  std::string words;   // "it takes the place of entry 38"
  std::string option;  // "replaces"
  std::string value;   // "38"; empty: a switch
};

struct Question {
  std::string about;  // the event that it is asked for, as in a refusal: "receipt"
  std::string words;  // one line without a mark at its end
  std::vector<Choice> choices;
  std::optional<std::size_t> usual;  // what Enter takes; none: it has to be typed
};

// How a front end spells an option: "--replaces 38" at the command line, "replaces = 38" in a file.
using Spelling = std::string (*)(const Choice&);

// The refusal where nobody can be asked: `about: words; choice's words: option; ...`, one line.
std::string refusal_of(const Question&, Spelling);
// The choice that was typed: its key or its words, or for "y" and "n" the whole word, without case; blank is the usual
// one.
std::optional<std::size_t> choice_of(const Question&, const std::string& typed);

}  // namespace nonrunner::answers
