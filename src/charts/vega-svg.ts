// A vega-lite description as an SVG text for a page: drawn in Node without a canvas, the same bytes every time.
import type { Spec } from "vega";
import type { TopLevelSpec } from "vega-lite";
import { textWidth } from "./advance.js";
import { ink } from "./ink.js";

/** Fonts, axes and background of every figure; the page's style sheet sets the font itself. `size` in px. */
const config = (size: number) =>
  ({
    aria: false,
    background: "transparent",
    font: "sans-serif",
    padding: 2,
    lineBreak: "\n",
    view: { stroke: null },
    axis: {
      domainColor: ink("ink"),
      tickColor: ink("ink"),
      labelColor: ink("ink"),
      titleColor: ink("ink"),
      labelFontSize: size,
      titleFontSize: size + 0.5,
      labelFlush: false,
      titleFontWeight: "normal",
      titlePadding: 6,
      grid: false,
      tickSize: 4,
      labelPadding: 3,
    },
  }) as const;

// Vega measures labels through this object; it is part of its published surface but not of its types.
interface TextMetrics {
  textMetrics: { width: (item: { fontSize?: number }, text: string) => number };
}

/** Draws the figure; `size` is that of the axes' letters, px. */
export async function vegaSvg(spec: TopLevelSpec, size = 12): Promise<string> {
  // Loaded only when a page is drawn: it takes longer to load than the rest of the program.
  const [vega, vegaLite] = await Promise.all([import("vega"), import("vega-lite")]);
  (vega as unknown as TextMetrics).textMetrics.width = (item, text) =>
    textWidth(String(text ?? ""), item.fontSize ?? 11);
  const compiled: Spec = vegaLite.compile(spec, { config: config(size) }).spec;
  const view = new vega.View(vega.parse(compiled), { renderer: "none" });
  const svg = await view.toSVG();
  view.finalize();
  return tidied(svg);
}

/** Leaves out what the page gives (font, roles, sizes) and what says nothing, a good part of a page's bytes; our layers need no ids. */
function tidied(svg: string): string {
  return svg
    .replace(/<path class="(?:foreground|background)"[^>]*d="M0,0h0v0h0Z"[^>]*\/>/g, "")
    .replace(/<path(?![^>]* d="[^"])[^>]*\/>/g, "")
    .replace(/ (?:role|class|aria-[a-z]+|font-family|pointer-events|stroke-miterlimit)="[^"]*"(?=[^<]*>)/g, "")
    .replace(/ opacity="1"(?=[^<]*>)/g, "")
    .replace(/<svg [^>]*?width="([\d.]+)" height="([\d.]+)"[^>]*>/, `<svg viewBox="0 0 $1 $2" aria-hidden="true">`);
}
