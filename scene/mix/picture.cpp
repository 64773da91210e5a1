#include "scene/mix/picture.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>

#include "materials/colour/ciede2000.h"
#include "materials/colour/illuminants.h"
#include "materials/stock/face_on.h"
#include "scene/forms/side_wall.h"
#include "scene/mix/assign.h"
#include "scene/mix/net.h"
#include "scene/mix/reference_picture.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

namespace {

constexpr double kCovered = 0.5;  // a piece less covered than this lies off the picture

// For an eye adapted to the picture's white, that of sRGB.
Lab lab_of(const Xyz& colour) {
    return xyz_to_lab(colour, linear_rgb_to_xyz({1, 1, 1}));
}

Xyz sum(const Xyz& a, const Xyz& b, double factor) {
    return {a.x + factor * b.x, a.y + factor * b.y, a.z + factor * b.z};
}

// Debts that no stock can pay must not pile up: a wanted colour stays one that a picture can have.
Xyz held_in_gamut(const Xyz& wanted) {
    const LinearRgb rgb = xyz_to_linear_rgb(wanted);
    const auto hold = [](double v) { return std::clamp(v, 0.0, 1.0); };
    return linear_rgb_to_xyz({hold(rgb.r), hold(rgb.g), hold(rgb.b)});
}

std::vector<MeanColour> colours_under(const MixPicture& mix, std::span<const Piece> pieces) {
    std::vector<MeanColour> colours(pieces.size());
    tbb::parallel_for(std::size_t{0}, pieces.size(), [&](std::size_t i) {
        colours[i] = mean_under(*mix.picture, mix.at_mm, mix.width_mm, pieces[i].outline_mm);
    });
    return colours;
}

struct Sitter {
    std::uint32_t piece = 0;
    glm::dvec2 at_mm{};
    Xyz xyz;
    const std::vector<LaidColour>* palette = nullptr;  // as its outline shows them
};

// Those under the picture; the others take what is laid elsewhere.
std::vector<Sitter> seat(const Field& field, std::span<Piece> pieces, Palette& palette) {
    const MixPicture& mix = *field.picture;
    const std::vector<MeanColour> colours = colours_under(mix, pieces);
    std::vector<Sitter> sitters;
    std::vector<std::size_t> bare;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (colours[i].cover < kCovered)
            bare.push_back(i);
        else
            sitters.push_back({static_cast<std::uint32_t>(i), centroid(pieces[i].outline_mm),
                               linear_rgb_to_xyz(colours[i].colour),
                               &palette.of(edge_per_mm(pieces[i].outline_mm))});
    }
    if (!bare.empty() && !mix.elsewhere) {
        const glm::dvec2 at = centroid(pieces[bare.front()].outline_mm);
        throw LayoutError(field.mix_place, field.name,
                          fmt::format("found {} pieces off the picture {} or under clear parts of it, one "
                                      "near [{:.0f}, {:.0f}] mm, expected it to cover the field, or "
                                      "elsewhere: and a material",
                                      bare.size(), mix.file, at.x, at.y));
    }
    for (const std::size_t i : bare) pieces[i].material = *mix.elsewhere;
    return sitters;
}

std::vector<float> differences(std::span<const Sitter> sitters, std::size_t materials) {
    std::vector<float> costs(sitters.size() * materials);
    tbb::parallel_for(std::size_t{0}, sitters.size(), [&](std::size_t i) {
        const Lab lab = lab_of(sitters[i].xyz);
        for (std::size_t m = 0; m < materials; ++m)
            costs[i * materials + m] = static_cast<float>(ciede2000(lab, (*sitters[i].palette)[m].lab));
    });
    return costs;
}

