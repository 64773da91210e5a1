// A binary PPM of 8 bits (netpbm), as the programs that look at photographs are given it.
#pragma once

#include <fstream>
#include <opencv2/imgproc.hpp>
#include <stdexcept>
#include <string>

namespace rakelight {

/// Blue, green, red. \throws std::runtime_error with what was expected.
inline cv::Mat read_ppm(const char* file) {
    std::ifstream in(file, std::ios::binary);
    std::string kind;
    int width = 0, height = 0, top = 0;
    in >> kind >> width >> height >> top;
    in.get();
    if (!in || kind != "P6" || top != 255 || width < 1 || height < 1 || width > 100000 || height > 100000)
        throw std::runtime_error("expected a PPM of 8 bits");
    cv::Mat rgb(height, width, CV_8UC3), bgr;
    in.read(reinterpret_cast<char*>(rgb.data), static_cast<std::streamsize>(rgb.total() * 3));
    if (!in) throw std::runtime_error("expected more pixels");
    cv::cvtColor(rgb, bgr, cv::COLOR_RGB2BGR);
    return bgr;
}

}  // namespace rakelight
