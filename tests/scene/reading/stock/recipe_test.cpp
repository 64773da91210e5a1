#include "scene/reading/stock/recipe.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/reading/stock/supplies.h"
#include "tests/support/refusal.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

const std::string kHead =
    "panel: {size: [600, 450]}\nfields: [{name: all, mix: slate, grout: mine, bed: mine}]\n";

Layout layout_of(const std::string& tint) {
    return read_layout_text(kHead + "tints:\n  mine: " + tint + "\n", "f.yaml");
}

Material tint_of(const std::string& entry) {
    const Layout layout = layout_of(entry);
    for (const Material& m : layout.tints)
        if (m.name == "mine") return m;
    throw std::logic_error("not in the layout's tints");
}

std::string complaint(const std::string& text, const std::string& file = "f.yaml") {
    return refusal_of([&] { read_layout_text(text, file); });
}

struct Folder : test::Folder {
    std::string layout() const { return (path() / "f.yaml").string(); }
};

TEST(ReadRecipe, ATintByRecipe) {
    const Material m = tint_of("{base: white-cement, pigments: {PB28: 4 %, PBk11: 0.6 %}}");
    Recipe r;
    r.base = *find_base("white-cement");
    r.doses = {{*find_pigment("PB28"), 0.04}, {*find_pigment("PBk11"), 0.006}};
    EXPECT_EQ(m.reflectance, inner_reflectance(r));
    EXPECT_EQ(m.kind, Kind::cement);
    EXPECT_EQ(m.provenance, Provenance::invented);
    EXPECT_TRUE(layout_of("{base: white-cement, pigments: {PB28: 4 %, PBk11: 0.6 %}}").warnings.empty());
}

TEST(ReadRecipe, WhatElseMayBeSaid) {
    const Material m = tint_of(
        "{base: clear-epoxy, pigments: {PW6: 0.2 %}, thickness: 3, over: 10 %, roughness: 0.4, density: "
        "1.2}");
    Recipe r;
    r.base = *find_base("clear-epoxy");
    r.thickness_mm = 3;
    r.behind = SampledSpectrum(0.1f);
    r.doses = {{*find_pigment("PW6"), 0.002}};
    EXPECT_EQ(m.reflectance, inner_reflectance(r));
    EXPECT_FLOAT_EQ(m.roughness, 0.4f);
    EXPECT_FLOAT_EQ(m.density_g_per_cm3, 1.2f);
    EXPECT_FLOAT_EQ(m.thickness_mm, 3);
    // Half the cement takes half the pigment.
    EXPECT_EQ(tint_of("{base: white-cement, cement share: 20 %, pigments: {PR101: 4 %}}").reflectance,
              tint_of("{base: white-cement, cement share: 40 %, pigments: {PR101: 2 %}}").reflectance);
    EXPECT_EQ(tint_of("{base: grey-cement}").reflectance,
              tint_of("{base: grey-cement, pigments: {PB28: 0}}").reflectance);
}

TEST(ReadRecipe, TooMuchWarnsButReads) {
    const Layout layout = layout_of("{base: white-cement, pigments: {PBk11: 9 %, PB27: 2 %}}");
    ASSERT_EQ(layout.warnings.size(), 3u);  // the black, the blue, and both together
    for (const std::string& warning : layout.warnings)
        EXPECT_EQ(warning.rfind("f.yaml:4:", 0), 0u) << warning;
    EXPECT_NE(layout.warnings[2].find("ASTM C979"), std::string::npos) << layout.warnings[2];
}

