#include <webp/encode.h>
#include <webp/mux.h>

#include <fstream>
#include <memory>
#include <stdexcept>

#include "output/encode_clip/encoders.h"
#include "output/encode_clip/frame.h"

namespace rakelight {

namespace {

constexpr float kQuality = 75;
constexpr int kFramesPerKey = 12;

struct Freed {
    void operator()(WebPAnimEncoder* p) const { WebPAnimEncoderDelete(p); }
};

struct Picture {
    WebPPicture data;
    explicit Picture(const Frame& frame) {
        if (!WebPPictureInit(&data)) throw std::runtime_error("libwebp is of another version");
        data.use_argb = 1;
        data.width = frame.width;
        data.height = frame.height;
        if (!WebPPictureImportRGB(&data, frame.rgb.data(), 3 * frame.width))
            throw std::runtime_error("no memory for a frame");
    }
    ~Picture() { WebPPictureFree(&data); }
    Picture(const Picture&) = delete;
    Picture& operator=(const Picture&) = delete;
};

void check(bool good, WebPAnimEncoder* encoder) {
    if (!good)
        throw std::runtime_error(std::string("cannot encode a frame: ") + WebPAnimEncoderGetError(encoder));
}

}  // namespace

void write_webp(const ClipFile& clip) {
    WebPAnimEncoderOptions options;
    WebPConfig config;
    if (!WebPAnimEncoderOptionsInit(&options) || !WebPConfigInit(&config))
        throw std::runtime_error("libwebp is of another version");
    options.anim_params.loop_count = 0;
    options.kmax = kFramesPerKey;
    options.kmin = kFramesPerKey / 2;
    config.quality = kQuality;
    config.method = 4;
    config.thread_level = 0;
    const Frame first = shrunk(read_frame(clip.frames.at(0)), clip.shrink);
    const std::unique_ptr<WebPAnimEncoder, Freed> encoder(
        WebPAnimEncoderNew(first.width, first.height, &options));
    if (!encoder) throw std::runtime_error("cannot begin to encode");
    const auto at_ms = [&](std::size_t frame) {
        return static_cast<int>((2000 * frame + static_cast<std::size_t>(clip.frames_per_s)) /
                                (2 * static_cast<std::size_t>(clip.frames_per_s)));
    };
    for (std::size_t i = 0; i < clip.frames.size(); ++i) {
        Picture picture(shrunk(read_frame(clip.frames[i]), clip.shrink));
        check(WebPAnimEncoderAdd(encoder.get(), &picture.data, at_ms(i), &config), encoder.get());
    }
    check(WebPAnimEncoderAdd(encoder.get(), nullptr, at_ms(clip.frames.size()), nullptr), encoder.get());
    WebPData data;
    WebPDataInit(&data);
    const bool whole = WebPAnimEncoderAssemble(encoder.get(), &data);
    std::ofstream out(clip.into, std::ios::binary);
    if (whole) out.write(reinterpret_cast<const char*>(data.bytes), static_cast<std::streamsize>(data.size));
    WebPDataClear(&data);
    check(whole, encoder.get());
    out.close();
    if (!out) throw std::runtime_error("cannot write " + clip.into);
}

}  // namespace rakelight
