#include "output/glare/measures/field_contrast.h"

#include <algorithm>

#include "output/glare/measures/adjacent_fields.h"

namespace rakelight {

double contrast_of(double a_cd_per_m2, double b_cd_per_m2) {
    const auto [dark, bright] = std::minmax(a_cd_per_m2, b_cd_per_m2);
    return bright > 0 ? (bright - dark) / bright : 0;
}

std::vector<FieldContrast> field_contrasts(const PanelGlare& glare, const std::vector<Field>& fields,
                                           const std::vector<std::pair<std::string, std::string>>& pairs) {
    const auto light_of = [&](const std::string& name) {
        return std::find_if(glare.fields.begin(), glare.fields.end(),
                            [&](const FieldLight& f) { return fields[f.field].name == name; });
    };
    std::vector<FieldContrast> contrasts;
    for (const auto& [one, other] : pairs) {
        const auto a = light_of(one), b = light_of(other);
        if (a == glare.fields.end() || b == glare.fields.end()) continue;
        contrasts.push_back({one, other, contrast_of(a->body_cd_per_m2, b->body_cd_per_m2),
                             contrast_of(a->body_cd_per_m2 + a->mirrored_cd_per_m2,
                                         b->body_cd_per_m2 + b->mirrored_cd_per_m2)});
    }
    return contrasts;
}

std::vector<std::pair<std::string, std::string>> bordering_pairs(const std::vector<Field>& fields,
                                                                 const Laying& laying, std::size_t most) {
    std::vector<std::pair<std::string, std::string>> pairs;
    for (const FieldBorder& border : field_borders(fields, laying)) {
        if (pairs.size() == most) break;
        pairs.emplace_back(fields[border.one].name, fields[border.other].name);
    }
    return pairs;
}

}  // namespace rakelight
