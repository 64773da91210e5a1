extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
#include <libavutil/opt.h>
#include <libswscale/swscale.h>
}

#include <array>
#include <memory>
#include <stdexcept>

#include "output/encode_clip/encoders.h"
#include "output/encode_clip/frame.h"

namespace rakelight {

namespace {

constexpr const char* kQuality = "18";  // constant rate factor: hardly told from the frames
constexpr int kFramesPerKey = 12;       // so that a player finds any moment quickly

void check(int code, const char* what) {
    if (code >= 0) return;
    std::array<char, AV_ERROR_MAX_STRING_SIZE> why{};
    av_strerror(code, why.data(), why.size());
    throw std::runtime_error(std::string(what) + ": " + why.data());
}

struct Freed {
    void operator()(AVCodecContext* p) const { avcodec_free_context(&p); }
    void operator()(AVFrame* p) const { av_frame_free(&p); }
    void operator()(AVPacket* p) const { av_packet_free(&p); }
    void operator()(SwsContext* p) const { sws_freeContext(p); }
    void operator()(AVFormatContext* p) const {
        if (p->pb) avio_closep(&p->pb);
        avformat_free_context(p);
    }
};
template <class T>
using Owned = std::unique_ptr<T, Freed>;

class Mp4 {
  public:
    Mp4(const ClipFile& clip, int width, int height) {
        open_codec(clip.frames_per_s, width, height);
        open_file(clip.into);
        scale_.reset(sws_getContext(width, height, AV_PIX_FMT_RGB24, width, height, AV_PIX_FMT_YUV420P,
                                    SWS_BICUBIC | SWS_ACCURATE_RND | SWS_FULL_CHR_H_INT | SWS_BITEXACT,
                                    nullptr, nullptr, nullptr));
        if (!scale_) throw std::runtime_error("cannot turn RGB into YUV");
        const int* to = sws_getCoefficients(SWS_CS_ITU709);
        sws_setColorspaceDetails(scale_.get(), to, 1, to, 0, 0, 1 << 16, 1 << 16);
        frame_->format = AV_PIX_FMT_YUV420P;
        frame_->width = width;
        frame_->height = height;
        check(av_frame_get_buffer(frame_.get(), 0), "no memory for a frame");
    }

    void add(const Frame& frame) {
        check(av_frame_make_writable(frame_.get()), "no memory for a frame");
        const std::uint8_t* rows = frame.rgb.data();
        const int stride = 3 * frame.width;
        sws_scale(scale_.get(), &rows, &stride, 0, frame.height, frame_->data, frame_->linesize);
        frame_->pts = next_++;
        encode(frame_.get());
    }

    void end() {
        encode(nullptr);
        check(av_write_trailer(file_.get()), "cannot write the clip");
        check(avio_closep(&file_->pb), "cannot write the clip");
    }

  private:
    void open_codec(int frames_per_s, int width, int height) {
        const AVCodec* codec = avcodec_find_encoder_by_name("libx264");
        if (!codec) throw std::runtime_error("this libavcodec has no encoder for H.264 (libx264)");
        codec_.reset(avcodec_alloc_context3(codec));
        codec_->width = width;
        codec_->height = height;
        codec_->pix_fmt = AV_PIX_FMT_YUV420P;
        codec_->time_base = {1, frames_per_s};
        codec_->framerate = {frames_per_s, 1};
        codec_->gop_size = kFramesPerKey;
        codec_->max_b_frames =
            0;  // frames in the order they are shown: a reader has each as soon as it is read
        codec_->thread_count = 1;
        codec_->color_range = AVCOL_RANGE_MPEG;
        codec_->colorspace = AVCOL_SPC_BT709;
        codec_->color_primaries = AVCOL_PRI_BT709;
        codec_->color_trc = AVCOL_TRC_IEC61966_2_1;
        codec_->flags |= AV_CODEC_FLAG_BITEXACT | AV_CODEC_FLAG_GLOBAL_HEADER;
        av_opt_set(codec_->priv_data, "preset", "slow", 0);
        av_opt_set(codec_->priv_data, "crf", kQuality, 0);
        check(avcodec_open2(codec_.get(), codec, nullptr), "cannot begin to encode");
    }

    void open_file(const std::string& path) {
        AVFormatContext* file = nullptr;
        check(avformat_alloc_output_context2(&file, nullptr, "mp4", path.c_str()), "cannot make an MP4");
        file_.reset(file);
        file->flags |= AVFMT_FLAG_BITEXACT;
        AVStream* stream = avformat_new_stream(file, nullptr);
        if (!stream) throw std::runtime_error("cannot make an MP4");
        stream->time_base = codec_->time_base;
        stream->avg_frame_rate = codec_->framerate;
        check(avcodec_parameters_from_context(stream->codecpar, codec_.get()), "cannot make an MP4");
        check(avio_open(&file->pb, path.c_str(), AVIO_FLAG_WRITE), path.c_str());
        AVDictionary* options = nullptr;
        av_dict_set(&options, "movflags", "+faststart", 0);
        const int begun = avformat_write_header(file, &options);
        av_dict_free(&options);
        check(begun, "cannot write the clip");
    }

    void encode(const AVFrame* frame) {
        check(avcodec_send_frame(codec_.get(), frame), "cannot encode a frame");
        AVStream* stream = file_->streams[0];
        while (true) {
            const int got = avcodec_receive_packet(codec_.get(), packet_.get());
            if (got == AVERROR(EAGAIN) || got == AVERROR_EOF) return;
            check(got, "cannot encode a frame");
            packet_->duration = 1;
            av_packet_rescale_ts(packet_.get(), codec_->time_base, stream->time_base);
            packet_->stream_index = 0;
            check(av_interleaved_write_frame(file_.get(), packet_.get()), "cannot write the clip");
        }
    }

    Owned<AVCodecContext> codec_;
    Owned<AVFormatContext> file_;
    Owned<SwsContext> scale_;
    Owned<AVFrame> frame_{av_frame_alloc()};
    Owned<AVPacket> packet_{av_packet_alloc()};
    std::int64_t next_ = 0;
};

}  // namespace

void write_mp4(const ClipFile& clip) {
    av_log_set_level(AV_LOG_ERROR);
    const Frame first = shrunk(read_frame(clip.frames.at(0)), clip.shrink);
    if (first.width % 2 != 0 || first.height % 2 != 0)
        throw std::runtime_error("found frames of odd width or height, expected even ones");
    Mp4 file(clip, first.width, first.height);
    for (const std::string& path : clip.frames) {
        const Frame frame = shrunk(read_frame(path), clip.shrink);
        if (frame.width != first.width || frame.height != first.height)
            throw std::runtime_error("the frame " + path + " is of another size than the first");
        file.add(frame);
    }
    file.end();
}

}  // namespace rakelight
