#include "output/scan/found_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace rakelight {
namespace {

using glm::dvec2;
using Chain = std::vector<dvec2>;

// Common practice, no published source.
constexpr double kWhisker_mm = 1.3;   // a thinned line of the width of a pencil has whiskers up to its width
constexpr double kCrossing_mm = 1.2;  // of two lines of a pencil's width
constexpr double kUnder_mm = 14;      // that a line goes on under one of another colour, at a slant
constexpr double kLoneMark_mm = 1;
constexpr double kSliver_mm = 0.8;  // a line drawn twice
constexpr double kLeastGuide_mm = 8;
constexpr double kEdgeReach_mm = 3.2;  // lines within 2 mm of the edge were left out (output/find_lines)
constexpr double kStep_mm = 0.5;       // in which guides are cut at regions
constexpr double kGroove_px = 1.5, kLeastGroove_mm = 0.2;
constexpr std::size_t kMostRegions = 2000, kMostLooseEnds = 4000;

void check_loose_ends(const LineGraph& graph) {
    const std::vector<int> degrees = graph.degrees();
    const auto ends = static_cast<std::size_t>(std::count(degrees.begin(), degrees.end(), 1));
    if (ends > kMostLooseEnds)
        throw std::runtime_error(
            fmt::format("found {} loose ends of lines, expected clean lines on plain paper", ends));
}

std::vector<TracedChain> chains_of(const TracedPage& page, bool outline) {
    std::vector<TracedChain> chains;
    for (const TracedChain& c : page.chains)
        if (c.outline == outline) chains.push_back(c);
    return chains;
}

/// Points no further apart than the step.
Chain resampled(const Chain& chain) {
    Chain out{chain.front()};
    for (std::size_t i = 1; i < chain.size(); ++i) {
        const double away = glm::distance(chain[i - 1], chain[i]);
        const int parts = std::max(1, static_cast<int>(away / kStep_mm));
        for (int k = 1; k <= parts; ++k) out.push_back(glm::mix(chain[i - 1], chain[i], double(k) / parts));
    }
    return out;
}

class Finder {
  public:
    Finder(const TracedPage& page, const dvec2& size_mm, const HowToFind& how)
        : page_(page),
          size_(size_mm),
          how_(how),
          groove_(std::max(kGroove_px * page.pixel_mm, kLeastGroove_mm)) {}

    FoundDrawing find() {
        found_.size_mm = size_;
        found_.px_per_mm = page_.px_per_mm;
        LineGraph graph(chains_of(page_, true));
        graph.prune(kWhisker_mm, kLoneMark_mm);
        graph.contract(kCrossing_mm);
        check_loose_ends(graph);
        graph.smooth(page_.pixel_mm, groove_);
        graph.add_border(size_, std::max(kEdgeReach_mm, how_.gap_mm));
        graph.go_under(chains_of(page_, false), kUnder_mm);
        graph.close_gaps(std::max(how_.gap_mm, kWhisker_mm));
        std::vector<Chain> open;
        faces_ = faces_without_specks(graph, how_.speck_mm, kSliver_mm, open, found_.specks);
        if (faces_.size() > kMostRegions)
            throw std::runtime_error(
                fmt::format("found {} regions, expected at most {}", faces_.size(), kMostRegions));
        std::stable_sort(faces_.begin(), faces_.end(),
                         [](const Face& a, const Face& b) { return a.area_mm2 > b.area_mm2; });
        for (const GraphEdge& e : graph.edges())
            if (e.closing && !e.gone) found_.closings_mm.push_back(upright(e.points_mm));
        add_regions();
        for (const Chain& chain : open) add_guide(chain, "black");
        add_coloured();
        return std::move(found_);
    }

  private:
    Ring upright(const Chain& chain) const {
        Ring out;
        for (const dvec2& p : chain) out.push_back({p.x, size_.y - p.y});
        return out;
    }