TEST(ReadRecipe, BadRecipes) {
    const struct {
        const char *tint, *said;
    } cases[] = {
        {"{base: white-cement, pigments: {PB82: 4 %}}", "did you mean PB28?"},
        {"{base: white-cement, pigments: {PB28: 60 %, PW6: 50 %}}",
         "tints.mine.pigments: found that pigments sum to 110 % of the binder, expected at most 100 %"},
        {"{base: white-cement, pigments: {PB28: -1 %}}",
         "tints.mine.pigments.PB28: found \"-1 %\", expected 0 % to 100 %"},
        {"{base: white-cement, pigments: {PB28: 120 %}}", "expected 0 % to 100 %"},
        {"{base: white-cement, pigments: {PB28: 4 g}}", "tints.mine.pigments.PB28"},
        {"{base: white-cement, pigments: {PB28: 1 %, PB28: 2 %}}", "found the key again"},
        {"{base: white-cement, pigments: [PB28]}", "expected a mapping"},
        {"{base: white-cemnt, pigments: {PB28: 4 %}}", "did you mean white-cement?"},
        {"{base: clear-epoxy, thickness: 0}", "tints.mine.thickness"},
        {"{base: clear-epoxy, cement share: 40 %}", "expected it with a cement"},
        {"{base: clear-epoxy, over: 2}", "tints.mine.over"},
        {"{base: white-cement, like: charcoal}", "found base and like"},
        {"{base: white-cement, reflectance: 0.3}", "found base and reflectance"},
        {"{base: white-cement, pigment: {PB28: 4 %}}", "did you mean pigments?"},
    };
    for (const auto& c : cases) {
        const std::string text = complaint(kHead + "tints:\n  mine: " + c.tint + "\n");
        EXPECT_NE(text.find(c.said), std::string::npos) << c.tint << "\n" << text;
        EXPECT_EQ(text.rfind("f.yaml:4:", 0), 0u) << text;
    }
}

std::string drawdowns(const Pigment& pigment, double tint, double masstone) {
    std::string text = "# drawdowns in white cement\nnm,tint,masstone\n";
    Recipe r;
    r.base = *find_base("white-cement");
    r.thickness_mm = 1e4;
    r.doses = {{pigment, tint}};
    const SampledSpectrum weak = seen_reflectance(r);
    r.doses[0].share = masstone;
    const SampledSpectrum strong = seen_reflectance(r);
    for (int b = 0; b < kBandCount; ++b)
        text += std::to_string(band_wavelength_nm(b)) + "," + std::to_string(weak[b]) + "," +
                std::to_string(strong[b]) + "\n";
    return text;
}

const std::string kOwn =
    "pigments:\n  my-blue: {curves: blue.csv, base: white-cement, weak: 1 %, strong: 8 %, density: 4.2}\n";

TEST(ReadRecipe, OwnPigmentFromDrawdowns) {
    const Folder folder;
    folder.write("blue.csv", drawdowns(*find_pigment("PB28"), 0.01, 0.08));
    const Layout layout = read_layout_text(
        kHead + kOwn + "tints:\n  mine: {base: white-cement, pigments: {my-blue: 4 %}}\n", folder.layout());
    const Material shipped = tint_of("{base: white-cement, pigments: {PB28: 4 %}}");
    ASSERT_EQ(layout.tints.size(), 1u);
    for (int b = 0; b < kBandCount; ++b)
        EXPECT_NEAR(layout.tints[0].reflectance[b], shipped.reflectance[b], 1e-4);

    const Supplies supplies = read_supplies(kOwn, folder.layout());
    EXPECT_EQ(supplies.pigments.back().name, "my-blue");
    EXPECT_EQ(supplies.pigments.back().provenance, Provenance::measured);
    EXPECT_EQ(supplies.pigments.size(), pigments().size() + 1);
}

