// `rakelight match`: the grams of which pigments bring a base to a wanted colour.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <memory>

#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/stock/laid_report.h"
#include "output/stock/match_report.h"
#include "output/stock/match_target.h"
#include "output/system/errors.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"
#include "scene/forms/side_wall.h"
#include "scene/reading/stock/supplies.h"
#include "scene/text/curve_file.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

struct MatchWords {
    std::string lab, srgb, like, curve;
    std::string bed = "white", grout, piece = "10 mm", thickness;
    std::string glass, lightness;
    bool bed_given = false;
    std::string base = "white-cement", batch = "500 g", balance_step = "0.01 g", layer, illuminant = "D65";
    std::vector<std::string> pigments;
    int most = 3;
    int recipes = 3;
    double within = 1;
    std::string layout;
    std::vector<std::string> changes;
    bool json = false;
};

double measure(const char* option, const std::string& text, Quantity quantity, double low, double high) {
    const Measure m = read_measure(text, quantity);
    if (!m.ok()) throw RequestError(fmt::format("{}: {}", option, m.problem));
    if (m.value < low || m.value > high)
        throw RequestError(fmt::format("{}: found {}, expected {} to {}{}", option, rakelight::quoted(text),
                                       number_text(low), number_text(high), unit_suffix(quantity)));
    return m.value;
}

[[noreturn]] void unknown(const char* option, const std::string& name,
                          const std::vector<std::string>& known) {
    throw RequestError(fmt::format("{}: found {}, expected one of {}{}", option, rakelight::quoted(name),
                                   fmt::join(known, ", "), did_you_mean(name, known)));
}

const Material& on_shelf(const char* option, const std::string& name, const Shelf& shelf) {
    const Material* m = shelf.find(name);
    if (!m) unknown(option, name, shelf.names);
    return *m;
}

SampledSpectrum read_target_curve(const std::string& file) {
    return read_curves(file, 1).front();
}

/// What is wanted, and in words.
std::string read_wanted(const MatchWords& words, const Supplies& supplies, Wanted& wanted) {
    const auto given = static_cast<int>(!words.lab.empty()) + !words.srgb.empty() + !words.like.empty() +
                       !words.curve.empty();
    if (given != 1)
        throw RequestError(
            fmt::format("found {} wanted colours, expected one of --lab, --srgb, --like, --curve", given));
    if (!words.lab.empty()) {
        wanted.lab = parse_lab(words.lab);
        return "a colour";
    }
    if (!words.srgb.empty()) {
        wanted.lab = parse_srgb(words.srgb);
        return "sRGB " + words.srgb;
    }
    if (!words.curve.empty()) {
        wanted.curve = read_target_curve(words.curve);
        return words.curve;
    }
    const Material& material = on_shelf("--like", words.like, supplies.stock);
    const Material& bed = on_shelf("--bed", words.bed, supplies.tints);
    const double thickness_mm = words.thickness.empty()
                                    ? static_cast<double>(material.thickness_mm)
                                    : measure("--thickness", words.thickness, Quantity::length_mm, 0.5, 100);
    SideWall side;
    if (!words.grout.empty() && !material.opaque) {
        const double side_mm = measure("--piece", words.piece, Quantity::length_mm, 1, 2000);
        Field grouted;
        grouted.grout = 0;
        const double depth_mm = bonded_mm(grouted, thickness_mm);
        side = side_wall(on_shelf("--grout", words.grout, supplies.tints).reflectance,
                         edge_per_mm(side_mm, side_mm), depth_mm, thickness_mm, material);
    }
    wanted.curve = seen_as_laid(material, thickness_mm, bed.reflectance, side);
    if (material.opaque) return words.like;
    return fmt::format("{}, {:.3g} mm over {}{}", words.like, thickness_mm, words.bed,
                       words.grout.empty() ? "" : " beside " + words.grout);
}

std::vector<Pigment> choose_pigments(const MatchWords& words, const Supplies& supplies, const Base& base) {
    std::vector<Pigment> chosen;
    if (words.pigments.empty()) {
        for (const Pigment& p : supplies.pigments)
            if (base.kind != Kind::cement || p.cement_warning.empty()) chosen.push_back(p);
        return chosen;
    }
    std::vector<std::string> names;
    for (const Pigment& p : supplies.pigments) names.push_back(p.name);
    for (const std::string& name : words.pigments) {
        const auto at = std::find(names.begin(), names.end(), name);
        if (at == names.end()) unknown("--pigments", name, names);
        if (std::none_of(chosen.begin(), chosen.end(), [&](const Pigment& p) { return p.name == name; }))
            chosen.push_back(supplies.pigments[static_cast<std::size_t>(at - names.begin())]);
    }
    return chosen;
}

