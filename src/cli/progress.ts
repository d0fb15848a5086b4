// Progress for whoever watches: one line that moves on a terminal, a line per 10 % elsewhere.
import type { Progress } from "../flow/simulate.js";

export interface ProgressView {
  readonly show: (progress: Progress) => void;
  /** Leaves the terminal's line clean. */
  readonly end: () => void;
}

export const SILENT: ProgressView = { show: () => {}, end: () => {} };

const EVERY = 100; // ms between two redraws

export function progressView(stream: NodeJS.WriteStream, now: () => number = () => performance.now()): ProgressView {
  return stream.isTTY ? movingLine(stream, now) : tenths(stream, now);
}

function movingLine(stream: NodeJS.WriteStream, now: () => number): ProgressView {
  const started = now();
  let last = Number.NEGATIVE_INFINITY;
  return {
    show(progress) {
      const time = now();
      if (time - last < EVERY && progress.trials !== progress.of) return;
      last = time;
      stream.write(`\r\u001b[2K${sentence(progress, time - started)}`);
    },
    end: () => {
      stream.write("\r\u001b[2K");
    },
  };
}

function tenths(stream: NodeJS.WriteStream, now: () => number): ProgressView {
  const started = now();
  let told = 0;
  return {
    show(progress) {
      if (progress.of === null) return;
      const tenth = Math.floor((10 * progress.trials) / progress.of);
      if (tenth <= told) return;
      told = tenth;
      stream.write(`${sentence(progress, now() - started)}\n`);
    },
    end: () => {},
  };
}

function sentence({ stage, trials, of }: Progress, milliseconds: number): string {
  const rate = trials / Math.max(1e-3, milliseconds / 1000);
  if (of === null) return `${stage}: ${trials} trials`;
  const left = Math.ceil((of - trials) / Math.max(1e-9, rate));
  return `${stage}: ${Math.floor((100 * trials) / of)} %, ${trials} of ${of} trials, ${Math.round(rate)} a second, ${left} s left`;
}
