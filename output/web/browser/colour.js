// Colour as numbers: the same formulas as materials/colour/colorimetry.h (IEC 61966-2-1, ISO/CIE 11664-4).
const srgbToXyz = [
  [0.4123908, 0.3575843, 0.1804808],
  [0.212639, 0.7151687, 0.0721923],
  [0.0193308, 0.1191948, 0.9505322],
];
const paperWhite = [0.9504559, 1, 1.0890578];

function times(matrix, v) {
  return matrix.map((row) => row[0] * v[0] + row[1] * v[1] + row[2] * v[2]);
}

function inverse(m) {
  const minor = (r, c) => {
    const rows = [0, 1, 2].filter((i) => i !== r);
    const columns = [0, 1, 2].filter((i) => i !== c);
    const sign = (r + c) % 2 ? -1 : 1;
    return sign * (m[rows[0]][columns[0]] * m[rows[1]][columns[1]] - m[rows[0]][columns[1]] * m[rows[1]][columns[0]]);
  };
  const whole = m[0][0] * minor(0, 0) + m[0][1] * minor(0, 1) + m[0][2] * minor(0, 2);
  return [0, 1, 2].map((r) => [0, 1, 2].map((c) => minor(c, r) / whole));
}

function encodeSrgb(v) {
  return v <= 0.0031308 ? 12.92 * v : 1.055 * Math.pow(v, 1 / 2.4) - 0.055;
}

function decodeSrgb(v) {
  return v <= 0.04045 ? v / 12.92 : Math.pow((v + 0.055) / 1.055, 2.4);
}

// Linear light 0..1 to a byte, by a table fine enough that no byte is off by rounding of the table.
const srgbByte = (() => {
  const steps = 16384;
  const table = new Float32Array(steps + 2);
  for (let i = 0; i <= steps + 1; ++i) table[i] = 255 * encodeSrgb(i / steps) + 0.5;
  return (v) => {
    const place = v * steps;
    const i = place | 0;
    return (table[i] + (table[i + 1] - table[i]) * (place - i)) | 0;
  };
})();

function lab(xyz, white) {
  const f = xyz.map((v, i) => {
    const t = v / white[i];
    return t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116;
  });
  return [116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])];
}

function labOfBytes(bytes) {
  return lab(times(srgbToXyz, bytes.map((b) => decodeSrgb(b / 255))), paperWhite);
}

function signed(value, digits) {
  const text = Math.abs(value).toFixed(digits);
  return (value < 0 && Number(text) !== 0 ? '\u2212' : '') + text;
}

function labWords(c) {
  return `L* ${signed(c[0], 1)}  a* ${signed(c[1], 1)}  b* ${signed(c[2], 1)}`;
}

// A number with so many figures, written out.
function figures(value, count) {
  return String(Number(value.toPrecision(count)));
}
