// encode-clip mp4|webp FRAMES_PER_S SHRINK INTO FRAME.ppm ..: makes a clip of frames. Ends with 3 and says
// why where it cannot.
#include <cstdio>
#include <exception>
#include <stdexcept>
#include <string_view>

#include "output/encode_clip/encoders.h"

int main(int argc, char** argv) {
    try {
        if (argc < 6) throw std::runtime_error("expected mp4|webp FRAMES_PER_S SHRINK INTO FRAME.ppm ..");
        const std::string_view format = argv[1];
        const rakelight::ClipFile clip{
            {argv + 5, argv + argc}, std::stoi(argv[2]), std::stoi(argv[3]), argv[4]};
        if (clip.frames_per_s < 1 || clip.shrink < 1)
            throw std::runtime_error("expected whole numbers above 0");
        if (format == "mp4")
            rakelight::write_mp4(clip);
        else if (format == "webp")
            rakelight::write_webp(clip);
        else
            throw std::runtime_error("expected mp4 or webp");
        return 0;
    } catch (const std::exception& e) {
        std::fprintf(stderr, "%s\n", e.what());
        return 3;
    }
}
