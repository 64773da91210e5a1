// A peer of the renderer's rays: the path tracer that Embree ships as an example of its use (Debian package
// embree-tools, optional), on the same mesh from the same eye.
#pragma once

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <numbers>
#include <optional>
#include <string>

#include <fmt/format.h>

#include "renderer/camera.h"
#include "scene/world/world.h"

namespace rakelight::bench {

/// Whether it is there.
inline bool has_peer() {
    return std::system("command -v pathtracer >/dev/null 2>&1") == 0;
}

/// Triangles alone, as Wavefront OBJ, in a folder of their own that goes with this value.
class PeerMesh {
  public:
    explicit PeerMesh(const World& world)
        : folder_(std::filesystem::temp_directory_path() / fmt::format("peer-{}", std::rand())) {
        std::filesystem::create_directories(folder_);
        std::ofstream out(file());
        for (const glm::vec3& p : world.positions_mm) out << fmt::format("v {} {} {}\n", p.x, p.y, p.z);
        for (const glm::uvec3& t : world.triangles)
            out << fmt::format("f {} {} {}\n", t.x + 1, t.y + 1, t.z + 1);
    }
    ~PeerMesh() { std::filesystem::remove_all(folder_); }
    PeerMesh(const PeerMesh&) = delete;
    PeerMesh& operator=(const PeerMesh&) = delete;

    std::filesystem::path file() const { return folder_ / "mesh.obj"; }

  private:
    std::filesystem::path folder_;
};

/// Rays that it traces in a second, in millions, by its own count, under one point of light 300 mm above the
/// eye, all matte; none when it told no figure.
inline std::optional<double> peer_mray_per_s(const PeerMesh& mesh, const Camera& camera, int width_px,
                                             int height_px, int samples, int threads) {
    const glm::vec3 forward = glm::normalize(glm::cross(camera.right, camera.down)),
                    up = -glm::normalize(camera.down), looked_at = camera.eye_mm + forward;
    const double fov_deg = 2 * std::atan(glm::length(camera.down) / 2 / glm::dot(camera.corner, forward)) *
                           180 / std::numbers::pi;
    const std::string command = fmt::format(
        "pathtracer --threads {} --isa avx2 -i '{}' --pointlight {} {} {} 2e6 2e6 2e6 "
        "--size {} {} --spp {} --vp {} {} {} --vi {} {} {} --vu {} {} {} "
        "--fov {} --righthanded --benchmark 1 3 -o '{}' 2>/dev/null",
        threads, mesh.file().string(), camera.eye_mm.x, camera.eye_mm.y + 300, camera.eye_mm.z, width_px,
        height_px, samples, camera.eye_mm.x, camera.eye_mm.y, camera.eye_mm.z, looked_at.x, looked_at.y,
        looked_at.z, up.x, up.y, up.z, fov_deg, (mesh.file().parent_path() / "peer.ppm").string());
    FILE* const told = popen(command.c_str(), "r");
    std::optional<double> rays;
    char line[256];
    double value = 0;
    while (told && std::fgets(line, sizeof line, told))
        if (std::sscanf(line, "BENCHMARK_RENDER_MRAYPS_AVG %lf", &value) == 1) rays = value;
    if (told) pclose(told);
    return rays;
}

}  // namespace rakelight::bench
