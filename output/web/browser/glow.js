// What a print cannot carry is spread as the eye would spread it, as output/print/eye_glare.h does, but fast enough to
// follow a dimmer: near a glint pixel by pixel, farther off, where the spread is smooth, in cells of 4 x 4 pixels.
const glowNear = [8, 18]; // pixels from the glint over which one way passes into the other
const glowCell = 4;

function glowKernel(quadrant, radius) {
  const side = radius + 1;
  const at = (x, y) => (Math.abs(x) > radius || Math.abs(y) > radius ? 0 : quadrant[Math.abs(y) * side + Math.abs(x)]);
  const far = (x, y) => {
    if (radius <= glowNear[1]) return 0;
    const t = Math.min(1, Math.max(0, (Math.hypot(x, y) - glowNear[0]) / (glowNear[1] - glowNear[0])));
    return at(x, y) * t * t * (3 - 2 * t);
  };
  const near = Math.min(radius, glowNear[1]);
  const nearWeights = new Float32Array((2 * near + 1) ** 2);
  for (let y = -near; y <= near; ++y)
    for (let x = -near; x <= near; ++x) nearWeights[(y + near) * (2 * near + 1) + x + near] = at(x, y) - far(x, y);
  // Gathering into cells and filling in between them widens the kernel by a variance of 4 pixels squared each way;
  // it is sharpened by as much, to second order.
  const reach = radius <= glowNear[1] ? 0 : Math.ceil(radius / glowCell) + 1;
  const farWeights = new Float32Array((2 * reach + 1) ** 2);
  for (let y = -reach; y <= reach; ++y)
    for (let x = -reach; x <= reach; ++x) {
      const f = (dx, dy) => far(glowCell * (x + dx), glowCell * (y + dy));
      const around = f(1, 0) + f(-1, 0) + f(0, 1) + f(0, -1);
      farWeights[(y + reach) * (2 * reach + 1) + x + reach] = 1.5 * f(0, 0) - 0.125 * around;
    }
  return { near, nearWeights, reach, farWeights };
}

// Takes what is known to be above white off every pixel; returns their numbers and the light taken. `known`: the share
// of a pixel's light that is no noise, by its number; all of it where it has none.
function takeExcess(light, known) {
  const places = [];
  const taken = [];
  for (let i = 0; i < light.length; i += 3) {
    const bright = 0.212639 * light[i] + 0.715169 * light[i + 1] + 0.072192 * light[i + 2];
    const sure = bright * (known.get(i / 3) ?? 1);
    if (!(sure > 1)) continue;
    places.push(i / 3);
    for (let c = i; c < i + 3; ++c) {
      const kept = light[c] * ((bright - sure + 1) / bright);
      taken.push(light[c] - kept);
      light[c] = kept;
    }
  }
  return { places, taken };
}

function spreadNear(light, width, height, excess, kernel) {
  const { near, nearWeights } = kernel;
  const side = 2 * near + 1;
  excess.places.forEach((place, n) => {
    const px = place % width;
    const py = (place - px) / width;
    const [r, g, b] = [excess.taken[3 * n], excess.taken[3 * n + 1], excess.taken[3 * n + 2]];
    const left = Math.max(0, px - near);
    const right = Math.min(width - 1, px + near);
    for (let y = Math.max(0, py - near); y <= Math.min(height - 1, py + near); ++y) {
      let k = (y - py + near) * side + left - px + near;
      for (let i = 3 * (y * width + left); i <= 3 * (y * width + right); i += 3) {
        const w = nearWeights[k++];
        light[i] += r * w;
        light[i + 1] += g * w;
        light[i + 2] += b * w;
      }
    }
  });
}

function spreadFar(light, width, height, excess, kernel) {
  const { reach, farWeights } = kernel;
  if (reach === 0) return;
  // One ring of cells round the picture, to fill in from at its edge.
  const columns = Math.ceil(width / glowCell) + 2;
  const rows = Math.ceil(height / glowCell) + 2;
  const gathered = new Float32Array(3 * columns * rows);
  excess.places.forEach((place, n) => {
    const px = place % width;
    const cell = (((place - px) / width / glowCell) | 0) + 1;
    const i = 3 * (cell * columns + ((px / glowCell) | 0) + 1);
    for (let c = 0; c < 3; ++c) gathered[i + c] += excess.taken[3 * n + c];
  });
  const spread = new Float32Array(gathered.length);
  const side = 2 * reach + 1;
  for (let from = 0; from < columns * rows; ++from) {
    const [r, g, b] = [gathered[3 * from], gathered[3 * from + 1], gathered[3 * from + 2]];
    if (r === 0 && g === 0 && b === 0) continue;
    const cx = from % columns;
    const cy = (from - cx) / columns;
    for (let y = Math.max(0, cy - reach); y <= Math.min(rows - 1, cy + reach); ++y)
      for (let x = Math.max(0, cx - reach); x <= Math.min(columns - 1, cx + reach); ++x) {
        const w = farWeights[(y - cy + reach) * side + x - cx + reach];
        const i = 3 * (y * columns + x);
        spread[i] += r * w;
        spread[i + 1] += g * w;
        spread[i + 2] += b * w;
      }
  }
  const middle = (glowCell - 1) / 2;
  for (let y = 0; y < height; ++y) {
    const v = (y - middle) / glowCell + 1;
    const row = Math.floor(v);
    for (let x = 0; x < width; ++x) {
      const u = (x - middle) / glowCell + 1;
      const column = Math.floor(u);
      const [s, t] = [u - column, v - row];
      const i = 3 * (row * columns + column);
      const below = i + 3 * columns;
      for (let c = 0; c < 3; ++c)
        light[3 * (y * width + x) + c] +=
          (1 - t) * ((1 - s) * spread[i + c] + s * spread[i + 3 + c]) +
          t * ((1 - s) * spread[below + c] + s * spread[below + 3 + c]);
    }
  }
}

function spreadGlare(light, width, height, kernel, known) {
  const excess = takeExcess(light, known);
  if (excess.places.length === 0) return;
  spreadNear(light, width, height, excess, kernel);
  spreadFar(light, width, height, excess, kernel);
}
