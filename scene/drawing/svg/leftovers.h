// What a drawing holds that is not read, and why: told once a kind, with the first line and how often.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "scene/text/place.h"

namespace rakelight {

/// Why an element of this name is left out; empty when it needs no telling (`title`, `defs` ...).
std::string_view why_element_is_left_out(std::string_view element_name);

class Leftovers {
  public:
    void add(const Place& place, std::string what, std::string_view because);
    /// "file:line:column: what: left out 3 times, because ..." by line.
    std::vector<std::string> told() const;

  private:
    struct Kind {
        Place first;
        std::string because;
        int count = 0;
    };
    std::map<std::string, Kind> kinds_;
};

}  // namespace rakelight
