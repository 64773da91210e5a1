#include "scene/reading/layout_reader.h"

#include <fstream>
#include <iterator>
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
#include "scene/reading/light/daylight.h"
#include "scene/reading/light/lamps.h"
#include "scene/reading/light/set_ups.h"
#include "scene/reading/panel.h"
#include "scene/reading/stock/recipe.h"
#include "scene/reading/stock/stock.h"
#include "scene/reading/viewpoint.h"
#include "scene/reading/views.h"
#include "scene/room/defaults.h"
#include "scene/text/yaml_document.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {
namespace {

[[noreturn]] void refuse(const std::string& file, std::string text) {
    throw LayoutError({file, 0, 0}, "", std::move(text));
}

/// `alone`: of a panel that hangs beside another; whether one hangs beside it in turn does not matter.
Layout read_one(const YamlValue& document, std::string file_name, const std::filesystem::path& pieces,
                bool alone) {
    if (document.shape == YamlValue::Shape::nothing)
        refuse(file_name, "found an empty file, expected at least panel and fields");

    Layout layout;
    layout.sources.path = file_name;
    ProblemList problems(std::move(file_name));
    Section file(document, "", keys::layout, problems);
    if (document.shape != YamlValue::Shape::mapping) problems.throw_if_any();

    Shelf stock = stock_shelf(), tints = tint_shelf();
    stock.pigments = tints.pigments = read_pigments(file, layout.sources.files);
    read_shelf(file, "stock", stock);
    read_shelf(file, "tints", tints);
    read_panel(file, layout, stock);
    DrawnSheet sheet = read_drawing(file, layout);
    read_fields(file, layout, stock, tints, sheet);
    read_stones(file, layout, stock);
    read_piece_table(file, layout, stock, pieces);
    if (alone)
        file.find("beside");
    else
        read_beside(file, layout, [](const std::filesystem::path& path) {
            return read_one(parse_yaml(layout_file_text(path), path.string()), path.string(), {}, true);
        });
    read_room(file, layout, stock);
    check_beside(file, layout);
    read_daylight(file, layout);
    read_lamps(file, layout);
    light_beside(file, layout);
    read_set_ups(file, layout, stock);
    read_viewpoints(file, layout);
    check_leans(file, layout);
    read_pictures(file, layout);
    for (const std::string_view key : keys::kDeliverables) file.find(key);
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

std::string layout_file_text(const std::filesystem::path& path) {
    const std::string file = path.string();
    std::error_code error;
    const auto status = std::filesystem::status(path, error);
    if (!std::filesystem::exists(status)) refuse(file, "found no such file, expected a layout file");
    // A pipe has no size to look at first, and a folder no text.
    if (std::filesystem::is_directory(status)) refuse(file, "found a folder, expected a layout file");
    if (!std::filesystem::is_regular_file(status))
        refuse(file, "found a pipe or a device, expected a layout file");
    if (const auto size = std::filesystem::file_size(path, error); error || size > kMostFileBytes)
        refuse(file, error ? "cannot be read: " + error.message()
                           : "found a file over 8 MiB, expected a smaller one");
    std::ifstream stream(path, std::ios::binary);
    std::string text{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
    if (!stream.is_open() || stream.bad()) refuse(file, "cannot be read");
    return text;
}

Layout read_layout_text(std::string_view text, std::string file_name, const std::filesystem::path& pieces) {
    const YamlValue document = parse_yaml(text, file_name);
    return read_one(document, std::move(file_name), pieces, false);
}

Layout read_layout_tree(const YamlValue& document, std::string file_name,
                        const std::filesystem::path& pieces) {
    return read_one(document, std::move(file_name), pieces, false);
}

Layout read_layout(const std::filesystem::path& path, const std::filesystem::path& pieces) {
    return read_layout_text(layout_file_text(path), path.string(), pieces);
}

}  // namespace rakelight
