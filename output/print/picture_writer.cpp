#include "output/print/picture_writer.h"

#include <OpenImageIO/filesystem.h>
#include <OpenImageIO/imageio.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

#include "output/print/srgb_profile.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

// Lets OpenImageIO write through a SafeFile, so that a picture is whole or not there.
class SafeFileProxy : public OIIO::Filesystem::IOProxy {
  public:
    explicit SafeFileProxy(SafeFile& file) : IOProxy("", Write), file_(file) {}
    const char* proxytype() const override { return "safe file"; }
    std::size_t write(const void* bytes, std::size_t count) override {
        const std::size_t written = pwrite(bytes, count, m_pos);
        m_pos += static_cast<std::int64_t>(written);
        return written;
    }
    std::size_t pwrite(const void* bytes, std::size_t count, std::int64_t offset) override {
        return file_.write_at(bytes, count, offset) ? count : 0;
    }
    std::size_t size() const override { return static_cast<std::size_t>(file_.size()); }

  private:
    SafeFile& file_;
};

template <class Sample>
std::vector<Sample> quantise(const std::vector<float>& values) {
    constexpr double kMost = std::numeric_limits<Sample>::max();
    std::vector<Sample> samples(values.size());
    std::transform(values.begin(), values.end(), samples.begin(), [](float v) {
        return static_cast<Sample>(std::floor(std::clamp<double>(v, 0, 1) * kMost + 0.5));
    });
    return samples;
}

bool write_rows(OIIO::ImageOutput& out, const PrintRows& print, OIIO::TypeDesc type) {
    for (const RowRange& rows : print.bands) {
        const std::vector<float> rgb = print.rgb(rows);
        const auto write = [&](const auto& samples) {
            return out.write_scanlines(rows.first_row, rows.end_row, 0, type, samples.data());
        };
        if (!(type == OIIO::TypeDesc::UINT16 ? write(quantise<std::uint16_t>(rgb))
                                             : write(quantise<std::uint8_t>(rgb))))
            return false;
    }
    return true;
}

}  // namespace

void write_png(const std::filesystem::path& path, const Print& print, const PictureText& text,
               PrintDepth depth, std::optional<int> dpi) {
    write_png(path,
              {print.width, print.height, {{0, print.height}}, [&](const RowRange&) { return print.rgb; }},
              text, depth, dpi);
}

void write_png(const std::filesystem::path& path, const PrintRows& print, const PictureText& text,
               PrintDepth depth, std::optional<int> dpi) {
    const bool fine = depth == PrintDepth::bits16;
    const OIIO::TypeDesc type = fine ? OIIO::TypeDesc::UINT16 : OIIO::TypeDesc::UINT8;
    SafeFile file(path);
    SafeFileProxy proxy(file);
    OIIO::ImageSpec spec(print.width, print.height, 3, type);
    spec.attribute("oiio:ColorSpace", "sRGB");
    for (const auto& [key, value] : text) spec.attribute(key, value);
    if (dpi) {
        const std::vector<std::uint8_t> profile = srgb_profile();
        spec.attribute("ICCProfile", OIIO::TypeDesc(OIIO::TypeDesc::UINT8, static_cast<int>(profile.size())),
                       profile.data());
        spec.attribute("ResolutionUnit", "in");
        spec.attribute("XResolution", static_cast<float>(*dpi));
        spec.attribute("YResolution", static_cast<float>(*dpi));
    }
    const auto out = OIIO::ImageOutput::create("png");
    if (!out) throw OutputError("PNG cannot be written: " + OIIO::geterror());
    out->set_ioproxy(&proxy);
    bool good = out->open(path.filename().string(), spec);
    good = good && write_rows(*out, print, type);
    good = out->close() && good;
    const std::string why = out->geterror();
    file.commit();  // knows best when the disk is at fault
    if (!good) throw OutputError(fmt::format("cannot write {}: {}", path.string(), why));
}

}  // namespace rakelight
