// From linear light to what a screen can show, as output/print/tone.h: straight up to a share of white, then a shoulder;
// only luminance is bent, and a colour that no longer fits goes towards grey of its own luminance.
function printInto(pixels, light, straight) {
  const room = 1 - straight;
  for (let i = 0, p = 0; i < light.length; i += 3, p += 4) {
    const r = light[i];
    const g = light[i + 1];
    const b = light[i + 2];
    const bright = srgbToXyz[1][0] * r + srgbToXyz[1][1] * g + srgbToXyz[1][2] * b;
    pixels[p + 3] = 255;
    if (!(bright > 0)) {
      pixels[p] = pixels[p + 1] = pixels[p + 2] = 0;
      continue;
    }
    const printed = bright <= straight ? bright : 1 - room * Math.exp(-(bright - straight) / room);
    const bend = printed / bright;
    const most = Math.max(r, g, b) * bend;
    const least = Math.min(r, g, b) * bend;
    let share = 1;
    if (most > 1) share = (1 - printed) / (most - printed);
    if (least < 0) share = Math.min(share, printed / (printed - least));
    for (let c = 0; c < 3; ++c) {
      const v = printed + share * (light[i + c] * bend - printed);
      pixels[p + c] = srgbByte(v < 0 ? 0 : v > 1 ? 1 : v);
    }
  }
}
