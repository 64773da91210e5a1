// Photographs of a mirrored ball, merged and unwrapped into a picture of light from all round.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "output/mirrored_ball/ball_view.h"
#include "output/samples/photograph.h"
#include "scene/surround/surround_picture.h"

namespace rakelight {

/// One of several photographs from the same place.
struct BallShot {
    Photograph photograph;
    double exposure = 1;  ///< light that one value of it stands for goes with 1 / exposure
};

struct Unwrapped {
    SurroundPicture picture;    ///< relative, mean luminance 1; its middle is the direction to the camera
    double cut_off_share = 0;   ///< of all directions: white in every photograph
    double most_over_mean = 0;  ///< greatest luminance over the mean
};

/// Merges and unwraps. What a photograph says is taken as sRGB unless it is linear; what is near white in it
/// is left out, and the longer exposures count more, as their noise is less (weights after Robertson, Borman
/// and Stevenson 2003, "Estimation-theoretic approach to dynamic range enhancement using multiple
/// exposures"). \throws std::runtime_error when the ball does not lie within a photograph, or they differ in
/// size.
Unwrapped unwrap(const std::vector<BallShot>& shots, const BallView& view, int width_px);

/// Writes it as an EXR with sRGB primaries. \throws OutputError; then nothing is left.
void write_surround_exr(const std::filesystem::path& path, const SurroundPicture& picture,
                        const std::string& software);

}  // namespace rakelight
