#include "scene/drawing/map_colours.h"

#include <OpenImageIO/imageio.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <span>
#include <stdexcept>
#include <unordered_map>

#include "materials/colour/colorimetry.h"
#include "scene/picture_file/open_picture.h"
#include "scene/text/diagnostics.h"

namespace rakelight {
namespace {

using Rgb = std::array<std::uint8_t, 3>;

constexpr std::uint8_t kUnsure = 254;
constexpr int kFringe_px = 2;  // how far antialiasing and the blur of scaling reach
constexpr double kStrayShare = 0.0005;
constexpr std::size_t kMostTold = 5;
constexpr std::size_t kMostRemembered = 1u << 18;

Lab lab_of(const Rgb& srgb) {
    return xyz_to_lab(linear_rgb_to_xyz(decode(from_bytes(srgb))), linear_rgb_to_xyz({1, 1, 1}));
}

double distance(const Lab& a, const Lab& b) {
    return std::hypot(a.l - b.l, a.a - b.a, a.b - b.b);
}

struct Pixels {
    int width = 0, height = 0, channels = 0;  // channels: 1 grey, 3 colours, 4 with alpha
    std::vector<std::uint8_t> bytes;
    std::size_t count() const { return bytes.size() / static_cast<std::size_t>(channels); }
    Rgb rgb(std::size_t i) const {
        const std::uint8_t* p = &bytes[i * static_cast<std::size_t>(channels)];
        return channels == 1 ? Rgb{p[0], p[0], p[0]} : Rgb{p[0], p[1], p[2]};
    }
    bool clear(std::size_t i) const { return channels == 4 && bytes[4 * i + 3] < 128; }
};

Pixels read_pixels(const std::filesystem::path& path) {
    const std::string file = path.string();
    const auto refuse = [&](std::string why) { throw LayoutError({file, 0, 0}, "", std::move(why)); };
    OIIO::ImageSpec wish;
    wish.attribute("oiio:UnassociatedAlpha", 1);  // or clear edges would be darker than their colour
    std::unique_ptr<OIIO::ImageInput> in;
    try {
        in = open_picture(path, "a PNG", {}, wish);
    } catch (const std::runtime_error& e) {
        refuse(e.what());
    }
    const OIIO::ImageSpec& spec = in->spec();
    if (std::int64_t{spec.width} * spec.height > kMostMapPixels)
        refuse(
            fmt::format("found {} x {} pixels, expected at most {} million in all; 5 a millimetre are plenty",
                        spec.width, spec.height, kMostMapPixels / 1'000'000));
    Pixels pixels{spec.width, spec.height, spec.nchannels < 3 ? 1 : std::min(spec.nchannels, 4), {}};
    pixels.bytes.resize(static_cast<std::size_t>(spec.width) * static_cast<std::size_t>(spec.height) *
                        static_cast<std::size_t>(pixels.channels));
    if (!in->read_image(0, 0, 0, pixels.channels, OIIO::TypeDesc::UINT8, pixels.bytes.data()))
        refuse("found a damaged picture: " + in->geterror());
    return pixels;
}

/// The listed colours as points in CIELAB.
class Palette {
  public:
    explicit Palette(const std::vector<MapColour>& colours) {
        for (const MapColour& each : colours) labs_.push_back(lab_of(each.srgb));
    }

    /// The nearest of those that `among` (by number) allows.
    std::uint8_t nearest(const Lab& lab, std::span<const bool> among) const {
        std::uint8_t best = kNoColour;
        double least = std::numeric_limits<double>::infinity();
        for (std::size_t c = 0; c < labs_.size(); ++c)
            if (const double d = distance(lab, labs_[c]); among[c] && d < least) {
                least = d;
                best = static_cast<std::uint8_t>(c);
            }
        return best;
    }

    /// The colour a pixel surely has, or kUnsure. Remembers what it was asked.
    std::uint8_t sure(const Rgb& rgb) {
        const std::uint32_t key = rgb[0] << 16u | rgb[1] << 8u | rgb[2];
        if (const auto known = known_.find(key); known != known_.end()) return known->second;
        if (known_.size() > kMostRemembered) known_.clear();
        const Lab lab = lab_of(rgb);
        std::uint8_t label = kUnsure;
        for (std::size_t c = 0; c < labs_.size(); ++c)
            if (distance(lab, labs_[c]) < kColourGap / 2) label = static_cast<std::uint8_t>(c);
        return known_[key] = label;
    }

    std::size_t size() const { return labs_.size(); }

  private:
    std::vector<Lab> labs_;
    std::unordered_map<std::uint32_t, std::uint8_t> known_;  // looked up only
};

/// Pixels of colours that nobody listed, counted by their five high bits a channel.
class Strays {
  public:
    void add(const Rgb& rgb, std::size_t pixel) {
        Kind& kind = kinds_[rgb[0] >> 3 << 10 | rgb[1] >> 3 << 5 | rgb[2] >> 3];
        if (kind.count++ == 0) kind = {1, pixel, rgb};
        if (total_++ == 0) first_ = pixel;
    }
    std::size_t total() const { return total_; }
    std::size_t first() const { return first_; }

