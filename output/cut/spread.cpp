#include "output/cut/spread.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "output/system/errors.h"

namespace rakelight {

namespace {

/// Rows on the slabs of one material and thickness.
class Rows {
  public:
    Rows(std::vector<CutSlab>& slabs, const CutSlab& blank, const glm::dvec2& slab_mm, double apart_mm)
        : slabs_(slabs), blank_(blank), slab_mm_(slab_mm), apart_mm_(apart_mm) {
        begin_slab();
    }

    // Shapes come from the highest to the lowest.
    void place(std::size_t shape, const Box& box) {
        const glm::dvec2 size = box.size();
        if (at_.x + size.x + apart_mm_ > slab_mm_.x)
            at_ = {apart_mm_, at_.y + row_mm_ + apart_mm_}, row_mm_ = 0;
        if (at_.y + size.y + apart_mm_ > slab_mm_.y) begin_slab();
        slabs_.back().shapes.push_back({shape, at_ - box.low});
        at_.x += size.x + apart_mm_;
        row_mm_ = std::max(row_mm_, size.y);
    }

  private:
    void begin_slab() {
        slabs_.push_back(blank_);
        at_ = glm::dvec2(apart_mm_);
        row_mm_ = 0;
    }

    std::vector<CutSlab>& slabs_;
    CutSlab blank_;
    glm::dvec2 slab_mm_;
    double apart_mm_;
    glm::dvec2 at_{};
    double row_mm_ = 0;
};

void refuse_too_large(const std::vector<CutShape>& shapes, const glm::dvec2& slab_mm, double apart_mm) {
    for (const CutShape& shape : shapes) {
        const glm::dvec2 size = bounds(shape.path).size() + 2 * apart_mm;
        if (size.x > slab_mm.x || size.y > slab_mm.y)
            throw RequestError(
                fmt::format("--slab {:g}x{:g}: found shape {}, which takes {:.0f} x {:.0f} mm with what is "
                            "left round it, expected a slab that holds it",
                            slab_mm.x, slab_mm.y, shape.name, std::ceil(size.x), std::ceil(size.y)));
    }
}

}  // namespace

std::vector<CutSlab> spread_on_slabs(const std::vector<CutShape>& shapes, const glm::dvec2& slab_mm,
                                     double apart_mm) {
    refuse_too_large(shapes, slab_mm, apart_mm);
    std::map<std::pair<std::uint32_t, double>, std::vector<std::size_t>> alike;
    for (std::size_t i = 0; i < shapes.size(); ++i)
        alike[{shapes[i].material, shapes[i].thickness_mm}].push_back(i);
    std::vector<CutSlab> slabs;
    for (auto& [of, list] : alike) {
        std::ranges::stable_sort(list, std::greater<>(),
                                 [&](std::size_t i) { return bounds(shapes[i].path).size().y; });
        Rows rows(slabs, {of.first, of.second, {}}, slab_mm, apart_mm);
        for (const std::size_t i : list) rows.place(i, bounds(shapes[i].path));
    }
    return slabs;
}

}  // namespace rakelight
