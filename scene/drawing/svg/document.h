// An SVG file as an XML tree that knows its lines. pugixml parses; it opens nothing but the text it is given:
// a document type is skipped, entities it declares are never put in, so that a small file cannot unfold into
// a huge one nor reach for another.
#pragma once

#include <memory>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "scene/text/place.h"

namespace rakelight {

/// A larger file is refused before it is read.
inline constexpr std::size_t kMostDrawingBytes = 64u << 20;

class SvgDocument {
  public:
    /// `file` only names the text in messages. \throws LayoutError with the place where it is not XML, is not
    /// UTF-8 or ASCII, or has no svg at its root.
    SvgDocument(std::string_view text, std::string file);

    pugi::xml_node root() const { return tree_->document_element(); }
    Place place_of(const pugi::xml_node& node) const { return place_at(node.offset_debug()); }
    /// The element's name when it belongs to SVG: without the prefix that the root has; empty when it is some
    /// other vocabulary's.
    std::string_view svg_name(const pugi::xml_node& node) const;

  private:
    Place place_at(std::ptrdiff_t offset) const;

    std::string file_;
    std::unique_ptr<pugi::xml_document> tree_ = std::make_unique<pugi::xml_document>();
    std::vector<std::ptrdiff_t> line_starts_{0};
    std::string prefix_;  ///< with its colon, or empty
};

}  // namespace rakelight
