// The colours of the page and its figures: paper and ink, shore and ground. Every pair that carries text is held to
// WCAG 2.2 AA by a test; verdicts differ in lightness as well as in hue, and carry marks besides.
import type { Role } from "../charts/ink.js";

export type Palette = Readonly<Record<Role, string>>;

export const DAY: Palette = Object.freeze({
  paper: "#f3ecdb",
  sheet: "#fbf7ec",
  ink: "#25281f",
  soft: "#5a5743",
  rule: "#cdc19f",
  contour: "#7b3f15",
  warn: "#a3241c",
  clean: "#e9eed2",
  safe: "#c4dba3",
  loose: "#abd0d6",
  ringing: "#e9c877",
  hot: "#d98b62",
  sustained: "#6b6373",
  "clean-mark": "#a9b885",
  "loose-mark": "#3f7f8e",
  "ringing-mark": "#8a6413",
  "hot-mark": "#7d2f16",
  "sustained-mark": "#a49cad",
  "letter-on-sustained": "#ffffff",
});

export const NIGHT: Palette = Object.freeze({
  paper: "#161a18",
  sheet: "#1e2421",
  ink: "#efe8d6",
  soft: "#b9b39d",
  rule: "#47493c",
  contour: "#f0b183",
  warn: "#ff9a86",
  clean: "#333d2b",
  safe: "#4d6b3a",
  loose: "#1f4854",
  ringing: "#6b541b",
  hot: "#7d3a20",
  sustained: "#0b0b0e",
  "clean-mark": "#5b6b47",
  "loose-mark": "#6fb0bd",
  "ringing-mark": "#d7b25a",
  "hot-mark": "#eb9c72",
  "sustained-mark": "#4d4856",
  "letter-on-sustained": "#ffffff",
});

/** A palette as CSS custom properties. */
export const properties = (palette: Palette): string =>
  Object.entries(palette)
    .map(([role, colour]) => `--${role}:${colour};`)
    .join("");
