// The files that the page brings with it (src/page/web): its style, its script, its mark. They hold no figure and
// nothing of a book, and lie in the program; no name that was asked for ever becomes a path on the disk.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "page/visit.h"

namespace nonrunner::page {

struct WebFile {
  std::string name;  // "style.css"; as it is asked for, without the slash
  std::string text;
  std::string type;  // as Content-Type wants it
  std::string path;  // "/style.css?5f0c9e11"; see web_path
};

// As they are served: page.js is made of the scripts that every room needs, so that a room asks for one.
const std::vector<WebFile>& web_files();
// "/style.css": that file; nullptr where the path is none of ours.
const WebFile* web_file(std::string_view path);

// "/style.css?5f0c9e11": where a page finds the file of that name. What stands behind the question mark changes
// with the file, so that a browser that keeps it for a month still asks for a newer one.
std::string web_path(std::string_view name);

// What is sent for the path, to a room's visitor and to somebody not yet paired; 404 where it is none of ours.
Answer file_answer(std::string_view path);
namespace rooms {
Answer file(Visit&);
}

}  // namespace nonrunner::page
