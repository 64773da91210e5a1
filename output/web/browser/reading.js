// What is under the pointer, in numbers. With the picture in focus, arrow keys move the point.
function attachReading(surface, output, size, words) {
  const mark = document.createElement('span');
  mark.className = 'mark';
  mark.hidden = true;
  surface.parentElement.append(mark);
  let point = null;

  function show(next, marked) {
    point = { x: Math.min(size().width - 1, Math.max(0, next.x)), y: Math.min(size().height - 1, Math.max(0, next.y)) };
    mark.hidden = !marked;
    mark.style.left = `${surface.offsetLeft + ((point.x + 0.5) / size().width) * surface.offsetWidth}px`;
    mark.style.top = `${surface.offsetTop + ((point.y + 0.5) / size().height) * surface.offsetHeight}px`;
    output.textContent = words(point.x, point.y);
  }

  const follow = (event) => {
    const box = surface.getBoundingClientRect();
    show({ x: Math.floor(((event.clientX - box.left) / box.width) * size().width),
           y: Math.floor(((event.clientY - box.top) / box.height) * size().height) }, event.pointerType !== 'mouse');
  };
  surface.addEventListener('pointermove', follow);
  surface.addEventListener('pointerdown', follow);
  surface.addEventListener('keydown', (event) => {
    const step = event.shiftKey ? 10 : 1;
    const move = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] }[event.key];
    if (!move) return;
    event.preventDefault();
    const from = point || { x: size().width >> 1, y: size().height >> 1 };
    show({ x: from.x + move[0], y: from.y + move[1] }, true);
  });
  surface.addEventListener('blur', () => (mark.hidden = true));
  return () => point && (output.textContent = words(point.x, point.y));
}

// The bytes of an image that is shown, read once.
function pixelsOf(image) {
  const canvas = document.createElement('canvas');
  canvas.width = image.naturalWidth;
  canvas.height = image.naturalHeight;
  const context = canvas.getContext('2d', { willReadFrequently: true });
  context.drawImage(image, 0, 0);
  return context;
}

// Luminance of the room from that of a print, straightened again; a print hides how bright its whites were.
function roomLuminanceWords(printed, white) {
  const straight = 0.8;
  const room = 1 - straight;
  if (printed > 0.98) return `over ${figures(white * (straight - room * Math.log(0.1)), 2)} cd/m\u00b2   `;
  const light = printed <= straight ? printed : straight - room * Math.log((1 - printed) / room);
  return `about ${figures(white * light, 2)} cd/m\u00b2   `;
}

// `white`: luminance that prints as white, cd/m2; 0 where a picture shows no light of a room.
function printWords(context, x, y, white) {
  const bytes = [...context.getImageData(x, y, 1, 1).data].slice(0, 3);
  const hex = bytes.map((b) => b.toString(16).padStart(2, '0')).join('');
  const printed = times(srgbToXyz, bytes.map((b) => decodeSrgb(b / 255)))[1];
  return `${white > 0 ? roomLuminanceWords(printed, white) : ''}${labWords(labOfBytes(bytes))} in print  #${hex}`;
}

// Reads a still picture.
function readStill(image, output, white) {
  let context = null;
  attachReading(image, output, () => ({ width: image.naturalWidth, height: image.naturalHeight }), (x, y) => {
    context = context || pixelsOf(image);
    return printWords(context, x, y, white);
  });
}
