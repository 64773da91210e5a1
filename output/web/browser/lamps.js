// A picture with its lamps beside it: a switch and a dimmer for each.
function lampRow(group, number) {
  const row = document.createElement('div');
  row.className = 'lamp';
  const id = `${group.layer}-dimmer`;
  row.innerHTML =
    `<label class="switch"><input type="checkbox" checked><span></span></label>` +
    `<input type="range" id="${id}" min="0" max="100" step="1" value="100"><output for="${id}">100 %</output>`;
  row.querySelector('span').textContent = group.name;
  const [check, range] = row.querySelectorAll('input');
  check.setAttribute('aria-label', `${group.name} on`);
  check.title = `Key ${number}`;
  range.setAttribute('aria-label', `${group.name}, share of full light`);
  return { row, check, range, output: row.querySelector('output') };
}

function exposureRow(id) {
  const row = document.createElement('div');
  row.className = 'lamp exposure';
  row.innerHTML =
    `<label for="${id}">Exposure</label>` +
    `<input type="range" id="${id}" min="-4" max="8" step="0.1" value="0"><output for="${id}">as printed</output>`;
  return { row, range: row.querySelector('input'), output: row.querySelector('output') };
}

// The canvas that takes the place of a picture.
function lightCanvas(sheet, image) {
  const canvas = document.createElement('canvas');
  canvas.width = sheet.width;
  canvas.height = sheet.height;
  canvas.tabIndex = 0;
  canvas.setAttribute('role', 'img');
  canvas.setAttribute('aria-label', image.alt);
  return canvas;
}

// Fills a panel with a row for each lamp, one for the exposure, the light on the work and a button.
function lampPanel(panel, sheet, id) {
  const rows = sheet.groups.map((group, g) => lampRow(group, g + 1));
  const exposure = exposureRow(`${id}-exposure`);
  const total = document.createElement('p');
  total.className = 'total';
  const full = document.createElement('button');
  full.type = 'button';
  full.textContent = 'As printed';
  panel.append(...rows.map((r) => r.row), exposure.row, total, full);
  return { rows, exposure, total, full };
}

// Sets the lamps by their rows, the button and the keys, and says when something changed.
function listenToLamps({ rows, exposure, full }, canvas, changed) {
  rows.forEach((r) => {
    r.check.addEventListener('change', changed);
    r.range.addEventListener('input', () => {
      r.check.checked = true;
      changed();
    });
  });
  exposure.range.addEventListener('input', changed);
  full.addEventListener('click', () => {
    rows.forEach((r) => {
      r.check.checked = true;
      r.range.value = 100;
    });
    exposure.range.value = 0;
    changed();
  });
  canvas.addEventListener('keydown', (event) => {
    const row = rows[Number(event.key) - 1];
    if (!row || event.ctrlKey || event.altKey || event.metaKey) return;
    row.check.checked = !row.check.checked;
    changed();
  });
}

function lightFigure(figure) {
  const sheet = JSON.parse(document.getElementById(figure.dataset.light).textContent);
  const image = figure.querySelector('img');
  const panel = figure.querySelector('.lamps');
  const reading = figure.querySelector('.reading');
  const canvas = lightCanvas(sheet, image);
  const controls = lampPanel(panel, sheet, figure.dataset.light);
  const { rows, exposure, total } = controls;
  const shares = () => rows.map((r) => (r.check.checked ? Number(r.range.value) / 100 : 0));
  let mix = null;
  let waiting = false;
  let readAgain = () => {};
  const context = canvas.getContext('2d', { willReadFrequently: true });
  const picture = context.createImageData(sheet.width, sheet.height);

  function paint() {
    waiting = false;
    const began = performance.now();
    mix.paint(picture.data, shares(), Number(exposure.range.value));
    context.putImageData(picture, 0, 0);
    figure.dataset.milliseconds = (performance.now() - began).toFixed(0);
    figure.dataset.painted = String(Number(figure.dataset.painted || 0) + 1);
    readAgain();
  }

  function changed() {
    rows.forEach((r) => {
      r.output.textContent = r.check.checked ? `${r.range.value} %` : 'off';
      r.row.classList.toggle('off', !r.check.checked);
    });
    const stops = Number(exposure.range.value);
    exposure.output.textContent = stops === 0 ? 'as printed' : `${stops > 0 ? '+' : ''}${signed(stops, 1)} EV`;
    if (!mix) return;
    total.textContent = `${Math.round(mix.onPanel(shares())[1])} lx on the panel`;
    if (!waiting) requestAnimationFrame(paint);
    waiting = true;
  }

  listenToLamps(controls, canvas, changed);

  return async function wake() {
    mix = await DimmedSum.of(sheet);
    image.replaceWith(canvas);
    panel.hidden = false;
    readAgain = attachReading(canvas, reading, () => sheet, (x, y) => {
      const light = mix.lightAt(x, y, shares());
      const white = mix.onPanel(shares()).map((lux) => lux / Math.PI);
      const luminance = `${figures(light[1], 3)} cd/m\u00b2`;
      return white.every((w) => w > 0) ? `${luminance}   ${labWords(lab(light, white))} against white card` : luminance;
    });
    changed();
  };
}
