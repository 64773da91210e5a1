// Materials, tints and pigments of the artist's own.
#include "materials/stock/finish.h"
#include "materials/stock/recipe.h"
#include "scene/keys/keys.h"
#include "scene/keys/takes.h"

namespace rakelight::keys {

namespace {

std::vector<std::string> finishes() {
    return finish_words();
}

constexpr Takes kFinish = word(finishes);
constexpr Takes kReflectance = reading(kMaterial_nm, Quantity::share, 0, 1);
constexpr Takes kTransmittance = reading(kMaterial_nm, Quantity::share, 1e-6, 1);
constexpr Takes kMilkiness = reading(kMaterial_nm, Quantity::plain, 0, 20);
constexpr Takes kUncertainty = reading(kMaterial_nm, Quantity::share, 0, 0.5);
constexpr Takes kShare = share(0, 1);

constexpr KeyRow kOrigin[] = {
    {"like", text("the name of a built-in material, or of one above"), "",
     "Starts from that one; the other keys change it."},
    {"kind", word("glass, stone, slag, cement, epoxy, timber, paint"), "",
     "Starts from what is usual of this kind; then its colour must be given."},
    {"stack", list(sheet, 1, 12), "", "Fused of sheets of glass, the face first."},
    {"firing", word("free, dammed"), "free",
     "Whether the stack flows out in the kiln, or is held at its size by dams."},
    {"ladder", mapping(ladder), "",
     "Shades from one glass to another, NAME-1 to NAME-steps; goes with no other key."},
};
constexpr KeyRow kTintOrigin[] = {
    {"like", text("the name of a built-in tint, or of one above"), "",
     "Starts from that one; the other keys change it."},
    {"kind", word("cement, epoxy"), "",
     "Starts from what is usual of this kind; then its colour must be given."},
};

constexpr KeyRow kBody[] = {
    {"base", word(base_names), "", "By recipe: what pigments are mixed into."},
    {"pigments", mapping(doses), "no pigment", "By recipe: pigments with their shares."},
    {"cement share", share(0.05, 1), "40 %", "By recipe: share of cement in the dry mortar."},
    {"over", kShare | list_of(kReflectance, 1, 1000), "nothing that shows",
     "By recipe: reflectance of what lies behind a layer that is not thick enough to hide it."},
    {"reflectance", kShare | list_of(kReflectance, 1, 1000), "",
     "Share of light sent back, seen without the mirrored part; or pairs [nm, share]."},
    {.key = "transmittance at 3 mm",
     .takes = share(1e-6, 1) | list_of(kTransmittance, 1, 1000),
     .usual = "",
     .says = "Of clear glass: share let through by so thick a piece, faces left out (0.5 to 100 mm).",
     .stands_for = true,
     .begins = "transmittance at "},
    {"milkiness", number(0, 20) | share(0, 0.98) | list_of(kMilkiness, 1, 1000), "0",
     "Of translucent glass: scattering per mm, or the share of light that 3 mm of it throw back over black."},
    {"looks",
     text_like("^(#?[0-9a-fA-F]{6}|[Ll]ab [^ ]+)( over .+)?( at .+)?$",
               "a colour in quotes, as in \"#7a2f3c over white at 3 mm\" or \"Lab 45,10,-20\"") |
         mapping(seen),
     "",
     "With like: the colour to have under D65, over which tint and how thick; its curve is guessed from the "
     "one that it "
     "is like."},
    {"thickness", length(0.5, 100), "6 mm; stone 10, slag 15, timber 20 mm",
     "Thickness of a piece, or of a layer by recipe."},
    {"tone spread", kShare, "0 %", "How far pieces differ in depth of colour, as a standard deviation."},
    {"density", number(0.1, 20), "by its kind", "Grams per cubic centimetre."},
    {"cost",
     text_like("^[+]?([0-9]+[.]?[0-9]*|[.][0-9]+)([eE][+-]?[0-9]+)? per (kg|m2)$",
               "a number and a measure, as in 38 per kg or 120 per m2"),
     "not known", "What it costs, in your own currency."},
    {"on hand", whole(0, 1e7), "as many as needed", "Pieces of it in the workshop; more are not laid."},
    {"index", number(1, 3), "glass 1.52, epoxy 1.54, else 1",
     "Refractive index of its face; 1 has no gloss."},
    {"roughness", number(0, 1), "0; epoxy 0.25", "Roughness of a glossy face: 0 mirrors, 1 is dull."},
    {"glint", mapping(glint), "",
     "Instead of roughness: how wide a lamp's reflection is in a flat piece of it."},
    {"matte", angle(0, 60), "by its kind", "Unevenness of a face without gloss, as a standard deviation."},
    {"sheen stretch", number(1, 16), "1", "Roughness across the grain over that along it."},
    {"ripple", angle(0, 30), "0 deg", "Slow waves of a fused face, as a standard deviation of slope."},
    {"ripple size", length(0.5, 500), "8 mm", "From wave to wave."},
    {"glassy share", kShare, "0 %; slag 30 %", "Share of the face that is glassy, in spots."},
    {"glassy index", number(1, 3), "1.6", "Refractive index of the glassy spots."},
    {"glassy roughness", number(0, 1), "0.1", "Roughness of the glassy spots."},
    {"glassy spot", length(0.5, 500), "6 mm", "How large the glassy spots are."},
    {"texture", mapping(grain), "even", "Unevenness of colour within a piece."},
    {"provenance", word("measured, published, measured from a photograph, guessed, invented"), "invented",
     "Where its figures come from."},
    {"uncertainty", share(0, 0.5) | list_of(kUncertainty, 1, 1000), "0 %",
     "How far its reflectance may be off, as a standard deviation; met by pigments made from it."},
    {"measured on", text_like("^[0-9]{4}-[0-9]{2}-[0-9]{2}$", "a day, as in 2026-11-27"), "not told",
     "The day on which its colour was measured or photographed."},
    {"colour range", numbers(3, 0, 100), "not known",
     "CIEDE2000 that its colour stays within nine times in ten, under D65, A and LED-B3."},
    {"pores", share(0, 0.9), "0 %", "Of an opaque material: share of light lost in open pores."},
    {"finish", kFinish | list_of(kFinish, 0, 6), "as cut or cured",
     "What is done to the face, the first of a list first."},
};

constexpr KeyRow kLeaf[] = {
    {"leaf", word("none, gold, silver, copper"), "none",
     "Metal leaf: behind translucent glass, on all else."},
    {"leaf depth", length(0.1, 50), "the piece's thickness", "Glass that lies over the leaf."},
    {"leaf roughness", number(0.01, 1), "0.08", "Wrinkles of the leaf: 0.01 mirrors, 1 is dull."},
};

constexpr KeyRow kMarkings[] = {
    {"streaks", mapping(streaks), "none", "A second colour drawn out with the sheet."},
    {"wisps", mapping(wisps), "none", "A second colour that curls like smoke."},
    {"veins", mapping(veins), "none", "Veins of a second colour, as of marble."},
    {"crackle", mapping(crackle), "none", "The net of fine cracks of a glaze."},
    {"seeds", mapping(seeds), "none", "Bubbles in clear glass."},
    {"cords", mapping(cords), "none", "Threads in glass that gather light to lines."},
    {"veil", mapping(veil), "none", "The faint white clouds that fusing leaves."},
    {"coating", mapping(coating), "none", "Thin films on its face, which mirror in colours."},
    {"face", mapping(face), "plain", "The pattern of a sheet's face."},
};

constexpr auto kColoured = both(std::to_array(kOrigin), std::to_array(kBody));
constexpr KeyRule kMaterialRules[] = {{How::one, "like, kind, base, stack, ladder"},
                                      {How::at_most_one, "reflectance, transmittance at 3 mm, looks"},
                                      {How::at_most_one, "stack, thickness"},
                                      {How::at_most_one, "base, reflectance"},
                                      {How::at_most_one, "base, looks"},
                                      {How::at_most_one, "roughness, glint"}};
constexpr KeyRule kTintRules[] = {{How::one, "like, kind, base"},
                                  {How::at_most_one, "reflectance, transmittance at 3 mm, looks"},
                                  {How::at_most_one, "base, reflectance"},
                                  {How::at_most_one, "base, looks"},
                                  {How::at_most_one, "roughness, glint"}};

constexpr auto kMaterial = both(both(kColoured, std::to_array(kLeaf)), std::to_array(kMarkings));
constexpr KeyRow kSpread[] = {
    {"sand", mapping(sand), "none", "Its sand, grain by grain."},
    {"meniscus", length(0, 5), "0 mm", "How far from the pieces it climbs towards them."},
    {"mottling", mapping(mottling), "none", "Slow unevenness of its colour over the panel."},
};
constexpr auto kTint = both(both(std::to_array(kTintOrigin), std::to_array(kBody)), std::to_array(kSpread));

constexpr KeyRow kStock[] = {any("NAME", mapping(material), "A material by a name of its own.")};
constexpr KeyRow kTints[] = {any("NAME", mapping(tint), "A tint by a name of its own.")};
constexpr KeyRow kPigments[] = {any("NAME", mapping(pigment), "A pigment by a name of its own.")};
constexpr KeyRow kDoses[] = {
    any("PIGMENT", kShare, "Its mass as a share of that of the cement, or of resin with hardener.")};

constexpr KeyRow kGrain[] = {
    {"contrast", share(0, 0.5), "0 %", "How far the colour differs, as a standard deviation."},
    {"size", length(0.05, 500), "2 mm", "From speckle to speckle."},
    {"stretch", number(0.05, 20), "1", "Over 1: drawn out along the piece, as in slate or timber."},
};

constexpr KeyRow kGlint[] = {
    {"width", length(0.1, 2000), kMust,
     "How wide the reflection is across the face, between the places half as bright as its middle."},
    {"lamp", length(0.5, 2000), kMust, "Diameter of the lamp's bright disc."},
    {"lamp distance", length(50, 20'000), kMust, "From the lamp to the piece."},
    {"camera distance", length(50, 20'000), kMust, "From the lens, or the eye, to the piece."},
};

constexpr KeyRow kSeen[] = {
    {"picture", text("a PNG, JPEG or TIFF beside the layout"), kMust, "A picture of it, in sRGB."},
    {"rectangle", numbers(4, 0, 100'000), kMust,
     "Left, top, width and height in pixels, from the upper left corner: the mean colour within is taken."},
    {"over", kShare | text("a built-in tint"), "white", "Of translucent glass: what lies behind it there."},
    {"thickness", length(0.5, 100), "its own thickness", "Of translucent glass: how thick it is there."},
};

constexpr KeyRow kSheet[] = {
    {"glass", text("the name of a plain glass"), kMust, "The glass of the sheet."},
    {"thickness", length(0.2, 50), kMust, "Thickness of the sheet before firing."},
};

constexpr KeyRow kLadder[] = {
    {"from", text("the name of a plain glass"), kMust, "The first shade."},
    {"to", text("the name of a plain glass"), kMust, "The last shade."},
    {"steps", whole(2, 99), "5", "How many shades, both ends among them."},
};

constexpr KeyRow kPigment[] = {
    {"curves", text("a CSV file beside the layout"), "",
     "Lines of wavelength, weak drawdown and strong drawdown, as read by a spectrophotometer."},
    {"weak from", text("the name of an opaque material of the stock"), "",
     "Instead of curves: the weak drawdown, such as a sample read from photographs."},
    {"strong from", text("the name of an opaque material of the stock"), "",
     "Instead of curves: the strong drawdown."},
    {"base", word(base_names), kMust, "The base that the drawdowns were made in."},
    {"weak", kShare, kMust, "Share of pigment in the weak drawdown."},
    {"strong", kShare, kMust, "Share of pigment in the strong drawdown."},
    {"density", number(0.1, 20), "4", "Grams per cubic centimetre of the powder."},
    {"most in cement", kShare, "10 %", "The most that a cement takes; more is warned of."},
    {"most in epoxy", kShare, "6 %", "The most that a resin takes; more is warned of."},
};

constexpr KeyRule kPigmentRules[] = {{How::one, "curves, weak from"}, {How::one, "curves, strong from"}};

}  // namespace

extern constexpr KeyTable stock{"stock", "Materials of this piece of work, each by a name of its own.",
                                kStock};
extern constexpr KeyTable material{"stock.NAME",
                                   "A material: like another one, of a kind, by recipe, a stack or a ladder.",
                                   kMaterial, kMaterialRules};
extern constexpr KeyTable tints{"tints", "Tints for bed and grout, each by a name of its own.", kTints};
extern constexpr KeyTable tint{"tints.NAME", "A tint: like another one, of a kind, or by recipe.", kTint,
                               kTintRules};
extern constexpr KeyTable pigments{"pigments", "Pigments measured by the artist, each by a name of its own.",
                                   kPigments};
extern constexpr KeyTable pigment{"pigments.NAME", "A pigment, from two drawdowns in one base.", kPigment,
                                  kPigmentRules};
extern constexpr KeyTable doses{"tints.NAME.pigments", "Pigments of a recipe with their shares.", kDoses};
extern constexpr KeyTable grain{"stock.NAME.grain", "Unevenness of colour within a piece.", kGrain};
extern constexpr KeyTable glint{"stock.NAME.glint", "A lamp's reflection, seen and lit nearly square on.",
                                kGlint};
extern constexpr KeyTable seen{"stock.NAME.looks", "The colour to have, from a picture.", kSeen};
extern constexpr KeyTable sheet{"stock.NAME.stack", "A sheet of a fused stack.", kSheet};
extern constexpr KeyTable ladder{"stock.NAME.ladder", "Shades from one glass to another.", kLadder};

}  // namespace rakelight::keys