// Drawdowns of a stock library, as photographs give them: the same pigment as from the file of curves.
TEST(ReadRecipe, OwnPigmentFromSamplesOfTheStock) {
    const Folder folder;
    Recipe r;
    r.base = *find_base("white-cement");
    r.thickness_mm = 1e4;
    std::string library = "stock:\n";
    for (const auto& [name, share] : {std::pair{"blue-weak", 0.01}, std::pair{"blue-strong", 0.08}}) {
        r.doses = {{*find_pigment("PB28"), share}};
        library +=
            std::string("  ") + name + ":\n    kind: cement\n    uncertainty: 0.5 %\n    reflectance: [";
        const SampledSpectrum seen = seen_reflectance(r);
        for (int b = 0; b < kBandCount; ++b)
            library += (b ? ", [" : "[") + std::to_string(band_wavelength_nm(b)) + ", " +
                       std::to_string(seen[b]) + "]";
        library += "]\n";
    }
    folder.write("mine.yaml", library);
    const std::string own =
        "stock from: mine.yaml\npigments:\n  my-blue: {weak from: blue-weak, strong from: blue-strong, "
        "base: white-cement, weak: 1 %, strong: 8 %}\n";
    const Supplies supplies = read_supplies(own, folder.layout());
    const Pigment& p = supplies.pigments.back();
    EXPECT_EQ(p.name, "my-blue");
    EXPECT_EQ(p.draws.size(), 24u);
    for (int b = 0; b < kBandCount; ++b)
        EXPECT_NEAR(p.absorption_m2_per_g[b], find_pigment("PB28")->absorption_m2_per_g[b], 0.01);
    const auto refused = [&](std::string text, const char* from, const char* to) {
        text.replace(text.find(from), std::string(from).size(), to);
        return refusal_of([&] { read_supplies(text, folder.layout()); });
    };
    EXPECT_NE(refused(own, "from: blue-weak", "from: blue-week").find("did you mean blue-weak"),
              std::string::npos);
    EXPECT_NE(refused(own, "from: blue-weak", "from: aqua").find("which is translucent"), std::string::npos);
    EXPECT_NE(refused(own, "weak from: blue-weak, ", "").find("weak from"), std::string::npos);
    EXPECT_NE(refused(own, "{weak", "{curves: a.csv, weak").find("found both curves and weak from"),
              std::string::npos);
}

TEST(ReadRecipe, BadPigments) {
    const Folder folder;
    folder.write("blue.csv", drawdowns(*find_pigment("PB28"), 0.01, 0.08));
    folder.write("gap.csv", "400,.3,.2\n460,.3,.2\n700,.3,.2\n");
    folder.write("alike.csv", "400,.3,.3\n420,.3,.3\n");
    std::string alike, over;
    for (int nm = 400; nm <= 700; nm += 20) {
        alike += std::to_string(nm) + ",.3,.3\n";
        over += std::to_string(nm) + (nm == 500 ? ",1.3,.2\n" : ",.5,.2\n");
    }
    folder.write("alike.csv", alike);
    folder.write("over.csv", over);
    const struct {
        const char *entry, *said;
    } cases[] = {
        {"mine: {curves: blue.csv, base: white-cement, weak: 1 %}", "pigments.mine.strong: found nothing"},
        {"mine: {curves: none.csv, base: white-cement, weak: 1 %, strong: 8 %}",
         "none.csv: pigments.mine.curves: found no such file"},
        {"mine: {curves: gap.csv, base: white-cement, weak: 1 %, strong: 8 %}",
         "gap.csv:2:1: pigments.mine.curves: found nothing between 400 and 460 nm"},
        {"mine: {curves: over.csv, base: white-cement, weak: 1 %, strong: 8 %}",
         "over.csv:6:5: pigments.mine.curves: found \"1.3\""},
        {"mine: {curves: alike.csv, base: white-cement, weak: 1 %, strong: 8 %}",
         "at 400 nm the weak and the strong drawdown are alike"},
        {"mine: {curves: blue.csv, base: white-cement, weak: 8 %, strong: 1 %}",
         "the weak drawdown must hold less"},
        {"mine: {curves: blue.csv, base: putty, weak: 1 %, strong: 8 %}",
         "pigments.mine.base: found \"putty\""},
        {"PB28: {curves: blue.csv, base: white-cement, weak: 1 %, strong: 8 %}",
         "name of a built-in pigment"},
        {"mine: 3", "expected a mapping"},
    };
    for (const auto& c : cases) {
        const std::string text =
            complaint("panel: {size: [600, 450]}\nfields: [{name: all, mix: slate}]\npigments:\n  " +
                          std::string(c.entry) + "\n",
                      folder.layout());
        EXPECT_NE(text.find(c.said), std::string::npos) << c.entry << "\n" << text;
    }
}

}  // namespace
}  // namespace rakelight
