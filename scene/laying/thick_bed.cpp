#include "scene/laying/thick_bed.h"

#include <fmt/format.h>

#include <algorithm>

#include "scene/geometry/region.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

namespace {

struct OnBed {
    double mm2 = 0;
    double mm3 = 0;  // of the bed under its pieces
    double pieces_g = 0;
    double thickness_mm3 = 0;
};

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
    std::vector<OnBed> fields(layout.fields.size());
    double all_g = 0;
    for (const Piece& piece : laying.pieces) {
        OnBed& own = fields[piece.field];
        const double mm2 = area_mm2(piece.outline_mm);
        const double bed_mm = std::max(piece.top_mm - piece.thickness_mm, 0.0);
        own.mm2 += mm2;
        own.mm3 += mm2 * bed_mm;
        own.thickness_mm3 += mm2 * piece.thickness_mm;
        own.pieces_g += mm2 * piece.thickness_mm / 1000 *
                        static_cast<double>(layout.stock[piece.material].density_g_per_cm3);
    }
    std::vector<double> bed_g;
    for (std::size_t f = 0; f < fields.size(); ++f) {
        const auto density =
            static_cast<double>(layout.tints[layout.fields[f].bed].density_g_per_cm3);
        bed_g.push_back(fields[f].mm3 / 1000 * density);
        all_g += bed_g.back() + fields[f].pieces_g;
    }
    const Material* thick = thickest(layout, laying);
    const double usual_mm = std::min(layout.panel.substrate.bed_mm, 3.0), plane_mm = face_plane_mm(layout);
    std::vector<std::string> lines;
    for (std::size_t f = 0; f < fields.size(); ++f) {
        if (!(fields[f].mm2 > 0)) continue;
        const double bed_mm = fields[f].mm3 / fields[f].mm2,
                     thin_mm = fields[f].thickness_mm3 / fields[f].mm2;
        if (bed_mm <= kThickBed_mm || bed_mm <= layout.panel.substrate.bed_mm + 1) continue;
        lines.push_back(to_string(Problem{
            layout.fields[f].place, fmt::format("fields[{}].thickness", f + 1),
            fmt::format("pieces of {} are {:.1f} mm thick and lie flush with {} mm of {}: their bed comes to "
                        "{:.0f} mm where 2 to 3 are usual, {:.1f} kg, {:.0f} % of all pieces and beds. What "
                        "would help: pieces of up to {:.0f} mm, a board raised by {:.0f} mm under them, or a "
                        "step, with the thick pieces standing proud as placed stones do",
                        layout.fields[f].name, thin_mm, plane_mm - layout.panel.substrate.bed_mm,
                        thick ? thick->name : "other pieces", bed_mm, bed_g[f] / 1000,
                        all_g > 0 ? 100 * bed_g[f] / all_g : 0, plane_mm - usual_mm, bed_mm - usual_mm)}));
    }
    return lines;
}

}  // namespace rakelight
