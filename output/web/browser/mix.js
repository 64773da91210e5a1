// A picture whose lamps can still be dimmed: layers of linear light, summed and printed anew.
class DimmedSum {
  constructor(sheet, layers) {
    this.sheet = sheet;
    this.layers = layers;
    this.sum = new Float32Array(3 * sheet.width * sheet.height);
    this.toRoom = inverse(sheet.toPrint);
    if (sheet.glow) {
      const floats = new Float32Array(bytesOf(sheet.glow.weights).buffer);
      this.kernel = glowKernel(floats, sheet.glow.radius);
      this.known = new Map(sheet.glow.known);
    }
  }

  static async of(sheet) {
    const layers = [];
    for (const group of sheet.groups) layers.push(await unpackLayer(group.layer, sheet));
    return new DimmedSum(sheet, layers);
  }

  // Prints with each group at its share of full light; `stops` brightens the print, not the room.
  paint(pixels, shares, stops) {
    const sum = this.sum.fill(0);
    this.layers.forEach((layer, g) => {
      const weight = shares[g] * Math.pow(2, stops);
      if (weight > 0) for (let i = 0; i < sum.length; ++i) sum[i] += weight * layer[i];
    });
    if (this.kernel) spreadGlare(sum, this.sheet.width, this.sheet.height, this.kernel, this.known);
    printInto(pixels, sum, this.sheet.straight);
  }

  // XYZ in cd/m2 of a pixel, as it is in the room: no exposure, no glow.
  lightAt(x, y, shares) {
    const i = 3 * (y * this.sheet.width + x);
    const print = [0, 1, 2].map((c) => this.layers.reduce((sum, layer, g) => sum + shares[g] * layer[i + c], 0));
    return times(this.toRoom, print);
  }

  // Light on the panel, XYZ in lux.
  onPanel(shares) {
    return [0, 1, 2].map((c) => this.sheet.groups.reduce((sum, group, g) => sum + shares[g] * group.lux[c], 0));
  }
}
