// A picture of a camera: raw, JPEG, PNG, TIFF, HEIC or EXR, turned upright as its file says. Pixels stay as
// they are stored until they are asked for.
#pragma once

#include <array>
#include <filesystem>
#include <glm/glm.hpp>
#include <memory>
#include <optional>

namespace rakelight {

class Photograph {
  public:
    /// \throws std::runtime_error with what was found and expected: no picture, less than three channels, too
    /// large.
    explicit Photograph(const std::filesystem::path& path);
    ~Photograph();
    Photograph(Photograph&&) noexcept;

    glm::ivec2 size_px() const;
    /// Red, green, blue as stored, 0..1 (more in an EXR); `at` within the picture.
    std::array<float, 3> pixel(const glm::ivec2& at) const;
    /// Whether values are proportional to light: raw, EXR, and files that say so.
    bool linear() const;
    /// Seconds times ISO speed over the square of the f-number, as the camera wrote them (Exif 2.3); without
    /// either of the last two they count as 100 and 1.
    std::optional<double> exposure() const;
    /// A value from which on a channel may be clipped.
    float ceiling() const;

  private:
    struct Inside;
    std::unique_ptr<Inside> in_;
};

}  // namespace rakelight
