#include "scene/world/mock_up.h"

#include <glm/gtc/matrix_transform.hpp>
#include <map>

#include "materials/maths/hash.h"
#include "materials/stock/stock.h"
#include "scene/geometry/loft.h"
#include "scene/light/lamp_forms.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

// Woven or worn, without gloss: a reflectance and how much more of red than of blue, so that clothes are of a
// mid tone and neither black nor a patch of light beside the work. Invented.
Material worn(const char* name, float reflectance, float warmth) {
    Material m = *find_stock("deep-grey");
    m.name = name;
    for (int band = 0; band < kBandCount; ++band)
        m.reflectance[band] =
            reflectance * (1 + warmth * (static_cast<float>(band) / (kBandCount - 1) - 0.5f));
    m.matte_deg = 35;
    m.grain = {0.08f, 2.5f, 1};
    return m;
}

Material material_of(StandInStuff stuff) {
    switch (stuff) {
        case StandInStuff::wood:
            break;
        case StandInStuff::coat:
            return worn("coat", 0.22f, -0.25f);
        case StandInStuff::trousers:
            return worn("trousers", 0.12f, -0.1f);
        case StandInStuff::skin:
            return worn("skin", 0.32f, 0.9f);
        case StandInStuff::hair:
            return worn("hair", 0.06f, 0.6f);
        case StandInStuff::shoes:
            return worn("shoes", 0.07f, 0.4f);
    }
    return *find_stock("oak");
}

Object object_of(World& world, const Material& material, std::uint64_t seed) {
    Object object;
    object.surface = add_surface(
        world, make_surface(material, material.thickness_mm, SampledSpectrum(0.0f), 1, *world.interfaces));
    object.roughened_surface =
        has_gloss(material) ? add_surface(world, make_surface(roughened(material), material.thickness_mm,
                                                              SampledSpectrum(0.0f), 1, *world.interfaces))
                            : object.surface;
    object.grain = material.grain;
    object.timber = material.kind == Kind::timber;
    object.seed = static_cast<std::uint32_t>(hash_text(material.name) + seed);
    world.materials.push_back(material.name);
    object.material = static_cast<std::int32_t>(world.materials.size());
    return object;
}

void add_stand_in(World& world, const StandInPlace& place, std::uint64_t seed) {
    const double height = place.height_mm > 0 ? place.height_mm : usual_height_mm(place.what);
    const glm::dvec3 at(place.at_mm.x, 0, place.at_mm.y);
    const auto moved = glm::rotate(glm::translate(glm::mat4(1), glm::vec3(at - world.origin_mm)),
                                   static_cast<float>(glm::radians(place.turn_deg)), glm::vec3(0, 1, 0));
    std::map<StandInStuff, Object> objects;
    for (const StandInSolid& solid : stand_in_solids(place.what, height)) {
        if (!objects.contains(solid.stuff)) {
            Object object = object_of(world, material_of(solid.stuff), seed);
            object.along = glm::vec3(moved * glm::vec4(1, 0, 0, 0));
            objects.emplace(solid.stuff, object);
        }
        add(world, solid.mesh, moved, objects.at(solid.stuff));
    }
}

// A can behind the round opening of a lamp and a stem up to the ceiling. Nothing stands in the light.
void add_lamp_body(World& world, const Lamp& lamp, double ceiling_mm, const Object& object) {
    constexpr double kBehind_mm = 1.5, kStemRadius_mm = 6;
    const double radius = 0.62 * lamp.width_mm, length = 2.4 * lamp.width_mm;
    const glm::dvec3 axis = glm::normalize(lamp.aim_mm - lamp.at_mm);
    const std::vector<LoftSection> can{{-length, {}, glm::dvec2(radius * 0.8)},
                                       {-length + 4, {}, glm::dvec2(radius)},
                                       {-kBehind_mm, {}, glm::dvec2(radius)}};
    const glm::dvec3 side =
        glm::normalize(glm::cross(std::abs(axis.y) < 0.99 ? glm::dvec3(0, 1, 0) : glm::dvec3(1, 0, 0), axis));
    glm::mat4 place(1);
    place[0] = glm::vec4(glm::vec3(side), 0);
    place[1] = glm::vec4(glm::vec3(axis), 0);
    place[2] = glm::vec4(glm::vec3(glm::cross(side, axis)), 0);
    place[3] = glm::vec4(glm::vec3(lamp.at_mm - world.origin_mm), 1);
    add(world, loft_mesh(can, 32, 1), place, object);
    const glm::dvec3 foot = lamp.at_mm - axis * (length / 2);
    const std::vector<LoftSection> stem{{foot.y, {foot.x, foot.z}, glm::dvec2(kStemRadius_mm)},
                                        {ceiling_mm, {foot.x, foot.z}, glm::dvec2(kStemRadius_mm)}};
    if (ceiling_mm - foot.y > 1)
        add(world, loft_mesh(stem, 16, 1), glm::translate(glm::mat4(1), glm::vec3(-world.origin_mm)), object);
}

}  // namespace

World build_mock_up(const Layout& layout, const Laying& laying, const MockUp& mock_up) {
    World world = build_world(layout, laying);
    for (std::size_t i = 0; i < mock_up.stand_ins.size(); ++i) add_stand_in(world, mock_up.stand_ins[i], i);
    if (mock_up.lamp_bodies) {
        const Object object = object_of(world, *find_stock("deep-grey"), 77);
        for (const Lamp& lamp : layout.on.lamps)
            if (rule_of(lamp.form).in_can) add_lamp_body(world, lamp, layout.room.height_mm, object);
    }
    finish(world);
    return world;
}

}  // namespace rakelight
