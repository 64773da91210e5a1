#include "materials/photograph/glass_pair.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <stdexcept>
#include <vector>

namespace rakelight {
namespace {

constexpr double kReadingError = 0.002;  // of radiance factor, besides
constexpr double kReadingShare = 0.005;  // of the reading: what a camera tells at best
constexpr double kSameBand = 0.3;        // milkiness may differ so much, relatively, from band to band
constexpr double kLeastContrast = 0.2;   // between the cards
constexpr double kOutOfOrder = 0.02;     // of radiance factor: no noise any more

// A layer by the square roots of its two optical depths, in which the readings run about evenly.
struct Roots {
    double absorption = 0, scattering = 0;
};

struct Faces {
    LayerFrame frame;
    Lying lying = Lying::dry;
    PhotographLight light = PhotographLight::at_45_deg;

    Plate plate(const Roots& x) const {
        const LayerBand unit{x.absorption * x.absorption, x.scattering * x.scattering, 1, 0};
        return make_plate(frame, unit, lying, light);
    }
};

Faces make_faces(double index, Lying lying, PhotographLight light) {
    const InterfaceTable face = make_interface_table(static_cast<float>(index), 0);
    return {make_layer_frame(&face), lying, light};
}

// A reading over a card, and how well it is known.
struct Reading {
    double card = 0, seen = 0;
    double error() const { return kReadingError + kReadingShare * std::max(0.0, seen); }
};

// What milkiness to expect before the readings speak.
struct Expected {
    double root = 0, error = INFINITY;
};

// Least squares by Levenberg and Marquardt on one band, both unknowns at least 0.
struct Search {
    const Faces& faces;
    std::span<const Reading> readings;
    Expected expected;

    double residual(const Plate& p, const Reading& r) const { return (p.over(r.card) - r.seen) / r.error(); }
    double cost(const Plate& p, const Roots& x) const {
        const double off = (x.scattering - expected.root) / expected.error;
        double sum = off * off;
        for (const Reading& r : readings) sum += residual(p, r) * residual(p, r);
        return sum;
    }
    Roots run(Roots x) const;
};

// Normal equations of two unknowns.
struct Normal {
    double aa = 0, as = 0, ss = 0, a = 0, s = 0;
    void add(double da, double ds, double residual) {
        aa += da * da, as += da * ds, ss += ds * ds;
        a += da * residual, s += ds * residual;
    }
    Roots step(double damping) const {
        const double aa_d = aa * (1 + damping) + 1e-9, ss_d = ss * (1 + damping) + 1e-9;
        const double det = aa_d * ss_d - as * as;
        return {(-a * ss_d + s * as) / det, (-s * aa_d + a * as) / det};
    }
};

Roots Search::run(Roots x) const {
    constexpr double kStep = 1e-4;
    Plate here = faces.plate(x);
    double best = cost(here, x), damping = 1e-3;
    for (int i = 0; i < 40 && damping < 1e8; ++i) {
        const Plate more_a = faces.plate({x.absorption + kStep, x.scattering});
        const Plate more_s = faces.plate({x.absorption, x.scattering + kStep});
        Normal normal;
        normal.add(0, 1 / expected.error, (x.scattering - expected.root) / expected.error);
        for (const Reading& r : readings) {
            const double off = residual(here, r);
            normal.add((residual(more_a, r) - off) / kStep, (residual(more_s, r) - off) / kStep, off);
        }
        for (;; damping *= 8) {
            const Roots by = normal.step(damping);
            const Roots next{std::max(0.0, x.absorption + by.absorption),
                             std::max(0.0, x.scattering + by.scattering)};
            const Plate there = faces.plate(next);
            const double c = cost(there, next);
            if (c < best) {
                const bool done = best - c < 1e-7 * best + 1e-9;
                x = next, here = there, best = c, damping = std::max(damping / 10, 1e-9);
                if (done) return x;
                break;
            }
            if (damping > 1e8) return x;
        }
    }
    return x;
}

constexpr std::array kDepthRoots{0.0, 0.1, 0.2, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0, 2.8};

// Places to begin from, solved once for all bands.
class Starts {
  public:
    explicit Starts(const Faces& faces) {
        for (const double a : kDepthRoots)
            for (const double s : kDepthRoots) {
                roots_.push_back({a, s});
                plates_.push_back(faces.plate(roots_.back()));
            }
    }
    Roots nearest(const Search& search) const {
        std::size_t best = 0;
        for (std::size_t i = 1; i < roots_.size(); ++i)
            if (search.cost(plates_[i], roots_[i]) < search.cost(plates_[best], roots_[best])) best = i;
        // Not from the very end, where a root has no slope.
        return {std::max(roots_[best].absorption, 0.03), std::max(roots_[best].scattering, 0.03)};
    }

