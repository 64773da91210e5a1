// Photographs on the desk while they are read: the chart of each is found and fitted, and what is wrong or
// doubtful is written down with its place.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "output/samples/chart_checks.h"
#include "output/samples/understand.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

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
    PhotographSaid said;  ///< once it is read, with the places of a printed sheet put into the picture
    std::optional<Photograph> picture;
    std::optional<Taking> how;
};

/// Opens the picture, finds its chart and fits it: a ReadPhotograph more in the report, or problems on the
/// desk.
void read_photograph(Desk& desk, OnDesk& on);

}  // namespace rakelight