Supplies supplies_of(const MatchWords& words) {
    return words.layout.empty() ? usual_supplies()
                                : read_supplies(read_file(words.layout), words.layout, words.changes);
}

void check_light(const MatchWords& words) {
    const std::vector<std::string> lights = illuminant_names();
    if (std::find(lights.begin(), lights.end(), words.illuminant) == lights.end())
        unknown("--illuminant", words.illuminant, lights);
}

MatchReport read_words(const MatchWords& words) {
    const Supplies supplies = supplies_of(words);
    MatchReport report;
    MatchRequest& q = report.request;
    const Base* base = find_base(words.base);
    if (!base) unknown("--base", words.base, base_names());
    q.base.base = *base;
    q.base.thickness_mm = words.layer.empty()
                              ? base->thickness_mm
                              : measure("--layer", words.layer, Quantity::length_mm, 0.1, 100);
    check_light(words);
    q.light = words.illuminant;
    q.batch_g = measure("--batch", words.batch, Quantity::mass_g, 1, 1e6);
    q.scale_g = measure("--balance-step", words.balance_step, Quantity::mass_g, 1e-4, 100);
    q.most_pigments = words.most;
    q.pigments = choose_pigments(words, supplies, *base);
    q.pause = stop_if_interrupted;
    report.wanted = read_wanted(words, supplies, q.wanted);
    report.within = words.within;
    report.wanted_lab = wanted_lab(q);
    return report;
}

/// What of the glass is wanted, and in words.
std::string read_wanted_glass(const MatchWords& words, const Supplies& supplies, LaidGlassQuestion& q) {
    if (words.lightness.empty()) {
        Wanted wanted;
        const std::string text = read_wanted(words, supplies, wanted);
        q.lab = wanted_lab({.wanted = wanted, .light = q.light});
        return fmt::format("{}, L* {:.1f}, a* {:.1f}, b* {:.1f}", text, q.lab->l, q.lab->a, q.lab->b);
    }
    for (const std::string* other : {&words.lab, &words.srgb, &words.like, &words.curve})
        if (!other->empty()) throw RequestError("--lightness: found another wanted colour, expected one");
    q.lightness = measure("--lightness", words.lightness, Quantity::plain, 0, 100);
    return fmt::format("L* {:.1f}", q.lightness);
}

LaidReport read_glass(const MatchWords& words, const Supplies& supplies) {
    LaidReport report;
    LaidGlassQuestion& q = report.question;
    q.glass = on_shelf("--glass", words.glass, supplies.stock);
    q.light = words.illuminant;
    if (q.glass.opaque || q.glass.backed || q.glass.leaf != Leaf::none)
        throw RequestError(
            fmt::format("--glass: found {}, through which no bed shows, expected translucent glass",
                        rakelight::quoted(words.glass)));
    report.wanted = read_wanted_glass(words, supplies, q);
    report.within = words.within;
    if (!words.thickness.empty())
        q.fixed_mm = measure("--thickness", words.thickness, Quantity::length_mm, 0.5, 100);
    q.pause = stop_if_interrupted;
    if (words.bed_given) {
        q.beds = {{words.bed, on_shelf("--bed", words.bed, supplies.tints).reflectance}};
        return report;
    }
    for (const std::string& name : supplies.tints.names) {
        const Material& tint = *supplies.tints.find(name);
        const bool known = std::any_of(q.beds.begin(), q.beds.end(), [&](const Bed& b) {
            return b.reflectance == tint.reflectance;  // the same colour in cement and in resin
        });
        if (tint.opaque && !known) q.beds.push_back({name, tint.reflectance});
    }
    return report;
}

MadeFrom from_layout(const MatchWords& words) {
    if (words.layout.empty()) return {kProgram, "", std::nullopt};
    return made_from(words.layout, read_file(words.layout), kProgram);
}

void match_glass(const MatchWords& words) {
    check_light(words);
    LaidReport report = read_glass(words, supplies_of(words));
    report.ways = ways_to_lay(report.question);
    if (report.ways.size() > static_cast<std::size_t>(words.recipes))
        report.ways.resize(static_cast<std::size_t>(words.recipes));
    fmt::print("{}", words.json ? laid_json(report, from_layout(words)) : laid_text(report));
    if (!report.reached())
        throw RequestError(fmt::format(
            "{} cannot be laid so: the nearest is {} {:.2f} away, wanted within {:.2f}", words.glass,
            report.question.lab ? "CIEDE2000" : "L*", report.ways.front().off, report.within));
}

