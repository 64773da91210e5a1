// Wakes the page: figures as they come into sight, the switch between light and dark, thumbnails.
function remembered(key, value) {
  try {
    if (value !== undefined) localStorage.setItem(key, value);
    return localStorage.getItem(key);
  } catch {
    return null; // a browser may refuse to remember for a file
  }
}

function themeSwitch(button) {
  const dark = () => {
    const chosen = document.documentElement.dataset.theme;
    return chosen ? chosen === 'dark' : matchMedia('(prefers-color-scheme: dark)').matches;
  };
  const tell = () => {
    button.textContent = dark() ? 'Light page' : 'Dark page';
  };
  const kept = remembered('room');
  if (kept === 'light' || kept === 'dark') document.documentElement.dataset.theme = kept;
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', tell);
  button.addEventListener('click', () => {
    document.documentElement.dataset.theme = dark() ? 'light' : 'dark';
    remembered('room', document.documentElement.dataset.theme);
    tell();
  });
  button.hidden = false;
  tell();
}

function enlarge(figure) {
  const button = figure.querySelector('.enlarge');
  if (!button) return;
  button.hidden = false;
  button.addEventListener('click', () => {
    const on = figure.classList.toggle('large');
    button.setAttribute('aria-pressed', String(on));
  });
}

function showStill(figure, excuse) {
  const image = figure.querySelector('img');
  const reading = figure.querySelector('.reading');
  image.tabIndex = 0;
  if (excuse) reading.textContent = excuse;
  readStill(image, reading, Number(figure.dataset.white));
}

// The element that takes a key for a figure, or none.
function takerOf(key, figure) {
  if (/^[1-9]$/.test(key)) return figure.querySelector('canvas');
  if (key === 'b') return figure.querySelector('.compare');
  if (key === 'ArrowLeft' || key === 'ArrowRight') return figure.querySelector('.line, canvas, video, .stage img');
  return null;
}

// Keys that work without a picture in focus go to the one in the middle of the window. Up and down stay the
// page's own, arrows on a slider the slider's.
function keysFromEverywhere(figures) {
  const distance = (figure) => {
    const box = figure.getBoundingClientRect();
    return Math.max(box.top - innerHeight / 2, innerHeight / 2 - box.bottom, 0);
  };
  const inView = () => figures.reduce((best, figure) => (distance(figure) < distance(best) ? figure : best));
  const own = '.compare, canvas, img, select, input:not([type=checkbox]):not([type=range])';
  document.addEventListener('keydown', (event) => {
    if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey || figures.length === 0) return;
    const free = event.target === document.body || event.target === document.documentElement;
    const step = { n: 1, p: -1 }[event.key];
    if (step && !event.target.matches('select')) {
      const to = figures.indexOf(inView()) + step;
      figures[Math.min(figures.length - 1, Math.max(0, to))].scrollIntoView({ block: 'center' });
      return;
    }
    if (!free && (event.target.closest(own) || event.key.startsWith('Arrow'))) return;
    const taker = takerOf(event.key, inView());
    if (!taker) return;
    taker.dispatchEvent(new KeyboardEvent('keydown', { key: event.key, shiftKey: event.shiftKey, cancelable: true }));
    event.preventDefault();
  });
}

function start() {
  const excuse = 'This browser cannot dim the lamps of this picture; a newer one can.';
  themeSwitch(document.querySelector('.room'));
  document.querySelectorAll('nav a').forEach((link) => {
    const image = document.querySelector(`${link.hash} img`);
    if (!image) return;
    const thumbnail = new Image();
    thumbnail.src = image.src;
    thumbnail.alt = '';
    link.prepend(thumbnail);
  });
  const wakes = new Map();
  const seen = new IntersectionObserver((entries) => {
    for (const entry of entries) {
      if (!entry.isIntersecting) continue;
      seen.unobserve(entry.target);
      wakes.get(entry.target)().catch(() => showStill(entry.target, excuse));
    }
  }, { rootMargin: '50%' });
  document.querySelectorAll('figure').forEach((figure) => {
    if (figure.classList.contains('clip')) {
      clipFigure(figure);
      return;
    }
    enlarge(figure);
    if (figure.dataset.light && typeof DecompressionStream === 'function') {
      wakes.set(figure, lightFigure(figure));
      seen.observe(figure);
    } else if (figure.classList.contains('board')) {
      boardFigure(figure);
    } else {
      showStill(figure, figure.dataset.light ? excuse : '');
    }
  });
  keysFromEverywhere([...document.querySelectorAll('figure')]);
  document.documentElement.dataset.ready = 'yes';
}

start();
