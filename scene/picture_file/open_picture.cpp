#include "scene/picture_file/open_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "scene/picture_file/exr_header.h"
#include "scene/picture_file/picture_kind.h"
#include "scene/text/units.h"

namespace rakelight {

namespace {

[[noreturn]] void refuse(std::string_view found, std::string_view expected) {
    throw std::runtime_error(fmt::format("found {}, expected {}", found, expected));
}

}  // namespace

std::unique_ptr<OIIO::ImageInput> open_picture(const std::filesystem::path& path, std::string_view expected,
                                               std::initializer_list<std::string_view> kinds,
                                               const OIIO::ImageSpec& wish) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(path, error))
        refuse("no file " + rakelight::quoted(path.string()), expected);
    const std::string_view kind = picture_kind(path);
    if (kind.empty()) refuse("a file that is no picture or a broken one", expected);
    if (kinds.size() > 0 && std::ranges::find(kinds, kind) == kinds.end())
        refuse(fmt::format("a picture of the kind {}", kind), expected);
    if (kind == "openexr" && !headers_fit(path)) refuse("a broken OpenEXR picture", expected);
    auto in = OIIO::ImageInput::create(std::string(kind));
    OIIO::ImageSpec spec;
    if (!in || !in->open(path.string(), spec, wish)) {
        (void)(in ? in->geterror() : OIIO::geterror());
        refuse(in ? "a file that is no picture or a broken one"
                  : fmt::format("a picture of the kind {}, which this OpenImageIO cannot read", kind),
               expected);
    }
    if (spec.depth > 1 || spec.deep || spec.nchannels < 1 || spec.width < 1 || spec.height < 1)
        refuse("a picture in layers", expected);
    return in;
}

void check_size(const OIIO::ImageInput& in, int least_px, std::int64_t most) {
    const OIIO::ImageSpec& spec = in.spec();
    const std::int64_t pixels = std::int64_t{spec.width} * spec.height;
    if (spec.nchannels > 4 && pixels * spec.nchannels > 4 * most)
        refuse(fmt::format("{} x {} pixels of {} channels", spec.width, spec.height, spec.nchannels),
               "four channels at most");
    if (spec.width < least_px || spec.height < least_px || pixels > most)
        refuse(fmt::format("{} x {} pixels", spec.width, spec.height),
               least_px > 1 ? fmt::format("at least {} x {} and at most {} million", least_px, least_px,
                                          most / 1'000'000)
                            : fmt::format("at most {} million in all", most / 1'000'000));
}

}  // namespace rakelight
