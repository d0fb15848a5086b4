// Progress of a run: one line that is redrawn on a terminal, a line per 10 % elsewhere.
import type { Progress } from "../flow/tracked-runs.js";

export interface ProgressView {
  show(progress: Progress): void;
  /** Prints a line that stays. */
  note(line: string): void;
  /** Leaves the terminal's line clean. */
  end(): void;
}

const EVERY = 100; // ms between two redraws
/** What begins each redraw, and the only control sequence ever written. */
export const CLEAR_LINE = "\r\u001b[2K";

/** Shows no progress; notes are printed all the same. */
export const noProgressView = (stream: NodeJS.WriteStream): ProgressView => ({
  show() {},
  note(line) {
    stream.write(`${line}\n`);
  },
  end() {},
});

/** A terminal that calls itself dumb can only be written on line by line. */
export function progressView(
  stream: NodeJS.WriteStream,
  now: () => number = () => performance.now(),
  terminal = process.env.TERM,
): ProgressView {
  return stream.isTTY && terminal !== "dumb" ? movingLine(stream, now) : tenths(stream, now);
}

function movingLine(stream: NodeJS.WriteStream, now: () => number): ProgressView {
  const started = now();
  let last = Number.NEGATIVE_INFINITY;
  return {
    show(progress) {
      const time = now();
      if (time - last < EVERY && progress.trials !== progress.of) return;
      last = time;
      stream.write(`${CLEAR_LINE}${sentence(progress, time - started)}`);
    },
    note(line) {
      stream.write(`${CLEAR_LINE}${line}\n`);
    },
    end() {
      stream.write(CLEAR_LINE);
    },
  };
}

function tenths(stream: NodeJS.WriteStream, now: () => number): ProgressView {
  const started = now();
  const show = perTenth((progress) => stream.write(`${sentence(progress, now() - started)}\n`));
  return { ...noProgressView(stream), show };
}

/** Lets through what is a tenth further than all before. */
export function perTenth(show: (progress: Progress) => void): ProgressView["show"] {
  let lastTenth = 0;
  return (progress) => {
    if (progress.of === null) return;
    const tenth = Math.floor((10 * progress.trials) / progress.of);
    if (tenth <= lastTenth) return;
    lastTenth = tenth;
    show(progress);
  };
}

function sentence({ stage, trials, cached, of }: Progress, milliseconds: number): string {
  if (of === null) return `${stage}: ${trials} trials`;
  const parts = [`${stage}: ${Math.floor((100 * trials) / of)} %`, `${trials} of ${of} trials`];
  if (cached > 0) parts.push(`${cached} of them cached`);
  const rate = (trials - cached) / Math.max(1e-3, milliseconds / 1000);
  if (rate > 0)
    parts.push(`${Math.round(rate)} a second`, `${Math.ceil((of - trials) / rate)} s left for the ${stage}`);
  return parts.join(", ");
}