    void add_regions() {
        for (const Face& face : faces_) {
            FoundRegion region;
            for (const Ring& ring : face.rings_mm()) region.rings_mm.push_back(upright(ring));
            region.at_mm = well_within(region.rings_mm);
            for (const InkSpot& spot : page_.spots)
                if (face.contains(spot.at_mm) &&
                    std::find(region.spots.begin(), region.spots.end(), spot.ink) == region.spots.end())
                    region.spots.push_back(spot.ink);
            found_.regions.push_back(std::move(region));
        }
    }

    std::size_t face_at(const dvec2& p) const {
        const auto at =
            std::find_if(faces_.begin(), faces_.end(), [&](const Face& f) { return f.contains(p); });
        return static_cast<std::size_t>(at - faces_.begin());
    }

    void add_part(const Chain& part, const std::string& ink, std::size_t face) {
        if (face < faces_.size() && length_mm(part) >= kLeastGuide_mm)
            found_.regions[face].guides.push_back({ink, upright(part)});
        else if (part.size() > 1)
            found_.loose_mm.push_back(upright(part));
    }

    /// Cut where it goes from one region into another.
    void add_guide(const Chain& chain, const std::string& ink) {
        const Chain fine = resampled(chain);
        Chain part{fine.front()};
        std::size_t face = faces_.size();
        for (std::size_t i = 1; i < fine.size(); ++i) {
            const std::size_t here = face_at(glm::mix(fine[i - 1], fine[i], 0.5));
            if (here != face && part.size() > 1) {
                add_part(part, ink, face);
                part = {fine[i - 1]};
            }
            face = here;
            part.push_back(fine[i]);
        }
        add_part(part, ink, face);
    }

    void add_coloured() {
        for (const std::string& ink : inks()) {
            std::vector<TracedChain> chains;
            for (const TracedChain& c : page_.chains)
                if (!c.outline && c.ink == ink) chains.push_back(c);
            LineGraph graph(chains);
            graph.prune(2 * kWhisker_mm, kLeastGuide_mm / 2);
            graph.contract(2 * kCrossing_mm);
            graph.join_straight();
            graph.smooth(page_.pixel_mm, groove_);
            for (const GraphEdge& e : graph.edges())
                if (!e.gone) add_guide(e.points_mm, ink);
        }
    }

    std::vector<std::string> inks() const {
        std::vector<std::string> all;
        for (const TracedChain& c : page_.chains)
            if (!c.outline && std::find(all.begin(), all.end(), c.ink) == all.end()) all.push_back(c.ink);
        std::sort(all.begin(), all.end());
        return all;
    }

    const TracedPage& page_;
    dvec2 size_;
    HowToFind how_;
    double groove_;
    std::vector<Face> faces_;
    FoundDrawing found_;
};

}  // namespace

glm::dvec2 well_within(const std::vector<Ring>& rings) {
    Region region = region_of(rings, true), left = region;
    double low = 0, high = 2 * std::sqrt(std::max(area_mm2(region), 0.0));
    while (high - low > 0.5) {
        const double middle = (low + high) / 2;
        Region shrunk = grow(region, -middle);
        if (shrunk.empty()) {
            high = middle;
        } else {
            low = middle;
            left = std::move(shrunk);
        }
    }
    const Ring* largest = nullptr;
    for (const Ring& ring : left.rings)
        if (!largest || std::abs(area_mm2(ring)) > std::abs(area_mm2(*largest))) largest = &ring;
    if (!largest) return rings.front().front();
    dvec2 mean(0);
    for (const dvec2& p : *largest) mean += p / static_cast<double>(largest->size());
    return contains(left, mean) ? mean : largest->front();
}

FoundDrawing find_drawing(const TracedPage& page, const dvec2& size_mm, const HowToFind& how) {
    if (chains_of(page, true).empty())
        throw std::runtime_error("found no lines of the colour of outlines, expected a drawing in lines");
    return Finder(page, size_mm, how).find();
}

}  // namespace rakelight
