// What came in and what goes out, without the network: house.h reads the one and writes the other.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "page/html.h"

namespace nonrunner::page {

// Names and values of a query or a form (application/x-www-form-urlencoded, as the URL Standard of the WHATWG
// decodes it), in their order.
class Form {
 public:
  // Throws Refusal: more than 2,000 fields, a name of more than 200 bytes, what is not UTF-8.
  static Form read(std::string_view encoded);
  std::string encoded() const;

  bool has(std::string_view name) const;
  std::string get(
      std::string_view name) const;  // the first of that name, without spaces around; empty without
  void set(std::string_view name, std::string value);  // the first of that name, or a further one
  std::vector<std::pair<std::string, std::string>> fields;
};

struct Request {
  std::string method;  // GET (HEAD as well), POST, PUT
  std::string path;    // "/car/pip/job", decoded, without the query
  Form query;
  Form form;  // of a POST or PUT with a form as its body
  std::filesystem::path
      uploaded;            // a photo: the file into which the body was written; it goes after the answer
  std::string media_type;  // of that photo, by its first bytes: image/jpeg, image/png, image/webp
  std::string device;      // the name of the paired device that asks
  std::string person;      // whose it is
  bool takes_gzip = false;
  bool wants_json = false;  // asked by a script of ours: Accept is application/json
};

struct Answer {
  int status = 200;
  std::string type = "text/html; charset=utf-8";
  std::string body;
  std::filesystem::path file;  // sent in place of a body, and kept
  bool file_goes = false;      // the file was made for this answer: removed once it was sent
  std::string save_as;         // a download of this name; letters, digits, - . only
  std::string location;        // with 303
  bool is_packed = false;      // the body is gzip (packed.h)
  bool is_shell = false;       // holds no figure: may be kept by the browser and shown without the house
  bool is_fixed = false;       // one of the files of the page: the same at each asking while the program runs
};

Answer see_other(std::string location);

}  // namespace nonrunner::page
