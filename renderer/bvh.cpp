#include "renderer/bvh.h"

#include <algorithm>
#include <bit>
#include <cstring>
#include <stdexcept>
#include <string>

#include "materials/maths/transposed.h"

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

static_assert(sizeof(Ray) == sizeof(Floats) && sizeof(Hit) == sizeof(Floats));

// Beyond so many the tree points to corners instead of holding them: some 60 bytes a triangle less, a little
// slower.
constexpr std::size_t kManyTriangles = 16'000'000;

void store(float* to, const Floats& lanes) {
    _mm256_store_ps(to, lanes);
}

// What is the same for every packet, and never changed by Embree.
void prepare(RTCRay8& packet) {
    store(packet.tnear, Floats{});
    store(packet.time, Floats{});
    for (unsigned lane = 0; lane < kLanes; ++lane) {
        packet.mask[lane] = 0xffffffffu;
        packet.id[lane] = lane;
        packet.flags[lane] = 0;
    }
}

// Fills a packet with at most eight rays, the last of them again where there are fewer. \return the lanes
// that count
Ints fill(RTCRay8& packet, std::span<const Ray> rays) {
    LaneArray<Floats> rows;
    for (std::size_t lane = 0; lane < kLanes; ++lane)
        std::memcpy(&rows[lane], &rays[std::min(lane, rays.size() - 1)], sizeof(Ray));
    const LaneArray<Floats> columns = transposed(rows);
    store(packet.org_x, columns[0]);
    store(packet.org_y, columns[1]);
    store(packet.org_z, columns[2]);
    store(packet.tfar, columns[3]);
    store(packet.dir_x, columns[4]);
    store(packet.dir_y, columns[5]);
    store(packet.dir_z, columns[6]);
    return Ints{0, 1, 2, 3, 4, 5, 6, 7} < static_cast<std::int32_t>(rays.size());
}

// Hits of rays that have been asked for.
void take(const RTCRayHit8& query, std::span<Hit> hits) {
    const Ints triangle = reinterpret_cast<const Ints&>(query.hit.primID);
    const auto read = [](const float* lanes) -> Floats { return _mm256_load_ps(lanes); };
    const LaneArray<Floats> rows =
        transposed({triangle == -1 ? Floats{} : read(query.ray.tfar), reinterpret_cast<Floats>(triangle),
                    read(query.hit.u), read(query.hit.v), read(query.hit.Ng_x), read(query.hit.Ng_y),
                    read(query.hit.Ng_z), Floats{}});
    for (std::size_t lane = 0; lane < hits.size(); ++lane) hits[lane] = std::bit_cast<Hit>(rows[lane]);
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
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    if (coherent) context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
    RTCRayHit8 query;
    prepare(query.ray);
    for (std::size_t first = 0; first < rays.size(); first += kLanes) {
        const std::size_t some = std::min(kLanes, rays.size() - first);
        const Ints valid = fill(query.ray, rays.subspan(first, some));
        std::memset(&query.hit, 0, sizeof query.hit);
        std::memset(query.hit.primID, 0xff, sizeof query.hit.primID);
        std::memset(query.hit.geomID, 0xff, sizeof query.hit.geomID);
        std::memset(query.hit.instID, 0xff, sizeof query.hit.instID);
        rtcIntersect8(reinterpret_cast<const int*>(&valid), scene_.get(), &context, &query);
        take(query, hits.subspan(first, some));
    }
}

void Bvh::occluded(std::span<const Ray> rays, std::span<bool> answers) const {
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    RTCRay8 query;
    prepare(query);
    for (std::size_t first = 0; first < rays.size(); first += kLanes) {
        const std::size_t some = std::min(kLanes, rays.size() - first);
        const Ints valid = fill(query, rays.subspan(first, some));
        rtcOccluded8(reinterpret_cast<const int*>(&valid), scene_.get(), &context, &query);
        for (std::size_t lane = 0; lane < some; ++lane) answers[first + lane] = query.tfar[lane] < 0;
    }
}

}  // namespace rakelight
