// Two cells of a board laid over each other: a line to drag across them, or one and the other in turn.
function boardFigure(figure) {
  const buttons = [...figure.querySelectorAll('.cells button')];
  const compare = figure.querySelector('.compare');
  const [under, over] = compare.querySelectorAll('img');
  const line = compare.querySelector('.line');
  const [first, second] = figure.querySelectorAll('select');
  const blink = figure.querySelector('.blink');
  const names = figure.querySelectorAll('.names .name');
  const numbers = figure.querySelectorAll('.names .numbers');
  let place = 50;
  let timer = 0;
  let shown = 0; // while blinking: which of the two

  function moveTo(percent) {
    place = Math.min(100, Math.max(0, percent));
    line.style.left = `${place}%`;
    line.setAttribute('aria-valuenow', Math.round(place));
    line.setAttribute('aria-valuetext', `${Math.round(place)} % of the first cell`);
    draw();
  }
  function draw() {
    const cut = timer ? (shown === 0 ? 0 : 100) : 100 - place;
    over.style.clipPath = `inset(0 ${cut}% 0 0)`;
    line.hidden = timer !== 0;
    names[0].style.opacity = timer && shown === 1 ? 0.25 : 1;
    names[1].style.opacity = timer && shown === 0 ? 0.25 : 1;
    figure.dataset.shown = timer ? String(shown + 1) : 'both';
  }
  const choose = () => showPair(buttons, [
    { select: first, image: over, name: names[0], numbers: numbers[0] },
    { select: second, image: under, name: names[1], numbers: numbers[1] },
  ]);
  function setBlink(on) {
    clearInterval(timer);
    timer = on ? setInterval(() => { shown = 1 - shown; draw(); }, 700) : 0;
    shown = 0;
    blink.setAttribute('aria-pressed', String(on));
    draw();
  }
  placeByClicks(buttons, [first, second], choose);
  const percentAt = (event) => shareAcross(compare, event) * 100;
  compare.addEventListener('pointerdown', (event) => {
    if (timer) return;
    compare.setPointerCapture(event.pointerId);
    line.focus({ preventScroll: true });
    event.preventDefault();
    moveTo(percentAt(event));
  });
  const read = boardReading(figure, over);
  compare.addEventListener('pointermove', (event) => {
    if (compare.hasPointerCapture(event.pointerId)) moveTo(percentAt(event));
    read(event, (timer ? shown === 0 : percentAt(event) <= place) ? over : under);
  });
  line.addEventListener('keydown', (event) => {
    const step = event.shiftKey ? 10 : 2;
    const to = { ArrowLeft: place - step, ArrowRight: place + step, Home: 0, End: 100 }[event.key];
    if (to !== undefined) {
      event.preventDefault();
      moveTo(to);
    }
  });
  compare.addEventListener('keydown', (event) => {
    if (event.key === 'b') setBlink(timer === 0);
  });
  blink.addEventListener('click', () => setBlink(timer === 0));
  figure.querySelector('.at-work').hidden = false;
  choose();
  moveTo(50);
}

// Shows the chosen cells with their names and figures, and marks them among the buttons.
function showPair(buttons, sides) {
  const cells = sides.map(({ select }) => buttons[Number(select.value)]);
  sides.forEach(({ image, name, numbers }, n) => {
    image.src = cells[n].querySelector('img').src;
    image.alt = cells[n].querySelector('img').alt;
    name.textContent = cells[n].dataset.label;
    numbers.textContent = cells[n].dataset.numbers;
  });
  buttons.forEach((b) => {
    b.dataset.at = ['first', 'second'][cells.indexOf(b)] || '';
    b.setAttribute('aria-pressed', String(cells.includes(b)));
  });
}

// How far along the width of an element a pointer is, 0 to 1 within it.
function shareAcross(element, event) {
  const box = element.getBoundingClientRect();
  return (event.clientX - box.left) / box.width;
}

// Tells the print under a pointer over `place`, from the picture that is seen there.
function boardReading(figure, place) {
  const reading = figure.querySelector('.reading');
  const contexts = new Map();
  return (event, image) => {
    const box = place.getBoundingClientRect();
    const x = Math.floor(shareAcross(place, event) * image.naturalWidth);
    const y = Math.floor(((event.clientY - box.top) / box.height) * image.naturalHeight);
    if (x < 0 || y < 0 || x >= image.naturalWidth || y >= image.naturalHeight) return;
    if (!contexts.has(image.src)) contexts.set(image.src, pixelsOf(image));
    reading.textContent = printWords(contexts.get(image.src), x, y, Number(figure.dataset.white));
  };
}

// A click puts the cell on the side that was not put last.
function placeByClicks(buttons, sides, choose) {
  let next = 1;
  buttons.forEach((button, n) =>
    button.addEventListener('click', () => {
      sides[next].value = n;
      next = 1 - next;
      choose();
    }));
  sides.forEach((select) => select.addEventListener('change', choose));
}