void match_words(const MatchWords& words) {
    if (!words.glass.empty()) return match_glass(words);
    if (!words.lightness.empty())
        throw RequestError("--lightness: found it without --glass, expected a glass to lay");
    MatchReport report = read_words(words);
    report.matches = match(report.request, static_cast<std::size_t>(words.recipes));
    fmt::print("{}", words.json ? match_json(report, from_layout(words)) : match_text(report));
    if (!report.reached())
        throw RequestError(fmt::format(
            "this colour cannot be reached: the nearest is CIEDE2000 {:.2f} away, wanted within {:.2f}",
            report.matches.front().delta_e, report.within));
}

}  // namespace

void add_match(CLI::App& app) {
    auto* command =
        app.add_subcommand("match", "Find the grams of pigment that bring a base to a wanted colour");
    const auto w = std::make_shared<MatchWords>();
    command->add_option("--lab", w->lab, "Wanted: L*,a*,b* under the lamp")->type_name("L,a,b");
    command->add_option("--srgb", w->srgb, "Wanted: six hexadecimal digits, as of a screen colour")
        ->type_name("HEX");
    command->add_option("--like", w->like, "Wanted: a material of the stock as laid")->type_name("NAME");
    command->add_option("--curve", w->curve, "Wanted: a measured curve, lines of nm,reflectance")
        ->type_name("FILE");
    command
        ->add_option("--glass", w->glass,
                     "Tint nothing: lay this glass, and find how thick and over which bed")
        ->type_name("NAME");
    command->add_option("--lightness", w->lightness, "With --glass, wanted: L* alone")->type_name("L");
    auto* bed =
        command
            ->add_option("--bed", w->bed,
                         "With --like: the tint under translucent glass; with --glass: this bed alone")
            ->type_name("TINT")
            ->capture_default_str();
    bed->each([w](const std::string&) { w->bed_given = true; });
    command->add_option("--grout", w->grout, "With --like: the tint in the joints, which shows at the sides")
        ->type_name("TINT");
    command->add_option("--piece", w->piece, "With --grout: side of a square piece")
        ->type_name("MM")
        ->capture_default_str();
    command->add_option("--thickness", w->thickness, "With --like or --glass: how thick the piece is")
        ->type_name("MM");
    command->add_option("--base", w->base, fmt::format("What to tint: {}", fmt::join(base_names(), ", ")))
        ->type_name("BASE")
        ->capture_default_str();
    command
        ->add_option("--batch", w->batch,
                     "How much base is weighed out: powder, or resin, hardener and filler")
        ->type_name("MASS")
        ->capture_default_str();
    command->add_option("--layer", w->layer, "How thick the tinted base is laid")->type_name("MM");
    command
        ->add_option("--illuminant", w->illuminant,
                     "CIE illuminant to match under, such as D65, A, F11, LED-B3")
        ->type_name("NAME")
        ->capture_default_str();
    command->add_option("--pigments", w->pigments, "Only these pigments, such as PB28,PBk11")
        ->type_name("NAMES")
        ->delimiter(',');
    command->add_option("--most", w->most, "At most this many pigments in a recipe")
        ->check(CLI::Range(1, 4))
        ->capture_default_str();
    command->add_option("--recipes", w->recipes, "How many different recipes to list")
        ->check(CLI::Range(1, 20))
        ->capture_default_str();
    command->add_option("--within", w->within, "CIEDE2000 that counts as reached; 1 is just noticeable")
        ->check(in_range(0, 100))
        ->capture_default_str();
    command->add_option("--balance-step", w->balance_step, "Smallest step of your balance")
        ->type_name("MASS")
        ->capture_default_str();
    auto* layout =
        command->add_option("--layout", w->layout, "A layout file with stock, tints and pigments of your own")
            ->type_name("FILE");
    command->add_option("--set", w->changes, "Change a key of that layout; may be given again")
        ->type_name("KEY=VALUE")
        ->allow_extra_args(false)
        ->needs(layout);
    command->add_flag("--json", w->json, "Print JSON instead");
    command->footer(
        "Ends with code 2 when the colour cannot be reached, and says how near it got.\n\n"
        "Examples:\n"
        "  rakelight match --like deep-teal --bed white --thickness 3 --batch 400\n"
        "  rakelight match --glass aqua --srgb 5a8f86 --bed white\n"
        "  rakelight match --srgb 4a6b7c --base filled-epoxy --batch 120 --illuminant LED-B3\n"
        "  rakelight match --lab 40,5,-12 --pigments PB28,PBk11,PW6 --balance-step 0.1 --json");
    command->callback([w] { match_words(*w); });
}

}  // namespace rakelight
