#include "renderer/bvh.h"

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

RTCRay embree_ray(const Ray& ray) {
    RTCRay r{};
    r.org_x = ray.from_mm.x;
    r.org_y = ray.from_mm.y;
    r.org_z = ray.from_mm.z;
    r.dir_x = ray.direction.x;
    r.dir_y = ray.direction.y;
    r.dir_z = ray.direction.z;
    r.tfar = ray.most_mm;
    r.mask = 0xffffffffu;
    return r;
}

void put(RTCRay16& packet, unsigned lane, const Ray& ray) {
    packet.org_x[lane] = ray.from_mm.x;
    packet.org_y[lane] = ray.from_mm.y;
    packet.org_z[lane] = ray.from_mm.z;
    packet.dir_x[lane] = ray.direction.x;
    packet.dir_y[lane] = ray.direction.y;
    packet.dir_z[lane] = ray.direction.z;
    packet.tnear[lane] = 0;
    packet.tfar[lane] = ray.most_mm;
    packet.time[lane] = 0;
    packet.mask[lane] = 0xffffffffu;
    packet.id[lane] = lane;
    packet.flags[lane] = 0;
}

constexpr std::size_t kTogether = 16;

// Beyond so many the tree points to corners instead of holding them: some 60 bytes a triangle less, a little
// slower.
constexpr std::size_t kManyTriangles = 16'000'000;

struct alignas(64) ActiveLanes {
    int valid[kTogether];
};

// Sets the lanes that carry a ray; the rest stay switched off.
ActiveLanes fill(RTCRay16& packet, std::span<const Ray> rays) {
    ActiveLanes lanes;
    for (unsigned lane = 0; lane < kTogether; ++lane) {
        lanes.valid[lane] = lane < rays.size() ? -1 : 0;
        put(packet, lane, rays[std::min<std::size_t>(lane, rays.size() - 1)]);
    }
    return lanes;
}

}  // namespace

Bvh::Bvh(const World& world, bool quickly) {
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
    const bool many = world.triangles.size() > kManyTriangles;
    rtcSetSceneFlags(scene_.get(),
                     static_cast<RTCSceneFlags>(RTC_SCENE_FLAG_ROBUST | (many ? RTC_SCENE_FLAG_COMPACT : 0)));
    rtcSetSceneBuildQuality(scene_.get(), quickly ? RTC_BUILD_QUALITY_LOW : RTC_BUILD_QUALITY_MEDIUM);
    rtcAttachGeometry(scene_.get(), geometry);
    rtcReleaseGeometry(geometry);
    rtcCommitScene(scene_.get());
    demand_no_error(device_.get(), "sorting the panel's triangles");
}

Hit Bvh::intersect(const Ray& ray) const {
    RTCRayHit query;
    query.ray = embree_ray(ray);
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

bool Bvh::occluded(const Ray& ray) const {
    RTCRay query = embree_ray(ray);
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    rtcOccluded1(scene_.get(), &context, &query);
    return query.tfar < 0;
}

void Bvh::intersect(std::span<const Ray> rays, std::span<Hit> hits, bool coherent) const {
    if (!coherent) {
        for (std::size_t i = 0; i < rays.size(); ++i) hits[i] = intersect(rays[i]);
        return;
    }
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
    for (std::size_t first = 0; first < rays.size(); first += kTogether) {
        const auto some = rays.subspan(first, std::min(kTogether, rays.size() - first));
        RTCRayHit16 query;
        const ActiveLanes lanes = fill(query.ray, some);
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

void Bvh::occluded(std::span<const Ray> rays, std::span<bool> answers) const {
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    for (std::size_t first = 0; first < rays.size(); first += kTogether) {
        const auto some = rays.subspan(first, std::min(kTogether, rays.size() - first));
        RTCRay16 query;
        const ActiveLanes lanes = fill(query, some);
        rtcOccluded16(lanes.valid, scene_.get(), &context, &query);
        for (unsigned lane = 0; lane < some.size(); ++lane) answers[first + lane] = query.tfar[lane] < 0;
    }
}

}  // namespace rakelight
