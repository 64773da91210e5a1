#include "renderer/rays.h"

#include <stdexcept>
#include <string>

namespace rakelight {

namespace {

void demand_no_error(RTCDevice device, const char* doing) {
    const RTCError error = rtcGetDeviceError(device);
    if (error == RTC_ERROR_NONE) return;
    throw std::runtime_error(std::string("the ray tracer failed while ") + doing +
                             (error == RTC_ERROR_OUT_OF_MEMORY ? ": out of memory" : ""));
}

}  // namespace

Rays::Rays(const World& world) {
    // One instruction set on every machine: Embree's kernels round alike, so a picture can be split among
    // machines.
    device_.reset(rtcNewDevice("isa=avx2"), rtcReleaseDevice);
    if (!device_) throw std::runtime_error("the ray tracer would not start: this processor lacks AVX2");
    RTCGeometry geometry = rtcNewGeometry(device_.get(), RTC_GEOMETRY_TYPE_TRIANGLE);
    rtcSetSharedGeometryBuffer(geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3,
                               world.positions_mm.data(), 0, sizeof(glm::vec3), world.positions_mm.size());
    rtcSetSharedGeometryBuffer(geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, world.triangles.data(),
                               0, sizeof(glm::uvec3), world.triangles.size());
    rtcCommitGeometry(geometry);
    scene_.reset(rtcNewScene(device_.get()), rtcReleaseScene);
    rtcSetSceneFlags(scene_.get(), RTC_SCENE_FLAG_ROBUST);
    rtcSetSceneBuildQuality(scene_.get(), RTC_BUILD_QUALITY_MEDIUM);
    rtcAttachGeometry(scene_.get(), geometry);
    rtcReleaseGeometry(geometry);
    rtcCommitScene(scene_.get());
    demand_no_error(device_.get(), "sorting the panel's triangles");
}

}  // namespace rakelight
