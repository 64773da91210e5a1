#include "scene/reading/layout_reader.h"

#include <memory>
#include <utility>

#include "scene/keys/keys.h"
#include "scene/model/layout.h"
#include "scene/reading/beside.h"
#include "scene/reading/deliverable_section.h"
#include "scene/reading/field/drawing.h"
#include "scene/reading/field/fields.h"
#include "scene/reading/field/piece_table.h"
#include "scene/reading/field/setting.h"
#include "scene/reading/field/stones.h"
#include "scene/reading/light/all_round.h"
#include "scene/reading/light/daylight.h"
#include "scene/reading/light/lamps.h"
#include "scene/reading/light/set_ups.h"
#include "scene/reading/panel.h"
#include "scene/reading/stock/recipe.h"
#include "scene/reading/stock/stock.h"
#include "scene/reading/viewpoint.h"
#include "scene/reading/views.h"
#include "scene/room/defaults.h"
#include "scene/text/layout_tree.h"
#include "scene/text/word_list.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {
namespace {

[[noreturn]] void refuse(const std::string& file, std::string text) {
    throw LayoutError({file, 0, 0}, "", std::move(text));
}

void read_units(Section& file, Units& units) {
    std::size_t word = 0;
    if (file.set_word(word, "units")) units = word == 1 ? Units::inches : Units::metric;
}

/// `alone`: of a panel that hangs beside another; whether one hangs beside it in turn does not matter.
Layout read_one(std::shared_ptr<const LayoutTree> tree, std::string file_name,
                const std::filesystem::path& pieces, bool alone) {
    const YamlValue& document = tree->root;
    if (document.shape == YamlValue::Shape::nothing)
        refuse(file_name, "found an empty file, expected at least panel and fields");

    Layout layout;
    layout.sources.path = file_name;
    layout.sources.files = tree->files;
    layout.sources.tree = tree;
    ProblemList problems(std::move(file_name));
    Section file(document, "", keys::layout, problems);
    if (document.shape != YamlValue::Shape::mapping) problems.throw_if_any();

    read_units(file, layout.units);
    Shelf stock = stock_shelf(), tints = tint_shelf();
    stock.pigments = tints.pigments = read_pigments(file, layout.sources.files);
    read_shelf(file, "stock", stock);
    read_shelf(file, "tints", tints);
    for (const Shelf* shelf : {&stock, &tints})
        for (const std::string& picture : shelf->files)
            if (!holds(layout.sources.files, picture)) layout.sources.files.push_back(picture);
    read_panel(file, layout, stock);
    DrawnSheet sheet = read_drawing(file, layout);
    read_fields(file, layout, stock, tints, sheet);
    read_stones(file, layout, stock);
    read_piece_table(file, layout, stock, pieces);
    if (alone)
        file.find("beside");
    else
        read_beside(file, layout, [](const std::filesystem::path& path) {
            return read_one(
                std::make_shared<const LayoutTree>(gather_layout(layout_file_text(path), path.string())),
                path.string(), {}, true);
        });
    read_room(file, layout, stock);
    check_beside(file, layout);
    read_all_round(file, layout);
    read_daylight(file, layout);
    read_lamps(file, layout);
    light_beside(file, layout);
    read_set_ups(file, layout, stock);
    read_viewpoints(file, layout);
    check_leans(file, layout);
    read_pictures(file, layout);
    for (const std::string_view key : keys::kDeliverables) file.find(key);
    for (const std::string_view key : kMakingKeys) file.find(key);
    file.finish();
    problems.throw_if_any();
    for (std::string& warning : sheet.unused()) layout.warnings.push_back(std::move(warning));
    for (const Shelf* shelf : {&stock, &tints})
        layout.warnings.insert(layout.warnings.end(), shelf->warnings.begin(), shelf->warnings.end());

    if (layout.views.pictures.empty()) layout.views.pictures.push_back(usual_picture(layout));
    fit_views(layout);
    return layout;
}

}  // namespace

Layout read_layout_tree(LayoutTree tree, std::string file_name, const std::filesystem::path& pieces) {
    return read_one(std::make_shared<const LayoutTree>(std::move(tree)), std::move(file_name), pieces, false);
}

Layout read_layout_text(std::string_view text, std::string file_name, const std::filesystem::path& pieces) {
    LayoutTree tree = gather_layout(text, file_name);
    return read_layout_tree(std::move(tree), std::move(file_name), pieces);
}

Layout read_layout(const std::filesystem::path& path, const std::filesystem::path& pieces,
                   std::span<const std::string> changes) {
    LayoutTree tree = gather_layout(layout_file_text(path), path.string());
    change_tree(tree.root, changes);
    Layout layout = read_layout_tree(std::move(tree), path.string(), pieces);
    layout.sources.changes.assign(changes.begin(), changes.end());
    return layout;
}

}  // namespace rakelight
