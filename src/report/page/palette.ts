// The colours of the page and its figures: paper and ink, shore and ground. A test checks every pair that carries text against
// WCAG 2.2 AA; verdicts differ in lightness as well as in hue, and carry marks besides.
import type { Role } from "../../charts/ink.js";

type Palette = Readonly<Record<Role, string>>;

export const LIGHT: Palette = Object.freeze({
  paper: "#f3ecdb",
  sheet: "#fbf7ec",
  ink: "#25281f",
  soft: "#5a5743",
  rule: "#cdc19f",
  contour: "#7b3f15",
  warn: "#a3241c",
  clean: "#e9eed2",
  safe: "#c4dba3",
  avoid: "#d8cfbf",
  loose: "#abd0d6",
  ringing: "#e9c877",
  hot: "#d98b62",
  sustained: "#766e7e",
  "clean-mark": "#98aa6e",
  "loose-mark": "#3f7f8e",
  "ringing-mark": "#8a6413",
  "hot-mark": "#a4502c",
  "sustained-mark": "#b0a8b9",
  "letter-on-sustained": "#ffffff",
  "tint-0": "#f7f1df",
  "tint-1": "#ead9b0",
  "tint-2": "#dcc08a",
  "tint-3": "#c9a06a",
  "tint-4": "#ad7f52",
  "tint-5": "#8b6045",
  "tint-6": "#664538",
});

export const DARK: Palette = Object.freeze({
  paper: "#161a18",
  sheet: "#1e2421",
  ink: "#efe8d6",
  soft: "#b9b39d",
  rule: "#47493c",
  contour: "#f0b183",
  warn: "#ff9a86",
  clean: "#333d2b",
  safe: "#456336",
  avoid: "#4b4844",
  loose: "#1f4854",
  ringing: "#7c6426",
  hot: "#762d18",
  sustained: "#0b0b0e",
  "clean-mark": "#627350",
  "loose-mark": "#6fb0bd",
  "ringing-mark": "#e3c272",
  "hot-mark": "#bd6b4a",
  "sustained-mark": "#4d4856",
  "letter-on-sustained": "#ffffff",
  "tint-0": "#222824",
  "tint-1": "#37372a",
  "tint-2": "#514832",
  "tint-3": "#6f5b3c",
  "tint-4": "#90754a",
  "tint-5": "#b59562",
  "tint-6": "#dcc08a",
});

/** Black ink on white paper, for what is printed and written on: lines differ by their dashes and widths alone. */
export const PRINT: Palette = Object.freeze({
  ...LIGHT,
  paper: "#ffffff",
  sheet: "#ffffff",
  ink: "#000000",
  soft: "#444444",
  rule: "#a8a8a8",
  contour: "#000000",
  warn: "#000000",
});

/** A palette as CSS custom properties. */
export const properties = (palette: Palette): string =>
  Object.entries(palette)
    .map(([role, colour]) => `--${role}:${colour};`)
    .join("");
