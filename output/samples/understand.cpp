#include "output/samples/understand.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "output/samples/as_lit.h"
#include "output/samples/desk.h"

namespace rakelight {

namespace {

// Warned of: common practice, no published source.
constexpr double kUnevenSample = 0.15;
// Cards that are in no photograph: photographic card and matte black paper, from memory.
constexpr float kWhiteCard = 0.86f, kBlackCard = 0.045f;

SeenSample seen_in(Desk& desk, const OnDesk& on, const ChartFit& fit, const PictureBox& box,
                   const std::string& what) {
    const Reading r = read_box(*on.how, box);
    const double doubt = fit.light.doubt(r.at);
    if (!(r.usable[0] && r.usable[1] && r.usable[2]))
        desk.warn(box.said, what + " is overexposed: a channel is not used, and less is known of its colour");
    if (2 * doubt > kUnevenLight)
        desk.warn(box.said,
                  fmt::format("the light at {} is known within {:.0f} % only: put a white sheet round the "
                              "samples and name it",
                              what, 200 * doubt));
    if (r.spread > kUnevenSample)
        desk.warn(box.said,
                  fmt::format("{} is uneven by {:.0f} %, by texture, a highlight or a rectangle too large",
                              what, 100 * r.spread));
    return {fit.camera, undone(fit, r), r.usable, doubt};
}

/// The largest part of a box that has the shape of a swatch, in as many pixels as the sheet shows.
Print cut_out(const OnDesk& on, const ChartFit& fit, const PictureBox& box) {
    Print print{kCutOut_px.x, kCutOut_px.y, {}};
    const glm::dvec2 shape(kCutOut_px);
    PictureBox part = box;
    part.size = shape * std::min(box.size.x / shape.x, box.size.y / shape.y);
    part.at += (box.size - part.size) / 2.0;
    for (int y = 0; y < print.height; ++y)
        for (int x = 0; x < print.width; ++x) {
            const glm::dvec2 at = in_picture(part, (glm::dvec2(x, y) + 0.5) / shape);
            const auto rgb = on.picture->pixel(
                glm::clamp(glm::ivec2(glm::floor(at)), glm::ivec2(0), on.picture->size_px() - 1));
            for (std::size_t c = 0; c < 3; ++c) {
                const auto v = static_cast<double>(rgb[c]);
                const double shown = on.how->linear ? encode(LinearRgb{fit.tone[c].light(v), 0, 0}).r : v;
                print.rgb.push_back(static_cast<float>(std::clamp(shown, 0.0, 1.0)));
            }
        }
    return print;
}

const SampleSpot* spot_of(const PhotographSaid& said, const std::string& name, Over over) {
    for (const SampleSpot& s : said.spots)
        if (s.name == name && s.over == over) return &s;
    return nullptr;
}

std::optional<Look> read_look(Desk& desk, const std::vector<OnDesk>& on, const SampleSaid& sample,
                              Over over) {
    Look look;
    look.over = over;
    std::vector<SeenSample> seen;
    for (std::size_t i = 0; i < on.size(); ++i) {
        const SampleSpot* spot = spot_of(on[i].said, sample.name, over);
        if (!spot) continue;
        const ChartFit& fit = desk.report.photographs[i].fit;
        if (seen.empty()) {
            look.cut_out = cut_out(on[i], fit, spot->box);
            look.first_photograph = i;
        }
        seen.push_back(seen_in(desk, on[i], fit, spot->box, sample.name));
    }
    if (seen.empty()) return std::nullopt;
    look.photographs = seen.size();
    try {
        look.estimate = estimate_reflectance(seen);
    } catch (const std::invalid_argument&) {
        desk.complain(sample.said,
                      "found it overexposed in every channel, expected a photograph that holds it");
        return std::nullopt;
    }
    look.ranges = colour_ranges(look.estimate);
    return look;
}

/// The card from every photograph that shows it, or `usual`.
SampledSpectrum read_card(Desk& desk, const std::vector<OnDesk>& on,
                          std::optional<PictureBox> PhotographSaid::*card, const char* what, float usual,
                          bool& assumed) {
    std::vector<SeenSample> seen;
    for (std::size_t i = 0; i < on.size(); ++i)
        if (const auto& box = on[i].said.*card)
            seen.push_back(seen_in(desk, on[i], desk.report.photographs[i].fit, *box, what));
    assumed = seen.empty();
    return assumed ? SampledSpectrum(usual) : estimate_reflectance(seen).reflectance;
}

void find_glass(Desk& desk, const SampleSaid& said, ReadSample& sample) {
    GlassPair pair;
    pair.white_card = desk.report.white_card;
    pair.black_card = desk.report.black_card;
    pair.thickness_mm = static_cast<double>(said.material.thickness_mm);
    pair.index = static_cast<double>(said.material.index);
    const Look* black = nullptr;
    for (const Look& look : sample.looks) {
        if (look.over == Over::white) pair.over_white = look.estimate.reflectance;
        if (look.over == Over::black) {
            pair.over_black = look.estimate.reflectance;
            black = &look;
        }
    }
    GlassOfPair glass;
    try {
        glass = black ? glass_of_seen(pair, sample.lit, sample.lies)
                      : glass_over_white(pair, said.milkiness_per_mm.value_or(0), sample.lit, sample.lies);
    } catch (const std::invalid_argument& e) {
        desk.complain(said.said, fmt::format("{}: is one named as the other?", e.what()));
        return;
    }
    if (!black) {
        sample.milkiness_assumed = true;
        desk.warn(said.said,
                  fmt::format("seen over white alone: a milkiness of {:.3g} per mm is assumed; over black "
                              "as well it would be found",
                              glass.milkiness));
    }
    sample.material = with_glass(sample.material, glass, pair.thickness_mm);
}

// The first photograph that shows a sample.
const PhotographSaid& first_of(const std::vector<OnDesk>& on, const std::string& name) {
    for (const OnDesk& each : on)
        for (const SampleSpot& s : each.said.spots)
            if (s.name == name) return each.said;
    return on.front().said;
}

void read_sample(Desk& desk, const std::vector<OnDesk>& on, const SampleSaid& said) {
    const PhotographSaid& first = first_of(on, said.name);
    ReadSample sample{said.name, said.material, first.lit_from, first.glass_lies, {}, false};
    sample.material.provenance = Provenance::photographed;
    for (const Over over : {Over::alone, Over::white, Over::black})
        if (auto look = read_look(desk, on, said, over)) sample.looks.push_back(std::move(*look));
    if (sample.looks.empty()) return;
    const auto thickness_mm = static_cast<double>(said.material.thickness_mm);
    // Rendered from what the stock file will say, read as a layout reads it.
    if (sample.looks.front().over == Over::alone) {
        sample.material = with_seen(sample.material, sample.looks.front().estimate.reflectance, sample.lit);
    } else {
        find_glass(desk, said, sample);
    }
    sample.material.measured_on = desk.file.date;
    for (const Look& look : sample.looks)
        for (std::size_t i = 0; i < look.ranges.size(); ++i)
            sample.material.colour_range[i] =
                std::max(sample.material.colour_range[i], look.ranges[i].nine_in_ten);
    for (Look& look : sample.looks)
        look.rendered =
            seen_as_lit(sample.material, thickness_mm,
                        look.over == Over::black ? desk.report.black_card : desk.report.white_card,
                        sample.lit, sample.lies);
    desk.report.samples.push_back(std::move(sample));
}

}  // namespace

SamplesReport understand(const SampleFile& file, const std::string& program) {
    SamplesReport report;
    report.program = program;
    report.samples_file = std::filesystem::path(file.path).filename().string();
    report.date = file.date;
    Desk desk{file, report, {}};
    const auto stop_if_wrong = [&] {
        if (!desk.problems.empty()) throw LayoutError(desk.problems);
    };
    std::vector<OnDesk> on;
    for (const PhotographSaid& said : file.photographs) on.push_back({said, std::nullopt, std::nullopt});
    for (OnDesk& each : on) read_photograph(desk, each);
    stop_if_wrong();
    const bool glass = std::any_of(on.begin(), on.end(), [](const OnDesk& each) {
        return std::any_of(each.said.spots.begin(), each.said.spots.end(),
                           [](const SampleSpot& s) { return s.over != Over::alone; });
    });
    report.white_card = read_card(desk, on, &PhotographSaid::white_card, "the white card", kWhiteCard,
                                  report.white_card_assumed);
    report.black_card = read_card(desk, on, &PhotographSaid::black_card, "the black card", kBlackCard,
                                  report.black_card_assumed);
    if (glass && (report.white_card_assumed || report.black_card_assumed))
        desk.warn({{file.path, 0, 0}, ""},
                  fmt::format("a card is in no photograph: white is taken as {:.3g} %, black as {:.3g} %",
                              100 * kWhiteCard, 100 * kBlackCard));
    for (const SampleSaid& said : file.samples) read_sample(desk, on, said);
    stop_if_wrong();
    return report;
}

}  // namespace rakelight
