#include "output/clip/encoder.h"

#include <fmt/format.h>

#include "output/system/errors.h"
#include "output/system/part_program.h"
#include "output/system/run_self.h"

namespace rakelight {

namespace {

std::string encoder() {
    if (const auto program = find_part("encode-clip")) return program->string();
    throw RequestError(
        "to make a clip the program needs its part encode-clip, which is built where libavcodec-dev, "
        "libavformat-dev, "
        "libswscale-dev and libwebp-dev are installed");
}

}  // namespace

void check_encoder() {
    encoder();
}

void encode_clip(const std::vector<std::string>& frames, int frames_per_s, int shrink,
                 const std::filesystem::path& by_way_of, const std::filesystem::path& into) {
    std::vector<std::string> words{into.extension() == ".webp" ? "webp" : "mp4", std::to_string(frames_per_s),
                                   std::to_string(shrink), by_way_of.string()};
    words.insert(words.end(), frames.begin(), frames.end());
    std::string why;
    const JobListener listener{[](std::string_view) {}, [&](std::string_view line) { why = line; }, {}};
    if (const int code = run_program(encoder(), words, listener); code != 0)
        throw OutputError(fmt::format("cannot make {}: {}", into.string(),
                                      why.empty() ? fmt::format("encode-clip ended with {}", code) : why));
    std::error_code error;
    std::filesystem::rename(by_way_of, into, error);
    if (error) throw OutputError(fmt::format("cannot write {}: {}", into.string(), error.message()));
}

}  // namespace rakelight
