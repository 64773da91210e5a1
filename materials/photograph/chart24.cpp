#include "materials/photograph/chart24.h"

namespace rakelight {

namespace {

// At 400 to 700 nm every 20 nm: every other value of the source.
constexpr SampledSpectrum spectrum(const std::array<float, kBandCount>& values) {
    SampledSpectrum s;
    s.v = values;
    return s;
}

}  // namespace

const std::array<ChartPatch, kChartPatches>& chart24() {
    // clang-format off
    static constexpr std::array<ChartPatch, kChartPatches> kChart{{
    {"dark skin", spectrum({.065f, .064f, .055f, .052f, .054f, .061f, .07f, .076f, .087f, .115f, .138f, .154f, .173f, .204f, .242f, .282f})},
    {"light skin", spectrum({.182f, .201f, .212f, .24f, .282f, .301f, .322f, .292f, .295f, .358f, .494f, .55f, .574f, .605f, .652f, .713f})},
    {"blue sky", spectrum({.266f, .336f, .335f, .322f, .293f, .26f, .225f, .198f, .183f, .163f, .15f, .137f, .123f, .112f, .105f, .103f})},
    {"foliage", spectrum({.05f, .05f, .054f, .061f, .067f, .078f, .155f, .177f, .137f, .122f, .104f, .098f, .097f, .095f, .125f, .247f})},
    {"blue flower", spectrum({.328f, .446f, .444f, .421f, .381f, .342f, .271f, .211f, .201f, .206f, .235f, .243f, .269f, .384f, .49f, .52f})},
    {"bluish green", spectrum({.252f, .322f, .353f, .408f, .523f, .582f, .569f, .519f, .436f, .346f, .26f, .221f, .21f, .211f, .233f, .252f})},
    {"orange", spectrum({.054f, .052f, .052f, .052f, .055f, .061f, .086f, .17f, .297f, .452f, .532f, .566f, .587f, .604f, .615f, .628f})},
    {"purplish blue", spectrum({.231f, .324f, .373f, .374f, .301f, .202f, .137f, .106f, .09f, .083f, .087f, .084f, .098f, .123f, .12f, .116f})},
    {"moderate red", spectrum({.144f, .138f, .131f, .126f, .119f, .103f, .094f, .092f, .108f, .157f, .415f, .567f, .601f, .607f, .605f, .606f})},
    {"purple", spectrum({.177f, .206f, .168f, .12f, .086f, .067f, .058f, .052f, .055f, .052f, .059f, .099f, .149f, .193f, .248f, .319f})},
    {"yellow green", spectrum({.06f, .062f, .068f, .085f, .135f, .269f, .484f, .545f, .513f, .454f, .374f, .331f, .32f, .324f, .354f, .379f})},
    {"orange yellow", spectrum({.065f, .064f, .065f, .069f, .092f, .123f, .193f, .374f, .512f, .584f, .624f, .645f, .662f, .676f, .685f, .696f})},
    {"blue", spectrum({.136f, .208f, .29f, .338f, .239f, .12f, .066f, .048f, .043f, .04f, .039f, .04f, .042f, .043f, .044f, .048f})},
    {"green", spectrum({.058f, .059f, .065f, .078f, .113f, .18f, .324f, .355f, .281f, .196f, .124f, .089f, .08f, .075f, .078f, .088f})},
    {"red", spectrum({.051f, .049f, .049f, .048f, .045f, .044f, .044f, .045f, .05f, .072f, .192f, .486f, .654f, .7f, .718f, .729f})},
    {"yellow", spectrum({.053f, .052f, .053f, .059f, .121f, .303f, .475f, .597f, .66f, .708f, .737f, .753f, .768f, .78f, .785f, .792f})},
    {"magenta", spectrum({.283f, .359f, .327f, .267f, .209f, .163f, .124f, .102f, .106f, .141f, .279f, .522f, .696f, .766f, .791f, .804f})},
    {"cyan", spectrum({.195f, .258f, .315f, .391f, .458f, .433f, .339f, .228f, .141f, .097f, .08f, .073f, .073f, .076f, .075f, .072f})},
    {"white 9.5", spectrum({.409f, .84f, .883f, .887f, .888f, .887f, .887f, .887f, .887f, .887f, .887f, .891f, .89f, .889f, .888f, .888f})},
    {"neutral 8", spectrum({.372f, .58f, .587f, .586f, .581f, .58f, .581f, .583f, .584f, .588f, .588f, .585f, .58f, .576f, .572f, .568f})},
    {"neutral 6.5", spectrum({.289f, .357f, .361f, .361f, .357f, .356f, .357f, .358f, .359f, .361f, .36f, .357f, .353f, .349f, .345f, .341f})},
    {"neutral 5", spectrum({.183f, .202f, .205f, .204f, .202f, .202f, .202f, .203f, .203f, .205f, .204f, .203f, .2f, .197f, .195f, .192f})},
    {"neutral 3.5", spectrum({.091f, .094f, .095f, .094f, .093f, .092f, .093f, .093f, .093f, .093f, .092f, .091f, .09f, .089f, .087f, .086f})},
    {"black 2", spectrum({.035f, .036f, .035f, .035f, .034f, .034f, .034f, .034f, .033f, .033f, .033f, .033f, .033f, .033f, .033f, .032f})},
    }};
    // clang-format on
    return kChart;
}

glm::dvec2 patch_side() {
    return {1 / (kChartColumns + (kChartColumns - 1) * kPatchGap),
            1 / (kChartRows + (kChartRows - 1) * kPatchGap)};
}

glm::dvec2 patch_middle(std::size_t patch) {
    const glm::dvec2 place(patch % kChartColumns, patch / kChartColumns);
    return patch_side() * (0.5 + (1 + kPatchGap) * place);
}

}  // namespace rakelight
