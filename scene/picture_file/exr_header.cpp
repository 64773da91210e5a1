#include "scene/picture_file/exr_header.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <fstream>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>

namespace rakelight {

namespace {

constexpr std::uint32_t kMagic = 20000630;
constexpr std::uint32_t kManyParts = 0x1000;  // flag beside the version
constexpr std::size_t kMostName = 255;

// Little-endian.
std::optional<std::uint32_t> take_number(std::istream& in) {
    unsigned char bytes[4];
    if (!in.read(reinterpret_cast<char*>(bytes), 4)) return {};
    return bytes[0] | bytes[1] << 8 | bytes[2] << 16 | static_cast<std::uint32_t>(bytes[3]) << 24;
}

// Up to its NUL.
std::optional<std::string> take_name(std::istream& in) {
    std::string name;
    for (char c; name.size() <= kMostName && in.get(c); name += c)
        if (c == '\0') return name;
    return {};
}

// A list of channels, `length` bytes of it: names, each with a kind of number that the library knows (0
// whole, 1 half, 2 real; it aborts the program on any other), four bytes and two numbers.
bool channels_fit(std::istream& in, std::uint32_t length) {
    const auto end = in.tellg() + static_cast<std::streamoff>(length);
    while (in.tellg() < end) {
        const auto name = take_name(in);
        if (!name) return false;
        if (name->empty()) break;
        const auto kind = take_number(in);
        if (!kind || *kind > 2) return false;
        in.seekg(12, std::ios::cur);
    }
    const bool whole = in.good() && in.tellg() == end;
    in.seekg(end);
    return whole;
}

// Types of one length only, bytes: the library reads as many, whatever the file says, and would take what
// follows for lengths.
constexpr std::array<std::pair<std::string_view, std::uint32_t>, 24> kLengths{{
    {"box2f", 16},
    {"box2i", 16},
    {"chromaticities", 32},
    {"compression", 1},
    {"deepImageState", 1},
    {"double", 8},
    {"envmap", 1},
    {"float", 4},
    {"int", 4},
    {"keycode", 28},
    {"lineOrder", 1},
    {"m33d", 72},
    {"m33f", 36},
    {"m44d", 128},
    {"m44f", 64},
    {"rational", 8},
    {"tiledesc", 9},
    {"timecode", 8},
    {"v2d", 16},
    {"v2f", 8},
    {"v2i", 8},
    {"v3d", 24},
    {"v3f", 12},
    {"v3i", 12},
}};

// Strings, each after its own length.
bool strings_fit(std::istream& in, std::uint32_t length) {
    while (length >= 4) {
        const auto one = take_number(in);
        if (!one || *one > length - 4) return false;
        in.seekg(*one, std::ios::cur);
        length -= 4 + *one;
    }
    return length == 0;
}

// Width and height, then four bytes a pixel.
bool preview_fits(std::istream& in, std::uint32_t length) {
    const auto width = take_number(in), height = take_number(in);
    if (!width || !height || length < 8) return false;
    in.seekg(length - 8, std::ios::cur);
    return std::uint64_t{*width} * *height == (length - 8) / 4 && length % 4 == 0;
}

bool value_fits(std::istream& in, std::string_view type, std::uint32_t length) {
    if (type == "chlist") return channels_fit(in, length);
    if (type == "stringvector") return strings_fit(in, length);
    if (type == "preview") return preview_fits(in, length);
    in.seekg(length, std::ios::cur);
    const auto only = std::ranges::find(kLengths, type, &std::pair<std::string_view, std::uint32_t>::first);
    return only == kLengths.end() || only->second == length;
}

}  // namespace

bool headers_fit(const std::filesystem::path& path) {
    std::error_code error;
    const std::uintmax_t size = std::filesystem::file_size(path, error);
    std::ifstream in(path, std::ios::binary);
    if (error || !in || take_number(in) != kMagic) return false;
    const auto version = take_number(in);
    if (!version) return false;
    for (bool begins = true;;) {
        const auto name = take_name(in);
        if (!name) return false;
        if (name->empty()) {  // the end of a header; of many, another end follows the last
            if (begins || !(*version & kManyParts)) return true;
            begins = true;
            continue;
        }
        begins = false;
        const auto type = take_name(in);
        const auto length = type ? take_number(in) : std::nullopt;
        if (!length || *length > size - static_cast<std::uintmax_t>(in.tellg())) return false;
        if (!value_fits(in, *type, *length)) return false;
    }
}

}  // namespace rakelight
