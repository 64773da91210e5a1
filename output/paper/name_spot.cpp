#include "output/paper/name_spot.h"

#include <algorithm>
#include <cmath>
#include <queue>
#include <sstream>

#include "output/paper/page.h"

namespace rakelight {

namespace {

constexpr double kEnough = 0.02;       // of the best: a spot that much roomier is not looked for
constexpr double kAir_em = 0.5;        // kept free round a block of lines
constexpr double kCapitals_em = 0.73;  // height of capitals
constexpr std::size_t kMostLines = 3;

// Half the height of the largest box round the origin that a segment leaves free, where x counts 1/wide.
double clear_of(const glm::dvec2& a, const glm::dvec2& b) {
    const glm::dvec2 d = b - a;
    double least = std::min(std::max(std::abs(a.x), std::abs(a.y)), std::max(std::abs(b.x), std::abs(b.y)));
    // The larger of |x| and |y| is least at an end, where a coordinate is 0, or where both are the same.
    const auto look = [&](double above, double below) {
        if (below == 0) return;
        const double t = above / below;
        if (!(t > 0 && t < 1)) return;
        const glm::dvec2 p = a + t * d;
        least = std::min(least, std::max(std::abs(p.x), std::abs(p.y)));
    };
    look(-a.x, d.x);
    look(-a.y, d.y);
    look(a.y - a.x, d.x - d.y);
    look(-a.x - a.y, d.x + d.y);
    return least;
}

struct Cell {
    glm::dvec2 at;
    double half;
    double clear;
    double most() const { return clear + half; }
};

std::vector<std::string> words_of(std::string_view name) {
    std::istringstream in{std::string(name)};
    std::vector<std::string> words;
    for (std::string word; in >> word;) words.push_back(word);
    return words;
}

// Every way to break words into at most a few lines, the fewest lines first.
std::vector<std::vector<std::string>> ways_to_break(const std::vector<std::string>& words) {
    std::vector<std::vector<std::string>> ways;
    if (words.empty() || words.size() > 8) return {};
    for (unsigned breaks = 0; breaks < 1u << (words.size() - 1); ++breaks) {
        std::vector<std::string> lines{words[0]};
        for (std::size_t i = 1; i < words.size(); ++i)
            if (breaks >> (i - 1) & 1u)
                lines.push_back(words[i]);
            else
                lines.back() += ' ' + words[i];
        if (lines.size() <= kMostLines) ways.push_back(std::move(lines));
    }
    std::stable_sort(ways.begin(), ways.end(),
                     [](const auto& a, const auto& b) { return a.size() < b.size(); });
    return ways;
}

glm::dvec2 block_em(const std::vector<std::string>& lines) {
    double widest = 0;
    for (const std::string& line : lines)
        widest = std::max(widest, width_mm(PageText{line, {}, 1, true, Align::left, {}}));
    return {widest + kAir_em, kCapitals_em + kAir_em + kLineStep_em * static_cast<double>(lines.size() - 1)};
}

}  // namespace

RoomiestBox roomiest_box(const Region& region, double wide) {
    Region flat = region;
    for (Ring& ring : flat.rings) {
        ring = simplified(ring, 0.05);
        for (glm::dvec2& p : ring) p.x /= wide;
    }
    const Box box = bounds(flat);
    const double side = std::max(box.size().x, box.size().y);
    if (flat.empty() || !(side > 0)) return {};
    const auto cell = [&](const glm::dvec2& at, double half) {
        double clear = 1e300;
        for (const Ring& ring : flat.rings)
            for (const auto& [a, b] : edges(ring)) clear = std::min(clear, clear_of(a - at, b - at));
        return Cell{at, half, contains(flat, at) ? clear : -clear};
    };
    const auto less = [](const Cell& a, const Cell& b) { return a.most() < b.most(); };
    std::priority_queue<Cell, std::vector<Cell>, decltype(less)> cells(less);
    Cell best = cell((box.low + box.high) / 2.0, side / 2);
    cells.push(best);
    while (!cells.empty()) {
        const Cell next = cells.top();
        cells.pop();
        if (next.most() <= std::max(best.clear * (1 + kEnough), 1e-4 * side)) break;
        for (const glm::dvec2 to : {glm::dvec2{-1, -1}, {1, -1}, {-1, 1}, {1, 1}}) {
            const Cell part = cell(next.at + to * (next.half / 2), next.half / 2);
            if (part.clear > best.clear) best = part;
            cells.push(part);
        }
    }
    return {{best.at.x * wide, best.at.y}, std::max(0.0, best.clear)};
}

NameSpot name_spot(const Region& region, std::string_view name) {
    NameSpot best;
    for (std::vector<std::string>& lines : ways_to_break(words_of(name))) {
        const glm::dvec2 block = block_em(lines);
        const RoomiestBox room = roomiest_box(region, block.x / block.y);
        const double em = 2 * room.half_height_mm / block.y;
        // Another line has to pay.
        if (best.lines.empty() || em > 1.15 * best.em_mm) best = {std::move(lines), room.at_mm, em};
    }
    if (best.lines.empty()) best = {{std::string(name)}, roomiest_box(region, 1).at_mm, 0};
    return best;
}

}  // namespace rakelight
