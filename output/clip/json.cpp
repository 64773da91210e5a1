#include "output/clip/json.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kClipVersion = 1;

}  // namespace

std::string clip_json(const ClipWork& work, const MadeFrames& made, const std::string& panel,
                      const std::string& light, const MadeFrom& from, const std::vector<std::string>& files) {
    const Clips& clips = work.clips;
    Json body{{"note", "renderings, not photographs"},
              {"panel", panel},
              {"clip", kClipWords[static_cast<std::size_t>(work.kind)]},
              {"light", light},
              {"size_px", {clips.size_px.x, clips.size_px.y}},
              {"frames", made.frames},
              {"frames_per_s", clips.frames_per_s},
              {"exposure_ev100", made.ev100}};
    if (work.kind == ClipKind::walk_past)
        body["walk_past"] = {{"from_mm", clips.walk.from_mm}, {"to_mm", clips.walk.to_mm}};
    if (work.kind == ClipKind::day) body["day"] = {{"from_h", clips.day.from_h}, {"to_h", clips.day.to_h}};
    body["files"] = files;
    return json_text(json_head("clip", kClipVersion, from), body);
}

}  // namespace rakelight
