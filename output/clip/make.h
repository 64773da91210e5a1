// A clip of a layout, from its plan to frames on disk.
#pragma once

#include "output/clip/clip.h"
#include "output/clip/frames.h"
#include "scene/model/piece.h"

namespace rakelight {

struct Layout;

struct ClipWork {
    ClipKind kind = ClipKind::walk_past;
    Clips clips;
    std::uint64_t sources = 0;  ///< of source_hash
    int threads = 0;
    bool quiet = false;
};

struct MadeFrames {
    int frames = 0;
    int rendered = 0;  ///< in this run; the others were kept, or are made of one picture
    double ev100 = 0;  ///< of all
};

/// Everything that the frames of a clip depend on.
std::uint64_t clip_hash(const ClipWork& work, const Layout& layout);

/// What a clip's files are called, without ending: "clip-walk-past".
std::string clip_stem(ClipKind kind);

/// Renders the frames that `folder` lacks, each with the same random numbers in the same pixel, so that grain
/// stands still. All are exposed alike for
/// the layout's light; those of a day follow their hour by half (eased_card_cd_per_m2). Dimming
/// is one picture with a light for each group, added up anew for each frame: no light is traced twice.
/// \throws Cancelled, Interrupted (frames that are done are kept), RequestError when no light falls on the
/// panel, OutputError.
MadeFrames make_frames(const ClipWork& work, const Layout& layout, const Laying& laying,
                       const FrameFolder& folder);

}  // namespace rakelight
