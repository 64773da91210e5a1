#include "output/system/job_words.h"

#include <fmt/format.h>

#include <charconv>

namespace rakelight {

namespace {

constexpr std::string_view kFinished = "finished";

// A whole number at the start of a text, which is moved on behind it.
std::optional<int> take_number(std::string_view& text) {
    int number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc()) return {};
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    return number;
}

// What stands behind the last `mark` of a text, which is cut off there.
std::optional<std::string_view> take_behind(std::string_view& text, std::string_view mark) {
    const std::size_t at = text.rfind(mark);
    if (at == text.npos) return {};
    const std::string_view behind = text.substr(at + mark.size());
    text = text.substr(0, at);
    return behind;
}

}  // namespace

std::optional<JobProgress> progress_in(std::string_view line) {
    if (line.starts_with("Warning: ") || line.starts_with("Note: ")) return {};
    auto behind = take_behind(line, ": ");
    if (!behind) return {};
    const auto percent = take_number(*behind);
    if (!percent || *percent < 0 || *percent > 100) return {};
    if (*behind != " %" && !behind->starts_with(" %  about ")) return {};
    return JobProgress{std::string(line), *percent / 100.0};
}

std::optional<PlannedPicture> picture_in(std::string_view line) {
    const auto state = take_behind(line, "  ");
    auto size = take_behind(line, "  ");
    if (!state || !size) return {};
    const auto width = take_number(*size);
    if (!width || !size->starts_with('x')) return {};
    size->remove_prefix(1);
    const auto height = take_number(*size);
    if (!height || !size->empty()) return {};
    const auto stem = take_behind(line, "/");
    return PlannedPicture{stem ? std::string(line) : "", std::string(stem.value_or(line)), *width, *height,
                          *state == kFinished};
}

std::string picture_line(const std::string& path, int width_px, int height_px, std::string_view state) {
    return fmt::format("{}  {}x{}  {}", path, width_px, height_px, state);
}

}  // namespace rakelight
