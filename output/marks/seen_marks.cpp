#include "output/marks/seen_marks.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "output/marks/mark_sheet.h"
#include "output/system/part_program.h"
#include "output/system/run_self.h"
#include "output/system/safe_file.h"

namespace rakelight {

std::vector<SeenMark> see_marks(const BytePicture& picture) {
    const auto program = find_part("find-marks");
    if (!program) throw std::runtime_error("to find marks by itself " + part_missing("find-marks"));
    const PassingFile small("find-marks.ppm");
    write_file(small.path, ppm_of(picture));
    std::vector<SeenMark> seen;
    const auto listen = [&](std::string_view line) {
        const auto json = nlohmann::json::parse(line, nullptr, false);
        if (!json.is_object()) return;
        SeenMark mark{json.at("mark"), {}};
        for (std::size_t i = 0; i < 4; ++i)
            mark.corners_px[i] = {json.at("corners").at(i).at(0), json.at("corners").at(i).at(1)};
        if (mark.number >= 0 && mark.number < kMarks) seen.push_back(mark);
    };
    std::string said;
    const auto hear = [&](std::string_view line) { said = line; };
    if (const int code = run_program(program->string(), {small.path.string()}, {listen, hear, {}}); code != 0)
        throw std::runtime_error(fmt::format("its part find-marks ended with {}: {}", code, said));
    std::sort(seen.begin(), seen.end(),
              [](const SeenMark& a, const SeenMark& b) { return a.number < b.number; });
    return seen;
}

}  // namespace rakelight
