// Sets lists for the workshop on A4: headings, tables, paragraphs; turns the page where one is full. Black on
// white, so that any printer and any copier will do.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "output/paper/tracing.h"
#include "scene/geometry/region.h"

namespace rakelight {

/// Where a cell stands and how.
struct ListColumn {
    double x_mm = 0;  ///< its left end, or its right end when it is set to the right
    std::string title;
    bool right = true;
    double most_mm = 0;  ///< cut when longer; 0 = as it comes
};

class ListSetter {
  public:
    static constexpr double kLeft_mm = 14, kRight_mm = 196, kType_mm = 2.6;

    /// Every page carries all three.
    ListSetter(std::string title, std::string subtitle, std::string source);

    void turn_page(const std::string& heading);
    /// A heading within a page, with room for some of what follows.
    void section(const std::string& heading, double wanted_mm = 24);
    void columns(std::vector<ListColumn> columns);
    /// A line of the table; `swatch` is a colour shown left of the first cell.
    void row(const std::vector<std::string>& cells, std::optional<Rgb8> swatch = {}, bool bold = false);
    /// Under a row, from a column on.
    void note(const std::string& text, double x_mm);
    /// `lead` is set bold before it, in a column of its own.
    void paragraph(const std::string& text, const std::string& lead = "");
    /// A figure in large type over its caption; `nth` of `of` across the page. The last moves on.
    void figure(const std::string& value, const std::string& caption, int nth, int of);
    void space(double mm) { y_ += mm; }
    /// Room for a drawing of this height: where its upper left corner is.
    glm::dvec2 drawing(double height_mm);

    Tracing& page() { return pages_.back(); }
    /// Numbers the pages; the setter is done.
    std::vector<Tracing> finish();

  private:
    void room_for(double mm);
    void put(const std::string& text, double x, double size, bool bold = false, bool right = false,
             bool grey = false);
    void rule(double width_mm);
    void put_titles();

    std::string title_, subtitle_, source_, heading_;
    std::vector<Tracing> pages_;
    std::vector<ListColumn> columns_;
    double y_ = 0;
};

}  // namespace rakelight
