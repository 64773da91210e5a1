#include "output/samples/understand.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "output/samples/as_lit.h"
#include "output/samples/find_chart.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

namespace {

// Warned of; the first as the work order has it, the others common practice, no published source.
constexpr double kUnevenLight = 0.05;
constexpr double kTwoLights = 0.07;
constexpr double kUnevenPatch = 0.1;
constexpr double kUnevenSample = 0.15;
constexpr double kMisfit = 0.08;
// Cards that are in no photograph: photographic card and matte black paper, from memory.
constexpr float kWhiteCard = 0.86f, kBlackCard = 0.045f;

struct Desk {
    const SampleFile& file;
    SamplesReport& report;
    std::vector<Problem> problems;

    void complain(const Said& at, std::string text) {
        problems.push_back({at.place, at.key, std::move(text)});
    }
    void warn(const Said& at, const std::string& text) {
        report.warnings.push_back(to_string(Problem{at.place, at.key, text}));
    }
};

/// One photograph while it is read.
struct OnDesk {
    const PhotographSaid& said;
    std::optional<Photograph> picture;
    std::optional<Taking> how;
};

bool within(const Photograph& picture, const glm::dvec2& low, const glm::dvec2& high) {
    const glm::dvec2 size(picture.size_px());
    return low.x >= 0 && low.y >= 0 && high.x <= size.x && high.y <= size.y;
}

void check_within(Desk& desk, const Photograph& picture, const PictureBox& box, const std::string& what) {
    if (within(picture, box.at, box.at + box.size)) return;
    desk.complain(box.said,
                  fmt::format("found {} from {:.6g}, {:.6g} to {:.6g}, {:.6g}, expected it within the "
                              "picture of {} x {} pixels",
                              what, box.at.x, box.at.y, box.at.x + box.size.x, box.at.y + box.size.y,
                              picture.size_px().x, picture.size_px().y));
}

/// On which side of the line from a to b a point lies; positive = to the right, y down.
double side_of(const glm::dvec2& a, const glm::dvec2& b, const glm::dvec2& p) {
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

bool on_chart(const ChartCorners& corners, const PictureBox& box) {
    for (const glm::dvec2 part :
         {glm::dvec2(0, 0), glm::dvec2(1, 0), glm::dvec2(1, 1), glm::dvec2(0, 1), glm::dvec2(0.5, 0.5)}) {
        bool inside = true;
        for (std::size_t i = 0; i < 4; ++i)
            inside = inside && side_of(corners[i], corners[(i + 1) % 4], box.at + part * box.size) > 0;
        if (inside) return true;
    }
    return false;
}

bool round_about(const ChartCorners& corners) {
    for (std::size_t i = 0; i < 4; ++i)
        if (!(side_of(corners[i], corners[(i + 1) % 4], corners[(i + 2) % 4]) > 100)) return false;
    return true;
}

std::optional<ChartCorners> corners_of(Desk& desk, const PhotographSaid& said, const Photograph& picture) {
    if (!said.corners) {
        const FoundChart found = find_chart(picture, said.tone);
        if (!found.corners) desk.complain(said.chart_said, found.why_not);
        return found.corners;
    }
    for (const glm::dvec2& corner : *said.corners)
        if (!within(picture, corner, corner)) {
            desk.complain(
                said.chart_said,
                fmt::format("found a corner at {:.6g}, {:.6g}, expected the whole chart within the picture "
                            "of {} x {} pixels",
                            corner.x, corner.y, picture.size_px().x, picture.size_px().y));
            return std::nullopt;
        }
    if (!round_about(*said.corners)) {
        desk.complain(
            said.chart_said,
            "found corners that do not go round clockwise, expected those of dark skin, bluish green, "
            "black and white");
        return std::nullopt;
    }
    return said.corners;
}

void warn_of_chart(Desk& desk, const PhotographSaid& said, const ChartReadings& readings,
                   const ChartFit& fit) {
    const auto named = [](const std::vector<std::size_t>& patches) {
        std::string names;
        for (const std::size_t i : patches)
            names += fmt::format("{}{}", names.empty() ? "" : ", ", chart24()[i].name);
        return names;
    };
    std::vector<std::size_t> clipped, uneven;
    for (std::size_t i = 0; i < kChartPatches; ++i) {
        const Reading& r = readings.patches[i];
        if (!(r.usable[0] && r.usable[1] && r.usable[2])) clipped.push_back(i);
        if (r.spread > kUnevenPatch && i + 2 < kChartPatches) uneven.push_back(i);  // dark greys are grainy
    }
    if (!clipped.empty()) desk.warn(said.chart_said, "overexposed, and not used: " + named(clipped));
    if (!uneven.empty())
        desk.warn(
            said.chart_said,
            "uneven within the patch, by a highlight, a shadow or a corner set wrong: " + named(uneven));
    if (!fit.left_out.empty())
        desk.warn(said.chart_said,
                  "not of the colour that the others make likely, by a highlight or dirt, and not used: " +
                      named(fit.left_out));
    if (fit.two_lights > kTwoLights)
        desk.warn(said.chart_said,
                  fmt::format("the light changes its colour by {:.0f} % across the picture: two "
                              "lights; take it again with one",
                              100 * fit.two_lights));
    if (fit.misfit > kMisfit)
        desk.warn(said.chart_said,
                  fmt::format("the chart's colours are {:.0f} % off: a faded chart, or a picture "
                              "that was improved; expect the samples to be off as well",
                              100 * fit.misfit));
    if (fit.uneven_left > kUnevenLight)
        desk.warn(said.chart_said,
                  fmt::format("the light on the white sheet is uneven by {:.0f} % more than a smooth "
                              "fall explains",
                              100 * fit.uneven_left));
}

void read_one(Desk& desk, OnDesk& on) {
    const PhotographSaid& said = on.said;
    try {
        on.picture.emplace(said.picture);
    } catch (const std::runtime_error& e) {
        desk.complain(said.said, fmt::format("{} ({})", e.what(), said.picture));
        return;
    }
    for (const SampleSpot& spot : said.spots) check_within(desk, *on.picture, spot.box, "a sample");
    for (const PictureBox& box : said.white_sheet) check_within(desk, *on.picture, box, "a white sheet");
    if (said.white_card) check_within(desk, *on.picture, *said.white_card, "the white card");
    if (said.black_card) check_within(desk, *on.picture, *said.black_card, "the black card");
    if (!desk.problems.empty()) return;
    const auto corners = corners_of(desk, said, *on.picture);
    if (!corners) return;
    for (const SampleSpot& spot : said.spots)
        if (on_chart(*corners, spot.box))
            desk.complain(spot.box.said, "found a sample on the chart, expected rectangles apart");
    on.how.emplace(taking(*on.picture, said.tone, *corners));
    const ChartReadings readings{read_patches(*on.how, *corners), read_sheet(*on.how, said.white_sheet),
                                 on.how->linear};
    ReadPhotograph read;
    read.picture = std::filesystem::path(said.picture).filename().string();
    read.light = said.light;
    read.linear = on.how->linear;
    read.chart_found = !said.corners;
    read.corners = *corners;
    try {
        read.fit = fit_chart(readings);
    } catch (const ChartRefused& e) {
        desk.complain(said.chart_said, e.what());
        return;
    }
    warn_of_chart(desk, said, readings, read.fit);
    desk.report.photographs.push_back(std::move(read));
}

SeenSample seen_in(Desk& desk, const OnDesk& on, const ChartFit& fit, const PictureBox& box,
                   const std::string& what) {
    const Reading r = read_box(*on.how, box.at, box.size);
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
    const glm::dvec2 part = shape * std::min(box.size.x / shape.x, box.size.y / shape.y);
    const glm::dvec2 corner = box.at + (box.size - part) / 2.0;
    for (int y = 0; y < print.height; ++y)
        for (int x = 0; x < print.width; ++x) {
            const glm::dvec2 at = corner + part * (glm::dvec2(x, y) + 0.5) / shape;
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
        glass = black ? glass_of_seen(pair, sample.lit)
                      : glass_over_white(pair, said.milkiness_per_mm.value_or(0), sample.lit);
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

LitFrom lit_of(const std::vector<OnDesk>& on, const std::string& name) {
    for (const OnDesk& each : on)
        for (const SampleSpot& s : each.said.spots)
            if (s.name == name) return each.said.lit_from;
    return LitFrom::side;
}

void read_sample(Desk& desk, const std::vector<OnDesk>& on, const SampleSaid& said) {
    ReadSample sample{said.name, said.material, lit_of(on, said.name), {}, false};
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
    for (Look& look : sample.looks)
        look.rendered = seen_as_lit(
            sample.material, thickness_mm,
            look.over == Over::black ? desk.report.black_card : desk.report.white_card, sample.lit);
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
    for (OnDesk& each : on) read_one(desk, each);
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
