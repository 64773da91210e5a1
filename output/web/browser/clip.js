// A clip: plays while it is in sight, a click stops it and lets it go on, dragging goes through it, arrows step.
function clipFigure(figure) {
  const video = figure.querySelector('video');
  let stopped = matchMedia('(prefers-reduced-motion: reduce)').matches;
  let from = null;
  let dragged = false;
  const play = () => video.play().catch(() => { stopped = true; });
  const stop = () => {
    stopped = true;
    video.pause();
  };
  const goTo = (share) => {
    video.currentTime = Math.min(0.999, Math.max(0, share)) * video.duration;
  };
  const drag = (event) => {
    const box = video.getBoundingClientRect();
    goTo((event.clientX - box.left) / box.width);
  };
  video.addEventListener('pointerdown', (event) => {
    video.setPointerCapture(event.pointerId);
    from = event.clientX;
    dragged = false;
  });
  video.addEventListener('pointermove', (event) => {
    if (from === null || (!dragged && Math.abs(event.clientX - from) < 4)) return;
    dragged = true;
    stop();
    drag(event);
  });
  video.addEventListener('pointerup', () => {
    from = null;
    if (dragged) return;
    stopped = !video.paused;
    if (stopped) video.pause();
    else play();
  });
  video.addEventListener('pointercancel', () => { from = null; });
  video.addEventListener('keydown', (event) => {
    const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (event.key === ' ') {
      stopped = !video.paused;
      if (stopped) video.pause();
      else play();
    } else if (step) {
      stop();
      goTo(video.currentTime / video.duration + step * (event.shiftKey ? 0.1 : 0.02));
    } else {
      return;
    }
    event.preventDefault();
  });
  video.addEventListener('timeupdate', () => {
    video.setAttribute('aria-valuenow', String(Math.round(100 * video.currentTime / video.duration)));
  });
  new IntersectionObserver((entries) => {
    const seen = entries[entries.length - 1].isIntersecting;
    if (!seen) video.pause();
    else if (!stopped) play();
  }, { threshold: 0.3 }).observe(figure);
}

