#include "scene/reading/stock/supplies.h"

#include "scene/keys/keys.h"
#include "scene/reading/stock/recipe.h"

namespace rakelight {

Supplies usual_supplies() {
    return {pigments(), stock_shelf(), tint_shelf()};
}

Supplies read_supplies(std::string_view text, std::string file_name) {
    const YamlValue document = parse_yaml(text, file_name);
    ProblemList problems(std::move(file_name));
    Section file(document, "", keys::layout, problems);
    problems.throw_if_any();
    Supplies s = usual_supplies();
    std::vector<std::string> sources;
    const std::vector<Pigment> own = read_pigments(file, sources);
    s.stock.pigments = s.tints.pigments = own;
    read_shelf(file, "stock", s.stock);
    read_shelf(file, "tints", s.tints);
    problems.throw_if_any();
    s.pigments.insert(s.pigments.end(), own.begin(), own.end());
    return s;
}

}  // namespace rakelight
