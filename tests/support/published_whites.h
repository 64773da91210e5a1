// Chromaticities of the CIE illuminants as published, for the tests that must meet them.
// Sources: CIE 015:2018, and for D55, D75 and C CIE 15:2004, Table T.3; 2 degree observer.
#pragma once

#include <array>
#include <string_view>

#include "materials/colour/colorimetry.h"

namespace rakelight::test {

struct PublishedWhite {
    std::string_view name;
    Chromaticity white;
};

inline constexpr std::array kPublishedWhites = {
    PublishedWhite{"A", {0.44758, 0.40745}},      PublishedWhite{"C", {0.31006, 0.31616}},
    PublishedWhite{"D50", {0.34570, 0.35850}},    PublishedWhite{"D55", {0.33243, 0.34744}},
    PublishedWhite{"D65", {0.31270, 0.32900}},    PublishedWhite{"D75", {0.29903, 0.31488}},
    PublishedWhite{"E", {1.0 / 3, 1.0 / 3}},      PublishedWhite{"F2", {0.37210, 0.37510}},
    PublishedWhite{"F7", {0.31290, 0.32920}},     PublishedWhite{"F11", {0.38050, 0.37690}},
    PublishedWhite{"LED-B1", {0.4560, 0.4078}},   PublishedWhite{"LED-B2", {0.4357, 0.4012}},
    PublishedWhite{"LED-B3", {0.3756, 0.3723}},   PublishedWhite{"LED-B4", {0.3422, 0.3502}},
    PublishedWhite{"LED-B5", {0.3118, 0.3236}},   PublishedWhite{"LED-BH1", {0.4474, 0.4066}},
    PublishedWhite{"LED-RGB1", {0.4557, 0.4211}}, PublishedWhite{"LED-V1", {0.4548, 0.4044}},
    PublishedWhite{"LED-V2", {0.3781, 0.3775}},
};

}  // namespace rakelight::test
