// The frame line of a map and the ticks along it.
import { type Frame, type Polyline, toPixel } from "./frame.js";
import { type Layer, strokedPixels } from "./layers.js";

const TICK = 4; // px
const CLOSEST = 5; // px, between ticks; finer grids show every second, third, ... line

/** Every n-th grid line, so that ticks stay separate; of lines that stand closer still, the first. */
function spread(line: readonly number[], length: number): number[] {
  const every = Math.max(1, Math.ceil((CLOSEST * line.length) / length));
  const least = (CLOSEST / length) * ((line.at(-1) ?? 0) - (line[0] ?? 0));
  let before = Number.NEGATIVE_INFINITY;
  return line.filter((value, k) => {
    if (k % every !== 0 || value - before < least) return false;
    before = value;
    return true;
  });
}

/** The frame line and, inside it, a tick at the grid lines: where points were simulated. */
export function neatline(
  frame: Frame,
  lines: { readonly d: readonly number[]; readonly p: readonly number[] },
): Layer[] {
  const { width, height } = frame;
  const across = spread(lines.d, width).flatMap((d): Polyline[] => {
    const [x] = toPixel(frame, [d, 0]);
    return [
      [
        [x, 0],
        [x, TICK],
      ],
      [
        [x, height],
        [x, height - TICK],
      ],
    ];
  });
  const up = spread(lines.p, height).flatMap((p): Polyline[] => {
    const [, y] = toPixel(frame, [0, p]);
    return [
      [
        [0, y],
        [TICK, y],
      ],
      [
        [width, y],
        [width - TICK, y],
      ],
    ];
  });
  const border: Polyline = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
    [0, 0],
  ];
  return [
    strokedPixels([...across, ...up], { role: "ink", width: 0.6 }),
    strokedPixels([border], { role: "ink", width: 1.4 }),
  ];
}
