// The light of lamp groups as it was packed by output/web/light_layers.h, back to XYZ in cd/m2.
function bytesOf(id) {
  const text = atob(document.getElementById(id).textContent.trim());
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; ++i) bytes[i] = text.charCodeAt(i);
  return bytes;
}

async function inflated(bytes) {
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

// One plane of codes from its differences.
function codesOf(bytes, start, width, count) {
  const codes = new Uint16Array(count);
  for (let i = 0; i < count; ++i) {
    const zigzag = bytes[start + i] | (bytes[start + count + i] << 8);
    const difference = zigzag & 1 ? -((zigzag + 1) >> 1) : zigzag >> 1;
    const left = i % width > 0;
    const above = i >= width;
    let foretold = 0;
    if (left && above) foretold = (codes[i - 1] + codes[i - width]) >> 1;
    else if (left || above) foretold = left ? codes[i - 1] : codes[i - width];
    codes[i] = foretold + difference;
  }
  return codes;
}

function scaleOf(scale) {
  const values = new Float64Array(32768);
  for (let code = 1; code < values.length; ++code) values[code] = Math.pow(2, (code - scale.zero) / scale.steps);
  return values;
}

// Light of one group in the print's own terms: red, green and blue of each pixel, white = 1, before it is bent.
async function unpackLayer(id, sheet) {
  const bytes = await inflated(bytesOf(id));
  const count = sheet.width * sheet.height;
  const [luminances, across, along] = [0, 1, 2].map((k) => codesOf(bytes, 2 * count * k, sheet.width, count));
  const luminance = scaleOf(sheet.luminance);
  const ratio = scaleOf(sheet.ratio);
  const m = sheet.toPrint;
  const light = new Float32Array(3 * count);
  for (let i = 0; i < count; ++i) {
    const y = luminance[luminances[i]];
    const x = y * ratio[across[i]];
    const z = y * ratio[along[i]];
    for (let c = 0; c < 3; ++c) light[3 * i + c] = m[c][0] * x + m[c][1] * y + m[c][2] * z;
  }
  return light;
}
