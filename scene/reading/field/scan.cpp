#include "scene/reading/field/scan.h"

#include <fmt/format.h>

#include <fstream>
#include <iterator>

#include "materials/maths/hash.h"
#include "scene/reading/field/corners.h"

namespace rakelight {
namespace {

constexpr int kVersion = 1;  // grows when lines are found in another way
constexpr std::string_view kBegins = "<!-- Found in a scan, ";

std::string digits(std::uint64_t hash) {
    return fmt::format("{:016x}", hash);
}

std::string bytes_of(const std::filesystem::path& path) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(path, error)) return {};
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

void read_corners_or_whole(Section& in, ScanSaid& said) {
    const YamlValue* value = in.find("corners");
    if (value && value->shape == YamlValue::Shape::scalar) {
        std::size_t word = 0;
        said.whole = in.set_word(word, "corners");
    } else if (const auto corners = read_corners(in, ", or the word whole")) {
        said.corners_px = *corners;
    }
}

}  // namespace

std::optional<ScanSaid> read_scan(Section& in) {
    ScanSaid said;
    said.place = in.place();
    std::string name;
    const bool before = in.problems().empty();
    if (in.set(name, "scan")) said.scan = in.problems().beside(*in.find("scan"), name);
    glm::dvec2 paper{};
    if (in.set(paper, "paper")) said.paper_mm = paper;
    read_corners_or_whole(in, said);
    in.set(said.width_mm, "width");
    in.set(said.gap_mm, "gaps");
    in.set(said.speck_mm, "specks");
    if (std::size_t ink = 0; in.set_word(ink, "outlines")) said.ink = words_of(in.table(), "outlines")[ink];
    if ((said.whole || said.corners_px) && !in.has("paper"))
        in.problem("paper", "found nothing, expected the paper's [width, height] between the corners");
    in.finish();
    if (name.empty() || (before && !in.problems().empty())) return std::nullopt;
    return said;
}

std::filesystem::path found_beside(const std::filesystem::path& scan) {
    return scan.parent_path() / (scan.stem().string() + "-found.svg");
}

std::string scan_key(const ScanSaid& said) {
    const std::string bytes = bytes_of(said.scan);
    if (bytes.empty()) return {};
    std::string how =
        fmt::format("{} {} {} {} {}", kVersion, said.whole, said.gap_mm, said.speck_mm, said.ink);
    if (said.paper_mm) how += fmt::format(" {} {}", said.paper_mm->x, said.paper_mm->y);
    if (said.corners_px)
        for (const glm::dvec2& c : *said.corners_px) how += fmt::format(" {},{}", c.x, c.y);
    return digits(hash_combine(hash_text(bytes), hash_text(how)));
}

KeptScan kept_scan(const std::string& text) {
    const std::size_t at = text.find(kBegins), end = text.find("-->\n", at == std::string::npos ? 0 : at);
    if (at == std::string::npos || end == std::string::npos || end - at < kBegins.size() + 33) return {};
    const std::string said = text.substr(at + kBegins.size(), 33);
    return {said.substr(0, 16), said.substr(17) != digits(hash_text(text.substr(end + 4)))};
}

std::string keep_scan(const std::string& key, const std::string& svg) {
    return fmt::format("{}{} {}: give it another name before you edit it -->\n{}", kBegins, key,
                       digits(hash_text(svg)), svg);
}

}  // namespace rakelight
