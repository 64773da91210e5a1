// What the maker says of buying, grouting and hanging: the sections `take-off`, `zones` and `hanging` of a
// layout file. Every figure has a usual value: common practice, no published source, unless told otherwise.
#pragma once

#include <array>
#include <glm/glm.hpp>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "output/paper/paper_size.h"
#include "scene/keys/keys.h"
#include "scene/model/field.h"
#include "scene/text/place.h"

namespace rakelight {

/// How the one who cuts cuts: the low end, the middle or the high end of the usual waste.
enum class Hand { sure, usual, learning };

/// What is cut, as waste goes.
enum class Stuff { sheet_glass, smalti, stone, pebbles, slag, beads };
inline constexpr std::size_t kStuffs = 6;

struct ShareSpan {
    double low = 0;
    double high = 0;
};

/// Waste, as a share of what is laid. Order of Stuff.
inline constexpr std::array<ShareSpan, kStuffs> kUsualWaste{
    {{0.15, 0.30}, {0.10, 0.20}, {0.15, 0.25}, {0.30, 0.50}, {0.20, 0.40}, {0.05, 0.10}}};
/// On top of it where rows bend and pieces are cut to wedges.
inline constexpr double kCurveWaste = 0.10;

/// How one material is bought; what is not said is as usual.
struct Buying {
    std::optional<glm::dvec2> sheet_mm;
    std::optional<double> bag_g;
    std::optional<double> waste;
};

struct HourSpan {
    double low_h_per_m2 = 0;
    double high_h_per_m2 = 0;
};

struct TakeOffWishes {
    Hand hand = Hand::usual;
    std::array<std::optional<double>, kStuffs> waste;  ///< instead of what the hand says
    double curve_waste = kCurveWaste;
    double spare_share = 0.03;  ///< for repairs, of each material
    int least_spare = 10;       ///< pieces
    glm::dvec2 sheet_mm{300, 300};
    double bag_g = 5000;
    std::map<std::string, Buying> buying;  ///< by material
    double bed_waste = 0.12;
    double bed_rise = 1.0 / 3;       ///< how far the bed is squeezed up, share of the pieces' height
    std::map<Opus, HourSpan> hours;  ///< instead of the usual
};

/// What one zone does its own way.
struct ZoneWish {
    std::optional<double> waste, water, spare_g;
};

/// "First before then", with its place for messages.
struct BeforeWish {
    std::string first;
    std::string then;
    Place place;
};

struct ZoneWishes {
    double waste = 0.20;            ///< of the net grout, 15 to 30 %
    double small_waste = 0.50;      ///< of a zone that is too small for a stable batch
    std::optional<double> spare_g;  ///< dry, kept for repairs, labelled; none = usual_spare_g
    double water = 0.25;            ///< of the powder's mass, 20 to 30 %
    double most_batch_g = 2000;     ///< powder one hand can pack and wash before it sets
    bool pre_seal = true;           ///< open-pored pieces are sealed or waxed before grouting
    std::vector<BeforeWish> order;
    std::map<std::string, ZoneWish> each;
    PaperSize paper;         ///< of templates
    double overlap_mm = 12;  ///< of template pages, 10 to 15 mm
    double tape_mm = 30;     ///< how far tape reaches over the neighbours, 25 to 50 mm
};

/// What the load rating printed on a fitting means.
enum class Rating { working, breaking };

struct HangingWishes {
    double gap_mm = 12;               ///< back of the board to the wall
    std::optional<double> apart_mm;   ///< of two points; else three fifths of the width
    std::optional<double> lever_mm;   ///< from the upper fixing down to where the lower edge bears
    double factor = 4;                ///< breaking load over load, at least
    std::optional<int> struts;        ///< else as the panel's width asks for
    glm::dvec2 strut_mm{45, 20};      ///< width along the board, depth
    double strut_kg_per_m3 = 500;     ///< pine
    std::vector<std::string> places;  ///< words of kHangingPlaces that hold here
};

/// Where hanging is not for the maker alone to judge.
inline const std::vector<std::string> kHangingPlaces = words_of(keys::hanging, "place");

struct WorkshopWishes {
    TakeOffWishes take_off;
    ZoneWishes zones;
    HangingWishes hanging;
};

}  // namespace rakelight