// Each against its own colour and what those before it owe.
std::vector<std::uint32_t> diffuse(double diffusion, std::span<const Sitter> sitters,
                                   std::span<const std::size_t> limits, std::span<const double> price,
                                   std::uint64_t seed) {
    std::vector<glm::dvec2> centres;
    std::vector<Xyz> wanted;
    for (const Sitter& s : sitters) {
        centres.push_back(s.at_mm);
        wanted.push_back(s.xyz);
    }
    const MixNet net = mix_net(centres, seed);
    std::vector<std::size_t> left(limits.begin(), limits.end());
    std::vector<std::uint32_t> choice(sitters.size());
    for (const std::uint32_t i : net.order) {
        const Xyz colour = held_in_gamut(wanted[i]);
        const Lab lab = lab_of(colour);
        const std::vector<LaidColour>& palette = *sitters[i].palette;
        std::size_t best = palette.size();
        double least = 0;
        for (std::size_t m = 0; m < palette.size(); ++m) {
            if (!left[m]) continue;
            const double cost = ciede2000(lab, palette[m].lab) + price[m];
            if (best == palette.size() || cost < least) {
                least = cost;
                best = m;
            }
        }
        choice[i] = static_cast<std::uint32_t>(best);
        if (left[best] != kNoLimit) --left[best];
        const Xyz owed = sum(colour, palette[best].xyz, -1);
        for (const auto& heir : net.heirs_of(i))
            wanted[heir.piece] = sum(wanted[heir.piece], owed, diffusion * heir.share);
    }
    return choice;
}

PictureReach measure(std::span<const Sitter> sitters, std::span<const std::uint32_t> materials,
                     std::span<const float> costs, std::span<const std::uint32_t> choice) {
    PictureReach reach;
    reach.pieces = sitters.size();
    reach.laid.assign(materials.size(), 0);
    reach.wanted.assign(materials.size(), 0);
    for (std::size_t i = 0; i < sitters.size(); ++i) {
        const auto row = costs.subspan(i * materials.size(), materials.size());
        const auto nearest = static_cast<std::size_t>(std::min_element(row.begin(), row.end()) - row.begin());
        ++reach.laid[choice[i]];
        ++reach.wanted[nearest];
        const double off = row[nearest];
        reach.mean += row[choice[i]];
        reach.nearest_mean += off;
        reach.off_by_5 += off > 5;
        reach.off_by_10 += off > 10;
        if (off <= reach.worst) continue;
        reach.worst = off;
        reach.worst_at_mm = sitters[i].at_mm;
        reach.worst_colour = sitters[i].xyz;
        reach.worst_material = materials[nearest];
    }
    if (sitters.empty()) return reach;
    for (double* each : {&reach.mean, &reach.nearest_mean, &reach.off_by_5, &reach.off_by_10})
        *each /= static_cast<double>(sitters.size());
    return reach;
}

}  // namespace

Palette::Palette(const Layout& layout, const Field& field, std::span<const std::uint32_t> materials)
    : layout_(layout),
      field_(field),
      materials_(materials.begin(), materials.end()),
      daylight_(tristimulus_weights(*find_illuminant("D65"))) {}

LaidColour Palette::laid(std::uint32_t material, const SideWall& side) {
    const auto seen = [&](const SampledSpectrum& reflectance) {
        const auto [x, y, z] = integrate(daylight_, reflectance);
        return Xyz{x, y, z};
    };
    const Material& m = layout_.stock[material];
    LaidColour laid;
    laid.material = material;
    laid.xyz = seen(face_on_reflectance(m, piece_thickness_mm(field_, m),
                                        layout_.tints[field_.bed].reflectance, 1, tables_, side));
    laid.lab = xyz_to_lab(laid.xyz, seen(SampledSpectrum(1)));
    return laid;
}

