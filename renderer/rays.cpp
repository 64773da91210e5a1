#include "renderer/rays.h"

#include <algorithm>
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

RTCRay ray_of(const RayQuestion& q) {
    RTCRay ray{};
    ray.org_x = q.from_mm.x;
    ray.org_y = q.from_mm.y;
    ray.org_z = q.from_mm.z;
    ray.dir_x = q.direction.x;
    ray.dir_y = q.direction.y;
    ray.dir_z = q.direction.z;
    ray.tfar = q.most_mm;
    ray.mask = 0xffffffffu;
    return ray;
}

void put(RTCRay16& rays, unsigned lane, const RayQuestion& q) {
    rays.org_x[lane] = q.from_mm.x;
    rays.org_y[lane] = q.from_mm.y;
    rays.org_z[lane] = q.from_mm.z;
    rays.dir_x[lane] = q.direction.x;
    rays.dir_y[lane] = q.direction.y;
    rays.dir_z[lane] = q.direction.z;
    rays.tnear[lane] = 0;
    rays.tfar[lane] = q.most_mm;
    rays.time[lane] = 0;
    rays.mask[lane] = 0xffffffffu;
    rays.id[lane] = lane;
    rays.flags[lane] = 0;
}

constexpr std::size_t kTogether = 16;

struct alignas(64) Lanes {
    int valid[kTogether];
};

// Sets the lanes that carry a question; the rest stay switched off.
Lanes fill(RTCRay16& rays, std::span<const RayQuestion> questions) {
    Lanes lanes;
    for (unsigned lane = 0; lane < kTogether; ++lane) {
        lanes.valid[lane] = lane < questions.size() ? -1 : 0;
        put(rays, lane, questions[std::min<std::size_t>(lane, questions.size() - 1)]);
    }
    return lanes;
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

Hit Rays::nearest(const RayQuestion& question) const {
    RTCRayHit query;
    query.ray = ray_of(question);
    query.hit.geomID = RTC_INVALID_GEOMETRY_ID;
    query.hit.instID[0] = RTC_INVALID_GEOMETRY_ID;
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    rtcIntersect1(scene_.get(), &context, &query);
    if (query.hit.geomID == RTC_INVALID_GEOMETRY_ID) return {};
    return {query.ray.tfar,
            query.hit.primID,
            query.hit.u,
            query.hit.v,
            {query.hit.Ng_x, query.hit.Ng_y, query.hit.Ng_z}};
}

bool Rays::blocked(const RayQuestion& question) const {
    RTCRay query = ray_of(question);
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    rtcOccluded1(scene_.get(), &context, &query);
    return query.tfar < 0;
}

void Rays::nearest(std::span<const RayQuestion> questions, std::span<Hit> hits, bool together) const {
    if (!together) {
        for (std::size_t i = 0; i < questions.size(); ++i) hits[i] = nearest(questions[i]);
        return;
    }
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
    for (std::size_t first = 0; first < questions.size(); first += kTogether) {
        const auto some = questions.subspan(first, std::min(kTogether, questions.size() - first));
        RTCRayHit16 query;
        const Lanes lanes = fill(query.ray, some);
        for (unsigned lane = 0; lane < kTogether; ++lane) {
            query.hit.geomID[lane] = RTC_INVALID_GEOMETRY_ID;
            query.hit.instID[0][lane] = RTC_INVALID_GEOMETRY_ID;
        }
        rtcIntersect16(lanes.valid, scene_.get(), &context, &query);
        for (unsigned lane = 0; lane < some.size(); ++lane) {
            Hit& hit = hits[first + lane];
            hit = {};
            if (query.hit.geomID[lane] == RTC_INVALID_GEOMETRY_ID) continue;
            hit = {query.ray.tfar[lane],
                   query.hit.primID[lane],
                   query.hit.u[lane],
                   query.hit.v[lane],
                   {query.hit.Ng_x[lane], query.hit.Ng_y[lane], query.hit.Ng_z[lane]}};
        }
    }
}

void Rays::blocked(std::span<const RayQuestion> questions, std::span<bool> answers) const {
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    for (std::size_t first = 0; first < questions.size(); first += kTogether) {
        const auto some = questions.subspan(first, std::min(kTogether, questions.size() - first));
        RTCRay16 query;
        const Lanes lanes = fill(query, some);
        rtcOccluded16(lanes.valid, scene_.get(), &context, &query);
        for (unsigned lane = 0; lane < some.size(); ++lane) answers[first + lane] = query.tfar[lane] < 0;
    }
}

}  // namespace rakelight
