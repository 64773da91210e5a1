#include "output/print/srgb_profile.h"

#include <lcms2.h>

#include <algorithm>
#include <memory>
#include <new>

namespace rakelight {

std::vector<std::uint8_t> srgb_profile() {
    const std::unique_ptr<void, decltype(&cmsCloseProfile)> profile(cmsCreate_sRGBProfile(), cmsCloseProfile);
    cmsUInt32Number size = 0;
    if (!profile || !cmsSaveProfileToMem(profile.get(), nullptr, &size)) throw std::bad_alloc();
    std::vector<std::uint8_t> bytes(size);
    if (!cmsSaveProfileToMem(profile.get(), bytes.data(), &size)) throw std::bad_alloc();
    // Date of making, six big-endian numbers from byte 24 (ICC.1:2010, 7.2.8): a fixed one, for the same
    // bytes.
    constexpr std::uint8_t kDate[12]{0x07, 0xd0, 0, 1, 0, 1};
    std::copy(std::begin(kDate), std::end(kDate), bytes.begin() + 24);
    return bytes;
}

}  // namespace rakelight
