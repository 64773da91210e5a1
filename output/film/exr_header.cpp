#include "output/film/exr_header.h"

#include <cstdint>
#include <fstream>
#include <optional>
#include <string>
#include <system_error>

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
        if (*type == "chlist") {
            if (!channels_fit(in, *length)) return false;
        } else {
            in.seekg(*length, std::ios::cur);
        }
    }
}

}  // namespace rakelight
