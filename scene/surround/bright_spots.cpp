#include "scene/surround/bright_spots.h"

#include <algorithm>
#include <utility>

namespace rakelight {

namespace {

constexpr double kLeastShare = 1.0 / 500;

// Mean luminance of what is no brighter than so many times that mean; the brighter part is left out until
// nothing changes.
double mean_of_rest(const SurroundPicture& p, const std::vector<float>& luminance) {
    double most = 1e300;
    for (int round = 0; round < 50; ++round) {
        double sum = 0, sr = 0;
        for (int y = 0; y < p.height_px; ++y) {
            const double one_sr = pixel_sr(p, y);
            for (int x = 0; x < p.width_px; ++x) {
                const double l = luminance[static_cast<std::size_t>(y) * p.width_px + x];
                if (l > most) continue;
                sum += l * one_sr;
                sr += one_sr;
            }
        }
        const double next = sr > 0 ? kSpotTimesMean * sum / sr : 0;
        if (next >= most * (1 - 1e-6)) break;
        most = next;
    }
    return most / kSpotTimesMean;
}

// Pixels that hang together with one, taken out of `bright`.
std::vector<std::uint32_t> gather(const SurroundPicture& p, std::vector<bool>& bright, std::uint32_t first) {
    std::vector<std::uint32_t> spot{first};
    bright[first] = false;
    for (std::size_t i = 0; i < spot.size(); ++i) {
        const int x = static_cast<int>(spot[i]) % p.width_px, y = static_cast<int>(spot[i]) / p.width_px;
        for (int dy = -1; dy <= 1; ++dy)
            for (int dx = -1; dx <= 1; ++dx) {
                if (y + dy < 0 || y + dy >= p.height_px) continue;
                const auto next =
                    static_cast<std::uint32_t>((y + dy) * p.width_px + (x + dx + p.width_px) % p.width_px);
                if (!bright[next]) continue;
                bright[next] = false;
                spot.push_back(next);
            }
    }
    return spot;
}

}  // namespace

std::vector<std::vector<std::uint32_t>> bright_spots(const SurroundPicture& p) {
    std::vector<float> luminance;
    luminance.reserve(p.rgb.size());
    for (const glm::vec3& rgb : p.rgb) luminance.push_back(luminance_of(rgb));
    const double limit = kSpotTimesMean * mean_of_rest(p, luminance);
    std::vector<bool> bright(p.rgb.size());
    for (std::size_t i = 0; i < bright.size(); ++i) bright[i] = luminance[i] > limit;

    double all = 0;
    for (std::size_t i = 0; i < luminance.size(); ++i)
        all += luminance[i] * pixel_sr(p, static_cast<int>(i) / p.width_px);
    std::vector<std::pair<double, std::vector<std::uint32_t>>> found;
    for (std::uint32_t i = 0; i < bright.size(); ++i) {
        if (!bright[i]) continue;
        std::vector<std::uint32_t> spot = gather(p, bright, i);
        double flux = 0, sr = 0;
        for (const std::uint32_t pixel : spot) {
            const double one_sr = pixel_sr(p, static_cast<int>(pixel) / p.width_px);
            flux += luminance[pixel] * one_sr;
            sr += one_sr;
        }
        if (sr <= kLargestSpot_sr && flux >= kLeastShare * all) found.emplace_back(flux, std::move(spot));
    }
    std::ranges::stable_sort(found, std::greater{}, [](const auto& f) { return f.first; });
    if (found.size() > kMostSpots) found.resize(kMostSpots);
    std::vector<std::vector<std::uint32_t>> spots;
    for (auto& [flux, spot] : found) spots.push_back(std::move(spot));
    return spots;
}

}  // namespace rakelight
