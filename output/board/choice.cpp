#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/board/board.h"
#include "scene/model/layout.h"
#include "scene/room/defaults.h"
#include "scene/text/nearest_word.h"
#include "scene/text/tree_override.h"

namespace rakelight {

namespace {

// A zone is grouted in one go: what is said of one field's grout holds for all of its zone.
std::vector<std::string> fields_meant(const BoardPlan& plan, const std::vector<Field>& fields,
                                      bool whole_zone) {
    std::vector<std::string> names;
    const auto own =
        std::find_if(fields.begin(), fields.end(), [&](const Field& f) { return f.name == plan.field; });
    for (const Field& f : fields)
        if (own == fields.end() || f.name == own->name || (whole_zone && f.zone == own->zone))
            names.push_back(f.name);
    return names;
}

void set_in_fields(YamlValue& tree, const std::vector<std::string>& fields, const char* key,
                   const YamlValue& value) {
    for (const std::string& name : fields)
        for (YamlValue* field : items_called(tree, "fields", name))
            set_member(*field, scalar_at(value, key), value);
}

// The grout of a field with its finish is a tint of its own, made from the one that is there.
void finish_grout(YamlValue& tree, const std::vector<std::string>& fields, const YamlValue& finish) {
    for (const std::string& name : fields)
        for (YamlValue* field : items_called(tree, "fields", name)) {
            const YamlValue* grout = member_of(*field, "grout");
            const std::string bare = grout ? grout->text : std::string(kUsualGrout);
            if (bare == "none") continue;
            const std::string finished = bare + ", " + finish.text;
            YamlValue tint = scalar_at(finish, {});
            tint.shape = YamlValue::Shape::mapping;
            set_member(tint, scalar_at(finish, "like"), scalar_at(finish, bare));
            set_member(tint, scalar_at(finish, "finish"), finish);
            if (!member_of(tree, "tints")) {
                YamlValue none = scalar_at(finish, {});
                none.shape = YamlValue::Shape::mapping;
                set_member(tree, scalar_at(finish, "tints"), none);
            }
            set_member(*member_of(tree, "tints"), scalar_at(finish, finished), tint);
            set_member(*field, scalar_at(finish, "grout"), scalar_at(finish, finished));
        }
}

// How often a name was found and replaced, as a value or as a key.
int rename(YamlValue& in, const std::string& from, const std::string& to) {
    int found = 0;
    if (in.shape == YamlValue::Shape::scalar && in.text == from) in.text = to, ++found;
    for (YamlValue& item : in.items) found += rename(item, from, to);
    for (YamlMember& m : in.members) {
        if (m.key.text == from) m.key.text = to, ++found;
        found += rename(m.value, from, to);
    }
    return found;
}

// The stock that is laid instead gets a name of its own, so that it can stand in a mix beside itself. It goes
// last, after all that it may be made from.
void swap_stock(YamlValue& tree, const KeyChange& change, const std::string& key,
                const std::vector<Material>& stock, ProblemList& problems) {
    const std::string& old = change.path.text;
    const std::string fresh = change.value.text + " for " + old;
    int found = 0;
    if (YamlValue* fields = member_of(tree, "fields"))
        for (YamlValue& field : fields->items)
            for (const char* where : {"mix", "accents", "shapes", "boulders"})
                if (YamlValue* part = member_of(field, where)) found += rename(*part, old, fresh);
    if (YamlValue* stones = member_of(tree, "stones"))
        for (YamlValue& stone : stones->items)
            if (YamlValue* material = member_of(stone, "material")) found += rename(*material, old, fresh);
    if (found == 0) {
        std::vector<std::string> known;
        for (const Material& m : stock) known.push_back(m.name);
        problems.add(
            change.path, key,
            fmt::format("found {}, of which nothing is laid{}", quoted(old), did_you_mean(old, known)));
        return;
    }
    YamlValue entry = scalar_at(change.value, {});
    entry.shape = YamlValue::Shape::mapping;
    set_member(entry, scalar_at(change.value, "like"), change.value);
    if (!member_of(tree, "stock")) {
        YamlValue none = scalar_at(change.path, {});
        none.shape = YamlValue::Shape::mapping;
        set_member(tree, scalar_at(change.path, "stock"), none);
    }
    set_member(*member_of(tree, "stock"), scalar_at(change.value, fresh), entry);
}

}  // namespace

int BoardPlan::height_px() const {
    return std::max(1, static_cast<int>(std::lround(width_px * size_mm.y / size_mm.x)));
}

void choose(YamlValue& tree, const BoardPlan& plan, const BoardChoice& row, const BoardChoice& column,
            const Layout& layout) {
    ProblemList problems(plan.place.file);
    const auto zone = fields_meant(plan, layout.fields, true), own = fields_meant(plan, layout.fields, false);
    for (const BoardChoice* choice : {&row, &column})
        for (const KeyChange& c : choice->set)
            override_tree(tree, c.path, c.value, choice->key + ".set." + c.path.text, problems);
    for (const BoardChoice* choice : {&row, &column})
        for (const KeyChange& c : choice->swap)
            swap_stock(tree, c, choice->key + ".swap." + c.path.text, layout.stock, problems);
    for (const BoardChoice* choice : {&row, &column}) {
        if (choice->light) set_member(tree, scalar_at(*choice->light, "light"), *choice->light);
        if (choice->grout) set_in_fields(tree, zone, "grout", *choice->grout);
        if (choice->bed) set_in_fields(tree, own, "bed", *choice->bed);
        if (choice->joint) set_in_fields(tree, own, "joint", *choice->joint);
        if (choice->recess) set_in_fields(tree, own, "recess", *choice->recess);
    }
    for (const BoardChoice* choice : {&row, &column})
        if (choice->finish) finish_grout(tree, zone, *choice->finish);
    problems.throw_if_any();
}

}  // namespace rakelight
