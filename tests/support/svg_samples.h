// One drawing as two dialects of vector editors write it; both by hand from SVG 1.1.
#pragma once

#include <string>
#include <string_view>

namespace rakelight {

/// A page of 100 x 80 mm with a y that is told in mm from the top left corner.
inline std::string page(std::string_view content) {
    return "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' width='100mm' "
           "height='80mm' viewBox='0 0 100 80'>\n" +
           std::string(content) + "\n</svg>";
}

/// Pixels, nested transforms, labels in a vocabulary of the editor's own. 480 x 288 px are 127 x 76.2 mm.
inline constexpr std::string_view kPixelDialect = R"svg(<?xml version="1.0" encoding="UTF-8" standalone="no"?>
<svg xmlns="http://www.w3.org/2000/svg" xmlns:draw="http://editor.example/ns" width="480" height="288" version="1.1" id="drawing1">
  <draw:view id="base" zoom="1.4"><draw:grid/></draw:view>
  <metadata id="m5"/>
  <g draw:kind="layer" id="layer1" draw:label="sea" transform="translate(0,96)">
    <g id="g12" transform="scale(2)">
      <path id="path9" style="fill:#1f4a5a;stroke:none" d="m 0,0 h 240 v 96 H 0 Z"/>
    </g>
    <path id="path10" draw:label="swell" style="fill:none;stroke:#000" d="M 0,48 C 96,0 192,96 288,48"/>
  </g>
  <g draw:kind="layer" id="layer2" draw:label="deep rock">
    <path id="path11" style="fill:#777;fill-rule:evenodd" d="M 96,24 H 192 V 84 H 96 Z M 120,36 V 72 H 168 V 36 Z"/>
    <circle id="path12" cx="0" cy="0" r="24" transform="translate(240 48)"/>
  </g>
</svg>
)svg";

/// Millimetres over a viewBox in points, style attributes, symbols, ids that encode and count.
inline constexpr std::string_view kMillimetreDialect = R"svg(<?xml version="1.0" encoding="utf-8"?>
<!-- made by hand -->
<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd" [
  <!ENTITY ns "http://www.w3.org/2000/svg">
]>
<svg version="1.1" id="Sheet_1_" xmlns="&ns;" xmlns:xlink="http://www.w3.org/1999/xlink" x="0px" y="0px"
     width="127mm" height="76.2mm" viewBox="0 0 360 216" style="margin:0;" xml:space="preserve">
<defs><symbol id="ball" viewBox="-18 -18 36 36"><circle r="18"/></symbol></defs>
<g id="sea_1_">
	<rect y="72" fill="#1F4A5A" width="360" height="144"/>
	<g id="swell_2_"><path style="fill:none;stroke:#000000;" d="M0,108c72-36,144,36,216,0"/></g>
</g>
<g id="deep_x20_rock">
	<path style="fill-rule:evenodd;fill:#777777;" d="M144,63H72V18h72V63z M126,27l-36,0,0,27h36V27z"/>
	<use xlink:href="#ball" width="36" height="36" x="162" y="18"/>
</g>
</svg>
)svg";

}  // namespace rakelight
