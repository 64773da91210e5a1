#include "output/system/progress.h"

#include <fmt/format.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <utility>

namespace rakelight {

namespace {

// One letter and its bytes. Bytes that start no letter stand for themselves.
struct Letter {
    std::uint32_t code = 0;
    std::size_t bytes = 1;
};

Letter next_letter(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned lead = byte(0);
    const std::size_t bytes = lead >= 0xf0 && lead < 0xf8 ? 4 : lead >= 0xe0 ? 3 : lead >= 0xc2 ? 2 : 1;
    if (bytes == 1 || lead >= 0xf8 || bytes > text.size()) return {lead < 0x80 ? lead : 0xfffdu, 1};
    std::uint32_t code = lead & (0xffu >> (bytes + 1));
    for (std::size_t i = 1; i < bytes; ++i) {
        if ((byte(i) & 0xc0u) != 0x80u) return {0xfffd, 1};
        code = code << 6 | (byte(i) & 0x3fu);
    }
    return {code, bytes};
}

// Coarse ranges of Unicode Standard Annex 11 (East Asian Width) and of combining marks.
int letter_width(std::uint32_t code) {
    using Range = std::pair<std::uint32_t, std::uint32_t>;
    constexpr std::array<Range, 4> kNone{
        {{0x300, 0x36f}, {0x200b, 0x200f}, {0x20d0, 0x20ff}, {0xfe00, 0xfe0f}}};
    constexpr std::array<Range, 8> kWide{{{0x1100, 0x115f},
                                          {0x2e80, 0xa4cf},
                                          {0xac00, 0xd7a3},
                                          {0xf900, 0xfaff},
                                          {0xfe30, 0xfe6f},
                                          {0xff00, 0xff60},
                                          {0x1f300, 0x1faff},
                                          {0x20000, 0x3fffd}}};
    const auto holds = [&](const Range& r) { return code >= r.first && code <= r.second; };
    if (std::any_of(kNone.begin(), kNone.end(), holds)) return 0;
    return std::any_of(kWide.begin(), kWide.end(), holds) ? 2 : 1;
}

// The longest beginning that fits, of whole letters.
std::string_view cut(std::string_view text, int columns) {
    std::size_t end = 0;
    while (end < text.size()) {
        const Letter letter = next_letter(text.substr(end));
        columns -= letter_width(letter.code);
        if (columns < 0) break;
        end += letter.bytes;
    }
    return text.substr(0, end);
}

std::string time_left(double share, double elapsed_s) {
    if (elapsed_s < 2 || share <= 0.005 || share >= 1) return "";
    const double seconds = elapsed_s * (1 - share) / share;
    if (seconds < 90) return fmt::format("  about {:.0f} s left", std::max(1.0, std::ceil(seconds)));
    if (seconds < 5400) return fmt::format("  about {:.0f} min left", std::ceil(seconds / 60));
    return fmt::format("  about {:.1f} h left", seconds / 3600);
}

std::string printable(std::string_view text) {
    std::string clean(text);
    for (char& c : clean)
        if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) c = ' ';
    return clean;
}

int columns_of(std::FILE* stream) {
    winsize window{};
    const bool known = ::ioctl(::fileno(stream), TIOCGWINSZ, &window) == 0 && window.ws_col > 0;
    return known ? window.ws_col : 80;
}

}  // namespace

int text_width(std::string_view text) {
    int width = 0;
    while (!text.empty()) {
        const Letter letter = next_letter(text);
        width += letter_width(letter.code);
        text.remove_prefix(letter.bytes);
    }
    return width;
}

std::string progress_line(std::string_view label, double share, double elapsed_s, int columns) {
    columns = std::max(columns, 20);
    share = std::clamp(share, 0.0, 1.0);
    const std::string tail = fmt::format("{:3.0f} %{}", std::floor(share * 100), time_left(share, elapsed_s));
    const std::string name = printable(cut(label, std::max(8, columns / 3)));
    const int room = std::min(40, columns - text_width(name) - static_cast<int>(tail.size()) - 6);
    if (room < 4) return std::string(cut(name + "  " + tail, columns));
    const int full = static_cast<int>(share * room);
    return fmt::format("{}  [{}{}]  {}", name, std::string(static_cast<std::size_t>(full), '#'),
                       std::string(static_cast<std::size_t>(room - full), '-'), tail);
}

ProgressKind progress_kind(std::FILE* stream, bool quiet) {
    if (quiet) return ProgressKind::quiet;
    // A terminal that says of itself that it cannot move about gets lines.
    const char* terminal = std::getenv("TERM");
    const bool moves = terminal && *terminal && std::string_view(terminal) != "dumb";
    return moves && ::isatty(::fileno(stream)) != 0 ? ProgressKind::redrawn : ProgressKind::plain;
}

Progress::Progress(std::string label, ProgressKind kind, std::FILE* stream)
    : label_(std::move(label)), kind_(kind), stream_(stream), start_(std::chrono::steady_clock::now()) {}

Progress::~Progress() {
    if (kind_ == ProgressKind::redrawn && shown_at_s_ >= 0) std::fputs("\n", stream_);
}

void Progress::clear() {
    if (kind_ != ProgressKind::redrawn || shown_at_s_ < 0) return;
    std::fputs("\r\x1b[K", stream_);
    std::fflush(stream_);
    shown_at_s_ = -1;
}

void Progress::show(double share) {
    const double now_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
    if (kind_ == ProgressKind::redrawn) {
        constexpr double kPause_s = 0.1;
        if (share < 1 && shown_at_s_ >= 0 && now_s - shown_at_s_ < kPause_s) return;
        shown_at_s_ = now_s;
        // One column is kept free: some terminals start a new line after the last.
        const std::string line = progress_line(label_, share, now_s, columns_of(stream_) - 1);
        fmt::print(stream_, "\r{}\x1b[K", line);
        std::fflush(stream_);
    } else if (kind_ == ProgressKind::plain) {
        const int tenths = static_cast<int>(share * 10 + 1e-9);
        if (tenths <= tenths_) return;
        tenths_ = tenths;
        fmt::print(stream_, "{}: {} %{}\n", printable(label_), tenths * 10, time_left(share, now_s));
    }
}

}  // namespace rakelight
