// A photograph of the wall opened: its light, where its camera stood, and where the panel lies in it.
#pragma once

#include <cstdint>
#include <stdexcept>
#include <string>
#include <vector>

#include "output/in_photograph/sheet_pose.h"
#include "output/in_photograph/wall_photograph.h"
#include "renderer/camera.h"

namespace rakelight {

struct Layout;

/// What is wrong with a photograph, and with which of its keys; the text is "found X, expected Y".
struct PhotographError : std::runtime_error {
    PhotographError(std::string key_, const std::string& text)
        : std::runtime_error(text), key(std::move(key_)) {}
    std::string key;
};

/// Pixels [left, right) by [top, bottom) of a picture.
struct PicturePart {
    int left = 0, top = 0, right = 0, bottom = 0;
    int width() const { return right - left; }
    int height() const { return bottom - top; }
};

struct TakenPhotograph {
    WallPhotograph said;
    glm::ivec2 whole_px{};             ///< size of the photograph
    glm::ivec2 size_px{};              ///< of the picture made of it, to which all that follows belongs
    std::vector<glm::vec3> rgb;        ///< linear light on the sRGB primaries, 0..1; row-major
    std::vector<std::uint8_t> spoilt;  ///< 1 where a channel is cut off
    std::vector<float> in_front;       ///< 1 where something stands in front of the panel; empty = nowhere
    std::array<glm::dvec2, 4> corners_px{};  ///< of the sheet
    SheetPose pose;                          ///< of the whole photograph; `focal_px` in pixels of that
    double focal_35mm = 0;
    bool focal_found = false;  ///< from the corners; else as told or as the camera noted it
    bool by_marks = false;
    glm::dvec3 sheet_in_room_mm{};  ///< the sheet's middle
    glm::dvec3 eye_mm{};            ///< room coordinates
    PicturePart window;             ///< of the picture, about the panel as far as its shadow is reckoned
    PicturePart panel;              ///< of the picture, about all that hangs there
    std::vector<std::string> warnings;

    /// The camera of a part of the picture, for a world whose origin lies there in the room.
    Camera camera(const PicturePart& part, const glm::dvec3& origin_mm) const;
    /// Where a point of the room is seen, in pixels of the picture; it lies before the camera.
    glm::dvec2 seen_px(const glm::dvec3& room_mm) const;
    /// Picture coordinates of the light of the sheet: mean red, green, blue of what is not cut off.
    glm::dvec3 sheet_rgb() const;
};

/// \throws PhotographError.
TakenPhotograph take(WallPhotograph said, const Layout& layout);

}  // namespace rakelight
