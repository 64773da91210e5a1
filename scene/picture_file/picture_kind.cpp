#include "scene/picture_file/picture_kind.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <fstream>
#include <string>

namespace rakelight {

namespace {

using namespace std::string_view_literals;

constexpr std::size_t kStart = 32;  // bytes that tell any kind

struct Signature {
    std::size_t at;
    std::string_view bytes;
    std::string_view kind;
};

constexpr std::array kSignatures{
    Signature{0, "\x89PNG\r\n\x1a\n"sv, "png"},
    Signature{0, "\xff\xd8\xff"sv, "jpeg"},
    Signature{0, "II*\0"sv, "tiff"},
    Signature{0, "MM\0*"sv, "tiff"},
    Signature{0, "II+\0"sv, "tiff"},
    Signature{0, "MM\0+"sv, "tiff"},
    Signature{0, "\x76\x2f\x31\x01"sv, "openexr"},
    Signature{0, "#?RADIANCE"sv, "hdr"},
    Signature{0, "#?RGBE"sv, "hdr"},
    Signature{4, "ftypcrx"sv, "raw"},
    Signature{4, "ftypheic"sv, "heif"},
    Signature{4, "ftypheix"sv, "heif"},
    Signature{4, "ftypmif1"sv, "heif"},
    Signature{4, "ftypmsf1"sv, "heif"},
    Signature{4, "ftypavif"sv, "heif"},
    Signature{8, "WEBP"sv, "webp"},
    Signature{0, "P5"sv, "pnm"},
    Signature{0, "P6"sv, "pnm"},
    Signature{0, "GIF8"sv, "gif"},
    Signature{0, "BM"sv, "bmp"},
    Signature{0, "FUJIFILMCCD-RAW"sv, "raw"},
    Signature{0, "IIU\0"sv, "raw"},
    Signature{0, "IIRO"sv, "raw"},
    Signature{0, "IIRS"sv, "raw"},
    Signature{0, "MMOR"sv, "raw"},
};

// Raw files that begin as TIFF files do.
constexpr std::array kRawEndings{".arw"sv, ".cr2"sv, ".dng"sv, ".erf"sv, ".iiq"sv,
                                 ".nef"sv, ".nrw"sv, ".pef"sv, ".srw"sv, ".3fr"sv};

std::string lower(std::string_view text) {
    std::string low(text);
    std::ranges::transform(low, low.begin(), [](unsigned char c) { return std::tolower(c); });
    return low;
}

}  // namespace

std::string_view picture_kind(std::string_view start, std::string_view ending) {
    const auto* const known = std::ranges::find_if(kSignatures, [&](const Signature& s) {
        return start.size() > s.at && start.substr(s.at).starts_with(s.bytes);
    });
    if (known == kSignatures.end()) return {};
    const bool raw =
        known->kind == "tiff" && std::ranges::find(kRawEndings, lower(ending)) != kRawEndings.end();
    return raw ? "raw" : known->kind;
}

std::string_view picture_kind(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::string start(kStart, '\0');
    file.read(start.data(), static_cast<std::streamsize>(start.size()));
    start.resize(static_cast<std::size_t>(file.gcount()));
    return picture_kind(start, path.extension().string());
}

}  // namespace rakelight
