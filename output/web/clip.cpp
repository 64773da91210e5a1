#include "output/web/clip.h"

#include <OpenImageIO/strutil.h>
#include <fmt/format.h>

#include "output/system/safe_file.h"
#include "output/web/markup.h"
#include "output/web/shown_file.h"

namespace rakelight {

bool is_clip(const std::string& file) {
    return lower_extension(file) == ".mp4";
}

std::string clip_stage(const std::filesystem::path& file, const std::string& name) {
    return fmt::format(
        "<div class=\"stage\"><video src=\"data:video/mp4;base64,{}\" loop muted playsinline "
        "preload=\"auto\" "
        "tabindex=\"0\" role=\"slider\" aria-valuemin=\"0\" aria-valuemax=\"100\" aria-valuenow=\"0\" "
        "aria-label=\"{}\"></video></div>\n",
        OIIO::Strutil::base64_encode(read_file(file)), html_text(name));
}

}  // namespace rakelight
