// What can be said of every material and tint of a layout before a piece is cut: its colour face-on under
// each light, its gloss, its weight and price, and how far its data can be trusted. Plain numbers;
// swatch_sheet.h sets them on paper and json.h writes them for machines.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "materials/colour/colorimetry.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/optics/material.h"

namespace rakelight {

struct Layout;
struct Laying;

/// A light that colours are stated under. The first of a report is that of the layout's lamps.
struct ReportLight {
    std::string name;   ///< "lamps", A, D65, LED-B3
    std::string title;  ///< the same in words
    TristimulusWeights weights;
    double illuminance_lx = 0;  ///< mean on the panel; 0 for the lights that are only compared with
    double cct_k = 0;
    double duv = 0;  ///< see correlated_temperature
    double ra = 0;   ///< general colour rendering index
    double r9 = 0;   ///< of strong red
};

/// One patch of colour: a material at a thickness over a backing, seen face-on in diffuse light (or lit
/// face-on and seen from everywhere: the same by reciprocity), what the face mirrors left out (metal leaf
/// counts as body).
struct Swatch {
    std::string label;     ///< "as laid", "over white", "lighter piece"
    std::string bed;       ///< tint behind a translucent body; "white" and "black" of a limit: see `limit`
    std::string beside{};  ///< tint that fills the joints and shows at the sides; empty = none does
    bool limit = false;    ///< the backing is perfectly white or black, not a tint
    double thickness_mm = 0;
    SampledSpectrum reflectance;
    std::vector<Lab> lab;                ///< for each light of the report
    std::array<std::uint8_t, 3> srgb{};  ///< the Lab under the first light, on a page of D65 white
    bool in_srgb = true;                 ///< else drawn less vivid, hue and lightness kept
};

/// Whether the bed shows through: translucent material with nothing opaque of its own behind.
bool shows_bed(const Material& material);

enum class StockPlace { glass, stone, tint, room };

struct StockEntry {
    StockPlace place = StockPlace::glass;
    Material material;
    double thickness_mm = 0;        ///< as laid first
    std::array<double, 3> gloss{};  ///< units at 20, 60 and 85 degrees
    std::vector<Swatch> swatches;   ///< the first is as laid

    double kg_per_m2() const { return material.density_g_per_cm3 * thickness_mm; }  // g/cm3 x mm = kg/m2
    /// 0 = not known.
    double cost_per_m2() const;
};

struct StockReport {
    std::string panel;
    std::string layout_file;
    std::string program;
    std::vector<ReportLight> lights;
    std::vector<StockEntry> entries;  ///< glass, stone, tints, room; within each as the layout names them
};

/// `lamp_lx`: mean illuminance on the panel from each lamp of the layout, then from its windows and
/// sun (window_lights), those not wanted 0.
/// Translucent material shows at its sides what fills the joints, by the outlines of its pieces in `laying`.
/// \throws RequestError when there is no light at all.
StockReport report_stock(const Layout& layout, const Laying& laying, const std::vector<double>& lamp_lx,
                         const std::string& program);

}  // namespace rakelight
