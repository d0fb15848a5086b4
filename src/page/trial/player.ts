// Plays back a trial when the reader asks for it. Where the system is set to reduced motion there is the slider alone.

export interface Player {
  /** Loads a trial of a length in seconds; starts at 0, paused. */
  readonly load: (duration: number) => void;
}

interface Parts {
  readonly button: HTMLButtonElement;
  readonly slider: HTMLInputElement;
  readonly pace: HTMLSelectElement;
  readonly stillNote: HTMLElement;
}

export function player({ button, slider, pace, stillNote }: Parts, onMoment: (time: number) => void): Player {
  const still = window.matchMedia("(prefers-reduced-motion: reduce)");
  let running = false;
  let before = 0;
  const set = (time: number) => {
    slider.value = String(time);
    slider.setAttribute("aria-valuetext", `${time.toFixed(2)} s`);
    onMoment(time);
  };
  const stop = () => {
    running = false;
    button.textContent = "Play";
  };
  const frame = (now: number) => {
    if (!running) return;
    const next = Number(slider.value) + ((now - before) / 1000) * Number(pace.value);
    before = now;
    set(Math.min(next, Number(slider.max)));
    if (next >= Number(slider.max)) stop();
    else requestAnimationFrame(frame);
  };
  const respect = () => {
    button.hidden = still.matches;
    stillNote.hidden = !still.matches;
    if (still.matches) stop();
  };
  button.addEventListener("click", () => {
    if (running) return stop();
    if (Number(slider.value) >= Number(slider.max)) set(0);
    running = true;
    button.textContent = "Pause";
    before = performance.now();
    requestAnimationFrame(frame);
  });
  slider.addEventListener("input", () => {
    stop();
    set(Number(slider.value));
  });
  still.addEventListener("change", respect);
  respect();
  return {
    load(duration) {
      stop();
      slider.max = String(duration);
      set(0);
    },
  };
}
