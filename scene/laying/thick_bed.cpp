#include "scene/laying/thick_bed.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "scene/geometry/region.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

namespace {

// The bed under the pieces of one field.
struct OnBed {
    double mm2 = 0;
    double mm3 = 0;
    double bed_g = 0;
    double pieces_g = 0;
    double thickness_mm3 = 0;  // of the pieces, by their area

    double bed_mm() const { return mm2 > 0 ? mm3 / mm2 : 0; }
    double thickness_mm() const { return mm2 > 0 ? thickness_mm3 / mm2 : 0; }
};

std::vector<OnBed> beds_under(const Layout& layout, const Laying& laying) {
    std::vector<OnBed> fields(layout.fields.size());
    for (const Piece& piece : laying.pieces) {
        OnBed& own = fields[piece.field];
        const double mm2 = area_mm2(piece.outline_mm);
        const double mm3 = mm2 * std::max(piece.top_mm - piece.thickness_mm, 0.0);
        own.mm2 += mm2;
        own.mm3 += mm3;
        own.thickness_mm3 += mm2 * piece.thickness_mm;
        own.bed_g +=
            mm3 / 1000 * static_cast<double>(layout.tints[layout.fields[piece.field].bed].density_g_per_cm3);
        own.pieces_g += mm2 * piece.thickness_mm / 1000 *
                        static_cast<double>(layout.stock[piece.material].density_g_per_cm3);
    }
    return fields;
}

// The material that the plane of all faces is as high for.
const Material* thickest(const Layout& layout, const Laying& laying) {
    const Material* most = nullptr;
    double most_mm = 0;
    for (const Piece& piece : laying.pieces)
        if (piece.thickness_mm > most_mm + 1e-9) {
            most_mm = piece.thickness_mm;
            most = &layout.stock[piece.material];
        }
    return most;
}

}  // namespace

std::vector<std::string> thick_bed_warnings(const Layout& layout, const Laying& laying) {
    const std::vector<OnBed> fields = beds_under(layout, laying);
    std::vector<std::string> names;
    std::size_t worst = 0;
    double bed_g = 0, all_g = 0;
    for (std::size_t f = 0; f < fields.size(); ++f) {
        all_g += fields[f].bed_g + fields[f].pieces_g;
        if (fields[f].bed_mm() <= std::max(kFarTooThick_mm, layout.panel.substrate.bed_mm + 1)) continue;
        names.push_back(layout.fields[f].name);
        bed_g += fields[f].bed_g;
        if (fields[f].bed_mm() > fields[worst].bed_mm()) worst = f;
    }
    if (names.empty()) return {};
    const Material* thick = thickest(layout, laying);
    const double usual_mm = std::min(layout.panel.substrate.bed_mm, 3.0), plane_mm = face_plane_mm(layout);
    const double bed_mm = fields[worst].bed_mm();
    return {to_string(Problem{
        layout.fields[worst].place, fmt::format("fields[{}].thickness", worst + 1),
        fmt::format(
            "pieces of {} are {:.1f} mm thick and lie flush with {:g} mm of {}: the bed under {} comes "
            "to {:.0f} mm, where 2 to 3 are usual, and to {:.1f} kg, {:.0f} % of all pieces and beds. "
            "What would help: pieces of up to {:.0f} mm, a board raised by {:.0f} mm under them, or a "
            "step, with the thick pieces standing proud as placed stones do",
            layout.fields[worst].name, fields[worst].thickness_mm(), plane_mm - layout.panel.substrate.bed_mm,
            thick ? thick->name : "other pieces", fmt::join(names, ", "), bed_mm, bed_g / 1000,
            100 * bed_g / all_g, plane_mm - usual_mm, bed_mm - usual_mm)})};
}

}  // namespace rakelight
