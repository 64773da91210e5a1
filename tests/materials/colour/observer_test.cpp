#include "materials/colour/observer.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>

#include "tests/support/table_reader.h"

namespace rakelight {
namespace {

// The table against the same observer as distributed in colord-data, an outside reader of CIE 018.
TEST(Observer, AgreesWithColordData) {
    const auto file = test::read_spectral_table("/usr/share/colord/cmf/CIE1931-2deg-XYZ.cmf");
    ASSERT_EQ(file.rows.size(), 3u);
    for (int i = 0; i < kSpectrumCount; ++i) {
        const int nm = spectrum_wavelength_nm(i);
        EXPECT_NEAR(kObserver1931.x_bar[i], file.at(0, nm), 1e-9) << nm;
        EXPECT_NEAR(kObserver1931.y_bar[i], file.at(1, nm), 1e-9) << nm;
        EXPECT_NEAR(kObserver1931.z_bar[i], file.at(2, nm), 1e-9) << nm;
    }
}

// CIE 018: y-bar was normalised to 1 at 555 nm.
TEST(Observer, PeaksAt555) {
    const auto peak = std::max_element(kObserver1931.y_bar.v.begin(), kObserver1931.y_bar.v.end());
    EXPECT_EQ(*peak, 1);
    EXPECT_EQ(spectrum_wavelength_nm(static_cast<int>(peak - kObserver1931.y_bar.v.begin())), 555);
}

// CIE 015: the sums over 360 to 830 nm at 1 nm are 106.8655, 106.8569 and 106.8923 (from memory), a fifth of
// which the 5 nm sums approach; what lies outside 380 to 780 nm is 0.0004 of x and y and 0.007 of z.
TEST(Observer, SumsAreThoseOfCie015) {
    const auto sum = [](const Spectrum& s) { return std::accumulate(s.v.begin(), s.v.end(), 0.0); };
    EXPECT_NEAR(sum(kObserver1931.x_bar), 106.8655 / 5, 0.002);
    EXPECT_NEAR(sum(kObserver1931.y_bar), 106.8569 / 5, 0.002);
    EXPECT_NEAR(sum(kObserver1931.z_bar), 106.8923 / 5 - 0.007, 0.002);
}

}  // namespace
}  // namespace rakelight
