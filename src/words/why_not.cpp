#include "words/why_not.h"

namespace nonrunner::words {

std::string in_words(const answers::WhyNot& why) {
  using Kind = answers::WhyNot::Kind;
  switch (why.kind) {
    case Kind::paper_is_lost:
      return "the paper is lost, which bars the road";
    case Kind::cause_unknown:
      return "its cause is not in the appraisal";
    case Kind::trouble_bars:
      return "\"" + why.trouble + "\" bars the road";
    case Kind::failed:
      return "its corrections were made and failed";
    case Kind::no_correction:
      return "the appraisal has no correction for it";
    case Kind::in_pieces:
      return "it is in pieces since " + why.since.iso();
  }
  return "";
}

}  // namespace nonrunner::words