const std::vector<LaidColour>& Palette::of(double edge_per_mm) {
    std::vector<SideWall> sides;
    std::vector<double> widths;
    for (const std::uint32_t material : materials_) {
        const Material& m = layout_.stock[material];
        sides.push_back(
            m.opaque ? SideWall{}
                     : side_wall(layout_.tints, field_, edge_per_mm, piece_thickness_mm(field_, m), m));
        widths.push_back(sides.back().shows() ? sides.back().across_mm : 0);
    }
    const auto [row, fresh] = rows_.try_emplace(widths);
    if (fresh)
        for (std::size_t i = 0; i < materials_.size(); ++i) {
            const auto [made, unseen] = made_.try_emplace({materials_[i], widths[i]});
            if (unseen) made->second = laid(materials_[i], sides[i]);
            row->second.push_back(made->second);
        }
    return row->second;
}

PictureReach mix_picture(const Layout& layout, const Field& field, std::span<const std::size_t> limits,
                         std::uint64_t seed, std::span<Piece> pieces) {
    const std::vector<std::uint32_t>& materials = field.picture->from;
    Palette palette(layout, field, materials);
    const std::vector<Sitter> sitters = seat(field, pieces, palette);
    const std::vector<float> costs = differences(sitters, materials.size());
    Assignment assignment = assign(costs, limits);
    if (!assignment.enough) {
        std::size_t room = 0;
        for (const std::size_t limit : limits) room += limit;
        throw LayoutError(field.mix_place, field.name,
                          fmt::format("found {} pieces to lay after the picture, expected at most {}, all "
                                      "that the stock of this mix still has",
                                      sitters.size(), room));
    }
    if (field.picture->diffusion > 0)
        assignment.choice = diffuse(field.picture->diffusion, sitters, limits, assignment.price, seed);
    for (std::size_t i = 0; i < sitters.size(); ++i)
        pieces[sitters[i].piece].material = materials[assignment.choice[i]];
    PictureReach reach = measure(sitters, materials, costs, assignment.choice);
    reach.limit.assign(limits.begin(), limits.end());
    return reach;
}

std::vector<std::string> describe(const PictureReach& reach, const Field& field, const Layout& layout) {
    const MixPicture& mix = *field.picture;
    std::vector<std::string> lines;
    if (!reach.pieces) return lines;
    std::string counts;
    for (std::size_t m = 0; m < mix.from.size(); ++m)
        if (reach.laid[m])
            counts += fmt::format("{}{} {}", counts.empty() ? "" : ", ", reach.laid[m],
                                  layout.stock[mix.from[m]].name);
    lines.push_back(fmt::format("{}: {} pieces after {}: {}", field.name, reach.pieces, mix.file, counts));
    lines.push_back(
        fmt::format("{}: CIEDE2000 from the picture {:.1f} in the mean ({:.1f} were each piece the "
                    "nearest in the stock); {:.0f} % of its colours are out of reach by more than "
                    "5, {:.0f} % by more than 10",
                    field.name, reach.mean, reach.nearest_mean, 100 * reach.off_by_5, 100 * reach.off_by_10));
    if (reach.worst > 5) {
        const auto [r, g, b] = to_bytes(encode(xyz_to_linear_rgb(reach.worst_colour)));
        const Lab lab = lab_of(reach.worst_colour);
        lines.push_back(fmt::format(
            "{}: farthest out of reach is #{:02x}{:02x}{:02x} (L* {:.0f}, a* {:.0f}, b* {:.0f}) near "
            "[{:.0f}, {:.0f}] mm, off by {:.1f} from {}",
            field.name, r, g, b, lab.l, lab.a, lab.b, reach.worst_at_mm.x, reach.worst_at_mm.y, reach.worst,
            layout.stock[reach.worst_material].name));
    }
    for (std::size_t m = 0; m < mix.from.size(); ++m)
        if (reach.wanted[m] > reach.limit[m])
            lines.push_back(fmt::format("{}: {} of the {} pieces of {} are used, {} would have been nearest",
                                        field.name, reach.laid[m], reach.limit[m],
                                        layout.stock[mix.from[m]].name, reach.wanted[m]));
    return lines;
}

}  // namespace rakelight
