// What the camera in the nose would see of the world: a horizon over a field, turning and rising as the craft does.
import { draw } from "../dom.js";
import type { Horizon } from "./attitude.js";

const [WIDTH, HEIGHT] = [320, 240]; // px
const FOCAL = WIDTH / 2; // px: a picture 90 degrees wide
const FAR = 1200; // px, beyond every edge
const FURROWS = Object.freeze([0.12, 0.3, 0.65, 1.4]); // of the focal length below the horizon
const CLOUDS = Object.freeze([0.3, 0.8, 1.8, 4]); // and above it
const ROWS = Object.freeze([-6, -3, -1.2, 0, 1.2, 3, 6]); // across over down, of lines that run to the horizon

export interface Camera {
  readonly svg: SVGSVGElement;
  readonly show: (horizon: Horizon) => void;
}

export function camera(): Camera {
  const world = draw(
    "g",
    {},
    draw("rect", { class: "sky", x: -FAR, y: -2 * FAR, width: 2 * FAR, height: 2 * FAR }),
    draw("rect", { class: "field", x: -FAR, y: 0, width: 2 * FAR, height: 2 * FAR }),
    ...ROWS.map((slope) => draw("path", { class: "furrow", d: `M0,0L${slope * FAR},${FAR}` })),
    ...FURROWS.map((down) => draw("path", { class: "furrow", d: `M${-FAR},${down * FOCAL}H${FAR}` })),
    ...CLOUDS.map((up) => draw("path", { class: "cloud", d: `M${-FAR},${-up * FOCAL}H${FAR}` })),
    draw("path", { class: "horizon", d: `M${-FAR},0H${FAR}` }),
  );
  const nose = draw("circle", { class: "nose", r: 5 });
  const svg = draw(
    "svg",
    { class: "camera-view", viewBox: `${-WIDTH / 2} ${-HEIGHT / 2} ${WIDTH} ${HEIGHT}`, "aria-hidden": "true" },
    world,
    nose,
  );
  return {
    svg,
    show({ turn, below }) {
      const offset = Math.min(FAR, Math.max(-FAR, FOCAL * below));
      world.setAttribute(
        "transform",
        `rotate(${((180 / Math.PI) * turn).toFixed(2)}) translate(0,${offset.toFixed(2)})`,
      );
    },
  };
}
