// The kind of a picture file, by its first bytes.
#pragma once

#include <filesystem>
#include <string_view>

namespace rakelight {

/// The kind of a picture file by its signature, as OpenImageIO names its readers: png, jpeg, tiff, openexr,
/// hdr, heif, webp, pnm, gif, bmp or raw; empty for anything else. Most raw files of cameras are TIFF files
/// by their first bytes, and are told by their ending. Signatures: ISO/IEC 15948 (PNG), 10918-1 (JPEG),
/// 14496-12 (HEIF, CR3), TIFF 6.0, OpenEXR file layout, RFC 9649 (WebP), GIF89a; those of Radiance pictures,
/// BMP and raw files from memory.
std::string_view picture_kind(const std::filesystem::path& path);

/// The same of bytes, at least the first 32 where there are so many, and the ending of a name (".nef").
std::string_view picture_kind(std::string_view start, std::string_view ending);

}  // namespace rakelight
