#include "scene/light/photometric_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <iterator>

#include "scene/light/photometric_data.h"
#include "scene/text/diagnostics.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostLabels = 1000;
constexpr std::size_t kOldLine = 132;  // characters, up to 1995

const std::vector<std::string> kVersions{"IESNA91", "IESNA:LM-63-1995", "IESNA:LM-63-2002", "IES:LM-63-2019"};
constexpr std::array<int, 4> kYears{1991, 1995, 2002, 2019};

std::string text_of(const fs::path& path, const std::string& expected) {
    const std::string file = path.string();
    const auto refuse = [&](std::string text) { throw LayoutError({file, 0, 0}, "", std::move(text)); };
    std::error_code error;
    if (!fs::is_regular_file(path, error)) refuse("found no such file, expected " + expected);
    if (const auto size = fs::file_size(path, error); error || size > kMostPhotometricBytes)
        refuse("found a file over 4 MiB, expected " + expected);
    std::ifstream stream(path, std::ios::binary);
    std::string text{std::istreambuf_iterator<char>(stream), {}};
    if (!stream.is_open() || stream.bad()) refuse("cannot be read");
    return text;
}

class LabelReader {
  public:
    LabelReader(PhotometricFile& file, const std::string& name, ProblemList& problems)
        : file_(file), name_(name), problems_(problems) {}

    // The year of the standard; true when the line says it.
    bool version(const PhotometricLine& line) {
        const auto known = std::find(kVersions.begin(), kVersions.end(), line.text);
        if (known != kVersions.end()) {
            file_.year = kYears[static_cast<std::size_t>(known - kVersions.begin())];
            return true;
        }
        if (line.text.starts_with("IES")) {
            problem(line, 1,
                    fmt::format("found {}, expected one of {}{}", rakelight::quoted(line.text),
                                fmt::join(kVersions, ", "), did_you_mean(line.text, kVersions)));
            return true;
        }
        file_.year = 1986;
        file_.notes.emplace_back("says no version of the standard: read as one of 1986");
        return false;
    }

    void label(const PhotometricLine& line) {
        if (line.text.empty() || file_.year == 1986) return;
        const std::size_t close = line.text.find(']');
        if (!line.text.starts_with('[') || close == line.text.npos || close == 1)
            return problem(line, 1,
                           fmt::format("found {}, expected a keyword in brackets, as [TEST], or TILT=",
                                       rakelight::quoted(line.text)));
        const std::string key(line.text.substr(1, close - 1));
        const std::size_t first = line.text.find_first_not_of(" \t", close + 1);
        const std::string value(first == line.text.npos ? "" : line.text.substr(first));
        if (key != "MORE") {
            file_.keywords.emplace_back(key, value);
        } else if (file_.keywords.empty()) {
            problem(line, 1, "found [MORE] first, expected a keyword that it goes on with");
        } else {
            file_.keywords.back().second += '\n' + value;
        }
    }

    void problem(const PhotometricLine& line, int column, std::string text) {
        problems_.add(Place{name_, line.number, column}, "", std::move(text));
    }

  private:
    PhotometricFile& file_;
    const std::string& name_;
    ProblemList& problems_;
};

TiltFactors read_tilt_file(const fs::path& path) {
    const std::string text = text_of(path, "the file named after TILT=");
    const std::string name = path.string();
    ProblemList problems(name);
    PhotometricNumbers numbers(photometric_lines(text), 0, name, problems);
    TiltFactors tilt;
    read_tilt(numbers, tilt, problems);
    numbers.finish("the end of the file");
    problems.throw_if_any();
    return tilt;
}

void note_oddities(PhotometricFile& file, const std::vector<PhotometricLine>& lines) {
    const double rated = file.lamps * file.lumens_per_lamp;
    if (file.lumens_per_lamp > 0 && file.lumens > 1.01 * rated)
        file.notes.push_back(
            fmt::format("gives {:.4g} lm, more than its lamps, {:.4g} lm", file.lumens, rated));
    if (file.year < 2002)
        for (const PhotometricLine& line : lines)
            if (line.text.size() > kOldLine) {
                file.notes.push_back(fmt::format("line {} is longer than the {} characters of its standard",
                                                 line.number, kOldLine));
                break;
            }
    if (file.year == 1986) return;
    for (const char* key : {"TEST", "MANUFAC"})
        if (std::none_of(file.keywords.begin(), file.keywords.end(),
                         [&](const auto& k) { return k.first == key; }))
            file.notes.push_back(fmt::format("has no [{}], which its standard asks for", key));
}

}  // namespace

double TiltFactors::at(double tilt_deg) const {
    if (angle_deg.empty()) return 1;
    const auto above = std::upper_bound(angle_deg.begin(), angle_deg.end(), tilt_deg);
    if (above == angle_deg.begin()) return factor.front();
    if (above == angle_deg.end()) return factor.back();
    const auto i = static_cast<std::size_t>(above - angle_deg.begin());
    const double share = (tilt_deg - angle_deg[i - 1]) / (angle_deg[i] - angle_deg[i - 1]);
    return factor[i - 1] + share * (factor[i] - factor[i - 1]);
}

PhotometricFile read_photometric_text(std::string_view text, const std::string& name,
                                      const fs::path& folder) {
    ProblemList problems(name);
    if (text.size() > kMostPhotometricBytes)
        throw LayoutError({name, 0, 0}, "", "found a file over 4 MiB, expected a photometric file");
    if (text.starts_with("\xef\xbb\xbf")) text.remove_prefix(3);
    const std::vector<PhotometricLine> lines = photometric_lines(text);
    if (lines.empty())
        throw LayoutError({name, 0, 0}, "", "found an empty file, expected a photometric file");

    PhotometricFile file;
    LabelReader labels(file, name, problems);
    std::size_t at = labels.version(lines[0]) ? 1 : 0;
    const std::size_t first = at;
    for (; at < lines.size() && !lines[at].text.starts_with("TILT=") && at < first + kMostLabels; ++at)
        labels.label(lines[at]);
    if (at == lines.size() || at == first + kMostLabels) {
        labels.problem(lines[at - 1], 1,
                       fmt::format("found no line TILT= {}, expected one after the labels",
                                   at == lines.size() ? "in the file" : "within 1000 lines"));
        problems.throw_if_any();
    }
    std::string tilt(lines[at].text.substr(5));
    tilt.erase(0, tilt.find_first_not_of(" \t"));
    PhotometricNumbers numbers(lines, at + 1, name, problems);
    problems.throw_if_any();
    if (tilt == "INCLUDE") {
        read_tilt(numbers, file.tilt, problems);
    } else if (tilt != "NONE") {
        if (file.year == 2019 || tilt.empty() || fs::path(tilt).filename() != fs::path(tilt)) {
            labels.problem(lines[at], 6,
                           fmt::format("found {}, expected NONE or INCLUDE{}", rakelight::quoted(tilt),
                                       file.year == 2019 ? "" : ", or the name of a file beside this one"));
            problems.throw_if_any();
        }
        file.tilt = read_tilt_file(folder / tilt);
    }
    read_photometric_data(numbers, file, problems);
    note_oddities(file, lines);
    return file;
}

PhotometricFile read_photometric_file(const fs::path& path) {
    return read_photometric_text(text_of(path, "a photometric file"), path.string(), path.parent_path());
}

}  // namespace rakelight
