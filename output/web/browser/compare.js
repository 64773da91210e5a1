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
  const reading = figure.querySelector('.reading');
  const contexts = new Map();
  let place = 50;
  let timer = 0;
  let shown = 0; // while blinking: which of the two

  const cellOf = (select) => buttons[Number(select.value)];
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
  function choose() {
    [[first, over, 0], [second, under, 1]].forEach(([select, image, n]) => {
      const cell = cellOf(select);
      image.src = cell.querySelector('img').src;
      image.alt = cell.querySelector('img').alt;
      image.dataset.white = cell.dataset.white;
      names[n].textContent = cell.dataset.label;
      numbers[n].textContent = cell.dataset.numbers;
    });
    buttons.forEach((b) => {
      const at = b === cellOf(first) ? 'first' : b === cellOf(second) ? 'second' : '';
      b.dataset.at = at;
      b.setAttribute('aria-pressed', String(at !== ''));
    });
  }
  function setBlink(on) {
    clearInterval(timer);
    timer = on ? setInterval(() => { shown = 1 - shown; draw(); }, 700) : 0;
    shown = 0;
    blink.setAttribute('aria-pressed', String(on));
    draw();
  }

  // A click puts the cell on the side that was not put last.
  let next = 1;
  buttons.forEach((button, n) =>
    button.addEventListener('click', () => {
      (next === 0 ? first : second).value = n;
      next = 1 - next;
      choose();
    }));
  [first, second].forEach((select) => select.addEventListener('change', choose));

  const percentAt = (event) => {
    const box = compare.getBoundingClientRect();
    return ((event.clientX - box.left) / box.width) * 100;
  };
  compare.addEventListener('pointerdown', (event) => {
    if (timer) return;
    compare.setPointerCapture(event.pointerId);
    line.focus({ preventScroll: true });
    event.preventDefault();
    moveTo(percentAt(event));
  });
  compare.addEventListener('pointermove', (event) => {
    if (compare.hasPointerCapture(event.pointerId)) moveTo(percentAt(event));
    const box = over.getBoundingClientRect();
    const image = (timer ? shown === 0 : percentAt(event) <= place) ? over : under;
    const x = Math.floor(((event.clientX - box.left) / box.width) * image.naturalWidth);
    const y = Math.floor(((event.clientY - box.top) / box.height) * image.naturalHeight);
    if (x < 0 || y < 0 || x >= image.naturalWidth || y >= image.naturalHeight) return;
    if (!contexts.has(image.src)) contexts.set(image.src, pixelsOf(image));
    reading.textContent = printWords(contexts.get(image.src), x, y, Number(image.dataset.white));
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