    struct Kind {
        std::size_t count = 0, first = 0;
        Rgb rgb{};
    };
    /// Commonest first.
    std::vector<Kind> sorted() const {
        std::vector<Kind> kinds;
        for (const Kind& kind : kinds_)
            if (kind.count > 0) kinds.push_back(kind);
        std::sort(kinds.begin(), kinds.end(), [](const Kind& a, const Kind& b) {
            return a.count != b.count ? a.count > b.count : a.first < b.first;
        });
        return kinds;
    }

  private:
    std::vector<Kind> kinds_ = std::vector<Kind>(1u << 15);
    std::size_t total_ = 0, first_ = 0;
};

/// Lets go of pixels that no block of 2 x 2 of their colour holds: a mixture of two colours may well look
/// like a third, in a line along their border (a morphological opening; Serra, "Image Analysis and
/// Mathematical Morphology", 1982).
LabelMap opened(const LabelMap& sure) {
    LabelMap solid{sure.width, sure.height, std::vector<std::uint8_t>(sure.labels.size(), kUnsure)};
    const auto width = static_cast<std::size_t>(sure.width);
    for (std::size_t y = 0; y + 1 < static_cast<std::size_t>(sure.height); ++y)
        for (std::size_t i = y * width; i + 1 < (y + 1) * width; ++i) {
            const std::uint8_t label = sure.labels[i];
            const std::array block{i, i + 1, i + width, i + width + 1};
            if (std::all_of(block.begin(), block.end(),
                            [&](std::size_t j) { return sure.labels[j] == label; }))
                for (const std::size_t j : block) solid.labels[j] = label;
        }
    return solid;
}

/// Which sure colours lie within the fringe of a pixel; false when none.
bool colours_beside(const LabelMap& sure, int x, int y, std::span<bool> beside) {
    std::fill(beside.begin(), beside.end(), false);
    bool any = false;
    for (int dy = -kFringe_px; dy <= kFringe_px; ++dy)
        for (int dx = -kFringe_px; dx <= kFringe_px; ++dx)
            if (const std::uint8_t label = sure.at(x + dx, y + dy); label < kUnsure)
                beside[label] = any = true;
    return any;
}

void report_strays(const Strays& strays, const Pixels& pixels, const std::string& file, double width_mm,
                   std::vector<std::string>& warnings) {
    const double mm_per_px = width_mm / pixels.width;
    const Place whole{file, 0, 0};
    const double pixels_in_all = static_cast<double>(pixels.count());
    const auto where = [&](std::size_t pixel) {
        const auto width = static_cast<std::size_t>(pixels.width);
        return fmt::format("first at [{:.1f}, {:.1f}] mm",
                           (static_cast<double>(pixel % width) + 0.5) * mm_per_px,
                           (pixels.height - static_cast<double>(pixel / width) - 0.5) * mm_per_px);
    };
    const auto percent = [&](std::size_t count) { return 100 * static_cast<double>(count) / pixels_in_all; };
    if (static_cast<double>(strays.total()) <= kStrayShare * pixels_in_all) {
        const Problem told{
            whole, "",
            fmt::format("found colours not listed on {:.2g} % of the map, {}; they went to the "
                        "nearest",
                        percent(strays.total()), where(strays.first()))};
        warnings.push_back(to_string(told));
        return;
    }
    std::vector<Problem> problems;
    const auto kinds = strays.sorted();
    for (std::size_t k = 0; k < std::min(kinds.size(), kMostTold); ++k)
        problems.push_back(
            {whole, "",
             fmt::format("found a colour near #{:02x}{:02x}{:02x} on {:.2g} % of the map, {}, expected "
                         "one of the colours listed",
                         kinds[k].rgb[0], kinds[k].rgb[1], kinds[k].rgb[2], percent(kinds[k].count),
                         where(kinds[k].first))});
    if (kinds.size() > kMostTold)
        problems.push_back(
            {whole, "", fmt::format("and {} more colours not listed", kinds.size() - kMostTold)});
    throw LayoutError(std::move(problems));
}

}  // namespace

double colour_distance(const Rgb& a, const Rgb& b) {
    return distance(lab_of(a), lab_of(b));
}

LabelMap read_map_colours(const std::filesystem::path& path, const std::vector<MapColour>& colours,
                          double width_mm, std::vector<std::string>& warnings) {
    const Pixels pixels = read_pixels(path);
    Palette palette(colours);
    LabelMap sure{pixels.width, pixels.height, std::vector<std::uint8_t>(pixels.count())};
    for (std::size_t i = 0; i < pixels.count(); ++i)
        sure.labels[i] = pixels.clear(i) ? kNoColour : palette.sure(pixels.rgb(i));

    LabelMap whole = sure;
    sure = opened(sure);
    Strays strays;
    // No std::vector<bool>: a span cannot look into it.
    std::array<bool, kMostMapColours> beside{}, all{};
    all.fill(true);
    std::size_t i = 0;
    for (int y = 0; y < pixels.height; ++y)
        for (int x = 0; x < pixels.width; ++x, ++i) {
            if (sure.labels[i] != kUnsure) continue;
            const bool fringe = colours_beside(sure, x, y, beside);
            if (!fringe && whole.labels[i] != kUnsure) continue;
            if (!fringe) strays.add(pixels.rgb(i), i);
            whole.labels[i] = palette.nearest(lab_of(pixels.rgb(i)), fringe ? beside : all);
        }
    if (strays.total() > 0) report_strays(strays, pixels, path.string(), width_mm, warnings);
    return whole;
}

}  // namespace rakelight
