// The frames of a clip: rendered, developed all alike, kept on disk until the clip is whole.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "output/clip/clip.h"
#include "output/print/develop.h"
#include "renderer/film.h"

namespace rakelight {

/// The folder of frames of one clip: beside the finished files, hidden, named after the clip and after all
/// that its frames depend on, so that what is there is good. A frame is a file that is either whole or not
/// there.
class FrameFolder {
  public:
    /// Makes the folder. \throws OutputError.
    FrameFolder(const std::filesystem::path& beside, const std::string& stem, std::uint64_t hash);

    std::filesystem::path file(int frame) const;
    bool has(int frame) const;
    /// As binary PPM, 8 bits. \throws OutputError.
    void keep(int frame, const Print& print) const;
    std::vector<std::string> files(int frames) const;
    const std::filesystem::path& path() const { return path_; }
    /// Removes this folder and those of older frames of the same clip.
    void forget() const;

  private:
    std::filesystem::path beside_, path_;
    std::string stem_;
};

/// The light of a clip with the light of each group dimmed to `left`; its standard error shrinks with the
/// luminance.
Film dimmed(const Film& film, std::span<const double> left);

/// What a frame of a day is exposed for: halfway in stops between a grey card in its own hour and one in the
/// brightest, as an eye adapts in part; at most three stops below the brightest. Own rule; common practice,
/// no published source.
double eased_card_cd_per_m2(double own, double brightest);

/// Of a light that is metered: the one exposure and white of every frame of a clip, by a grey card in it.
/// `pixel_deg`: angle that a pixel is seen under.
Developing developing_of_clip(std::span<const glm::dvec3> illuminance_xyz, double pixel_deg);

}  // namespace rakelight
