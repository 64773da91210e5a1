#include "materials/colour/illuminants.h"

#include <array>
#include <cmath>
#include <stdexcept>

#include "materials/colour/illuminant_tables.h"

namespace rakelight {

namespace {

// Planck's law relative to 100 at 560 nm; `c2_over_t_nm` is the second radiation constant over the
// temperature.
Spectrum black_body(double c2_over_t_nm) {
    constexpr double kUnity_nm = 560;
    Spectrum s;
    for (int i = 0; i < kSpectrumCount; ++i) {
        const double nm = spectrum_wavelength_nm(i);
        s[i] = 100 * std::pow(kUnity_nm / nm, 5) * std::expm1(c2_over_t_nm / kUnity_nm) /
               std::expm1(c2_over_t_nm / nm);
    }
    return s;
}

// ISO/CIE 11664-2: defined with its own constants, so that no later value of c2 moves it.
Spectrum illuminant_a() {
    return black_body(1.435e7 / 2848);
}

// D50 to D75 were named when c2 was 1.4380e-2 m K; their temperatures grew with the constant.
Spectrum daylight_named(double nominal_k) {
    return daylight(nominal_k * kPlanckC2_m_k / 1.4380e-2);
}

Spectrum equal_energy() {
    Spectrum s;
    s.v.fill(100);
    return s;
}

struct Named {
    std::string_view name;
    Spectrum (*make)();
};

constexpr std::array kNamed = {
    Named{"A", illuminant_a},
    Named{"C", [] { return kIlluminantC; }},
    Named{"D50", [] { return daylight_named(5000); }},
    Named{"D55", [] { return daylight_named(5500); }},
    Named{"D65", [] { return daylight_named(6500); }},
    Named{"D75", [] { return daylight_named(7500); }},
    Named{"E", equal_energy},
    Named{"F2", [] { return kIlluminantF2; }},
    Named{"F7", [] { return kIlluminantF7; }},
    Named{"F11", [] { return kIlluminantF11; }},
    Named{"LED-B1", [] { return kLedB1; }},
    Named{"LED-B2", [] { return kLedB2; }},
    Named{"LED-B3", [] { return kLedB3; }},
    Named{"LED-B4", [] { return kLedB4; }},
    Named{"LED-B5", [] { return kLedB5; }},
    Named{"LED-BH1", [] { return kLedBH1; }},
    Named{"LED-RGB1", [] { return kLedRGB1; }},
    Named{"LED-V1", [] { return kLedV1; }},
    Named{"LED-V2", [] { return kLedV2; }},
};

double round_to_thousandth(double x) {
    return std::round(x * 1000) / 1000;
}

}  // namespace

std::optional<Spectrum> find_illuminant(std::string_view name) {
    for (const Named& named : kNamed)
        if (named.name == name) return named.make();
    return std::nullopt;
}

std::vector<std::string> illuminant_names() {
    std::vector<std::string> names;
    names.reserve(kNamed.size());
    for (const Named& named : kNamed) names.emplace_back(named.name);
    return names;
}

Spectrum planckian(double temperature_k) {
    if (!(temperature_k >= 500 && temperature_k <= 1e6))
        throw std::out_of_range("a black body must be between 500 and 1000000 K");
    constexpr double kNanometresPerMetre = 1e9;
    return black_body(kPlanckC2_m_k * kNanometresPerMetre / temperature_k);
}

Spectrum daylight(double cct_k) {
    if (!(cct_k >= 4000 && cct_k <= 25000))
        throw std::out_of_range("daylight must be between 4000 and 25000 K");
    // CIE 015:2018: chromaticity on the daylight locus, then the amounts of S1 and S2 that reach it.
    const double r = 1e3 / cct_k;
    const double x = cct_k <= 7000 ? ((-4.6070 * r + 2.9678) * r + 0.09911) * r + 0.244063
                                   : ((-2.0064 * r + 1.9018) * r + 0.24748) * r + 0.237040;
    const double y = (-3.000 * x + 2.870) * x - 0.275;
    const double m = 0.0241 + 0.2562 * x - 0.7341 * y;
    const double m1 = round_to_thousandth((-1.3515 - 1.7703 * x + 5.9114 * y) / m);
    const double m2 = round_to_thousandth((0.0300 - 31.4424 * x + 30.0717 * y) / m);

    std::array<double, kDaylightS0.size()> power{};
    for (std::size_t i = 0; i < power.size(); ++i)
        power[i] = kDaylightS0[i] + m1 * kDaylightS1[i] + m2 * kDaylightS2[i];
    return spectrum_from_table(kSpectrumFirst_nm, 10, power);
}

}  // namespace rakelight
