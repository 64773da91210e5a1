#include "output/samples/stock_text.h"

#include <fmt/format.h>

#include <array>

#include "output/stock/library_entry.h"

namespace rakelight {

namespace {

std::string range_comment(const ReadSample& sample) {
    std::string text;
    for (const Look& look : sample.looks) {
        text += fmt::format(
            "  # {}: nine in ten within CIEDE2000",
            std::array{"as it lies", "over white", "over black"}[static_cast<std::size_t>(look.over)]);
        for (const ColourRange& r : look.ranges)
            text += fmt::format("{} {:.1f} under {}", &r == &look.ranges.front() ? "" : ",", r.nine_in_ten,
                                r.light);
        text += fmt::format(", from {} photograph{}\n", look.photographs, look.photographs == 1 ? "" : "s");
    }
    if (sample.milkiness_assumed) text += "  # milkiness is assumed\n";
    return text;
}

std::string entry(const ReadSample& sample) {
    const Material& m = sample.material;
    std::string text =
        fmt::format("{}  {}:\n{}", range_comment(sample), quoted_key(sample.name), body_text(m));
    if (m.opaque && !sample.looks.empty())
        text += "    uncertainty: " + pairs_text(sample.looks.front().estimate.doubt) + "\n";
    return text +
           fmt::format(
               "    thickness: {:.5g}\n    index: {:.4g}\n    roughness: {:.4g}\n"
               "    provenance: measured from a photograph\n    measured on: \"{}\"\n    colour range: "
               "[{:.2f}, {:.2f}, "
               "{:.2f}]\n",
               m.thickness_mm, m.index, m.roughness, m.measured_on, m.colour_range[0], m.colour_range[1],
               m.colour_range[2]);
}

}  // namespace

std::string stock_text(const SamplesReport& report) {
    std::string text = fmt::format(
        "# Stock measured from photographs of {}, read from {}.\n# Made by {}. In a layout: "
        "`stock from:` and the name of this file.\nstock:\n",
        report.date, report.samples_file, report.program);
    for (const ReadSample& sample : report.samples) text += entry(sample);
    return text;
}

}  // namespace rakelight