  private:
    std::vector<Roots> roots_;
    std::vector<Plate> plates_;
};

[[noreturn]] void refuse(int band, const std::string& why) {
    throw std::invalid_argument(fmt::format("at {} nm {}", band_wavelength_nm(band), why));
}

void check_card(const SampledSpectrum& card, const char* which) {
    for (int b = 0; b < kBandCount; ++b)
        if (!(card[b] >= 0 && card[b] < 1))
            refuse(b, fmt::format("the {} card has a reflectance of {:.3g}, expected 0 to below 1", which,
                                  card[b]));
}

void check_glass(double thickness_mm, double index) {
    if (!(thickness_mm > 0 && std::isfinite(thickness_mm)))
        throw std::invalid_argument("the glass must be thicker than 0 mm");
    if (!(index > 1.01 && index <= 3)) throw std::invalid_argument("the index of glass must be 1.01 to 3");
}

// Neither darker than black nor brighter than the card through clear glass of no loss that scatters.
void check_seen(const Reading& r, int band, const char* card) {
    if (!(r.seen > -kOutOfOrder && r.seen < 1.1))
        refuse(band, fmt::format("{:.3g} was read over {}, expected 0 to 1", r.seen, card));
}

void check_pair(const GlassPair& p) {
    check_card(p.white_card, "white");
    check_card(p.black_card, "black");
    check_glass(p.thickness_mm, p.index);
    for (int b = 0; b < kBandCount; ++b) {
        if (p.white_card[b] < p.black_card[b] + kLeastContrast)
            refuse(b, fmt::format("the white card ({:.3g}) is not brighter than the black one ({:.3g}) by {}",
                                  p.white_card[b], p.black_card[b], kLeastContrast));
        check_seen({p.white_card[b], p.over_white[b]}, b, "white");
        check_seen({p.black_card[b], p.over_black[b]}, b, "black");
        if (p.over_black[b] > p.over_white[b] + kOutOfOrder)
            refuse(b, fmt::format("the glass is brighter over black ({:.3g}) than over white ({:.3g})",
                                  p.over_black[b], p.over_white[b]));
    }
}

// How far the readings settle the milkiness: the change of its root that moves them by their error.
double uncertainty(const Search& search, const Roots& x) {
    constexpr double kStep = 1e-3;
    const Plate here = search.faces.plate(x), a = search.faces.plate({x.absorption + kStep, x.scattering}),
                s = search.faces.plate({x.absorption, x.scattering + kStep});
    Normal n;
    for (const Reading& r : search.readings) {
        const double off = search.residual(here, r);
        n.add((search.residual(a, r) - off) / kStep, (search.residual(s, r) - off) / kStep, off);
    }
    const double information = n.ss - (n.aa > 0 ? n.as * n.as / n.aa : 0);
    return 1 / std::sqrt(std::max(information, 1e-12));
}

// Of a straight ray; not less than the key `transmittance at` takes.
float let_through(const Roots& x) {
    return static_cast<float>(std::max(1e-6, std::exp(-x.absorption * x.absorption)));
}

}  // namespace

GlassOfPair glass_of_pair(const GlassPair& pair) {
    check_pair(pair);
    const Faces faces = make_faces(pair.index, pair.lying, pair.light);
    const Starts starts(faces);
    std::array<std::array<Reading, 2>, kBandCount> readings;
    std::array<Roots, kBandCount> found;
    double weight = 0, mean = 0;
    for (int b = 0; b < kBandCount; ++b) {
        const auto i = static_cast<std::size_t>(b);
        readings[i] = {Reading{pair.white_card[b], pair.over_white[b]},
                       Reading{pair.black_card[b], pair.over_black[b]}};
        const Search search{faces, readings[i], {}};
        found[i] = search.run(starts.nearest(search));
        const double error = uncertainty(search, found[i]), w = 1 / (error * error + 1e-4);
        weight += w;
        mean += w * found[i].scattering;
    }
    // Where a glass is too dark for both cards to show, its milkiness is that of the other bands.
    mean /= weight;
    GlassOfPair r;
    r.milkiness = mean * mean / pair.thickness_mm;
    for (int b = 0; b < kBandCount; ++b) {
        const auto i = static_cast<std::size_t>(b);
        const Search search{faces, readings[i], {mean, kSameBand * mean + 0.02}};
        const Roots x = search.run(found[i]);
        r.transmittance[b] = let_through(x);
        r.milkiness_by_band[b] = static_cast<float>(x.scattering * x.scattering / pair.thickness_mm);
        const Plate plate = faces.plate(x);
        for (const Reading& each : readings[i])
            r.misfit += std::pow(plate.over(each.card) - each.seen, 2) / (2 * kBandCount);
    }
    r.misfit = std::sqrt(r.misfit);
    return r;
}

GlassOfPair glass_of_white(const GlassPair& pair, double milkiness_per_mm) {
    check_card(pair.white_card, "white");
    check_glass(pair.thickness_mm, pair.index);
    if (!(milkiness_per_mm >= 0 && milkiness_per_mm <= 20))
        throw std::invalid_argument("the milkiness assumed must be 0 to 20 per mm");
    const Faces faces = make_faces(pair.index, pair.lying, pair.light);
    const Expected assumed{std::sqrt(milkiness_per_mm * pair.thickness_mm), 1e-6};
    GlassOfPair r;
    r.milkiness_assumed = true;
    r.milkiness = milkiness_per_mm;
    r.milkiness_by_band = SampledSpectrum(static_cast<float>(milkiness_per_mm));
    Roots x{0.5, assumed.root};
    for (int b = 0; b < kBandCount; ++b) {
        const std::array readings{Reading{pair.white_card[b], pair.over_white[b]}};
        check_seen(readings[0], b, "white");
        const Search search{faces, readings, assumed};
        x = search.run({std::max(x.absorption, 0.1), assumed.root});
        r.transmittance[b] = let_through(x);
        r.misfit += std::pow(faces.plate(x).over(readings[0].card) - readings[0].seen, 2) / kBandCount;
    }
    r.misfit = std::sqrt(r.misfit);
    return r;
}

}  // namespace rakelight
