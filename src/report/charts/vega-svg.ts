// A vega-lite description as an SVG text for a page: drawn in Node without a canvas, the same bytes every time.
import type { Spec } from "vega";
import type { TopLevelSpec } from "vega-lite";
import { textWidth } from "./advance.js";
import { ink } from "./ink.js";

/** Fonts, axes and background of every figure; the page's style sheet sets the font itself. */
const CONFIG = {
  aria: false,
  background: "transparent",
  font: "sans-serif",
  padding: 2,
  view: { stroke: null },
  axis: {
    domainColor: ink("ink"),
    tickColor: ink("ink"),
    labelColor: ink("ink"),
    titleColor: ink("ink"),
    labelFontSize: 12,
    titleFontSize: 12.5,
    titleFontWeight: "normal",
    titlePadding: 6,
    grid: false,
    tickSize: 4,
    labelPadding: 3,
  },
} as const;

// Vega measures labels through this object; it is part of its published surface but not of its types.
interface TextMetrics {
  textMetrics: { width: (item: { fontSize?: number }, text: string) => number };
}

/** Draws the figure. `prefix` goes before every id, so that figures can share a page; `defs` join its definitions. */
export async function vegaSvg(spec: TopLevelSpec, prefix: string, defs: string): Promise<string> {
  // Loaded only when a page is drawn: it takes longer to load than the rest of the program.
  const [vega, vegaLite] = await Promise.all([import("vega"), import("vega-lite")]);
  (vega as unknown as TextMetrics).textMetrics.width = (item, text) => textWidth(String(text ?? ""), item.fontSize ?? 11);
  vega.resetSVGDefIds();
  const compiled: Spec = vegaLite.compile(spec, { config: CONFIG }).spec;
  const view = new vega.View(vega.parse(compiled), { renderer: "none" });
  const svg = await view.toSVG();
  view.finalize();
  return tidied(svg, prefix, defs);
}

/** Leaves out what the page gives (font, roles, sizes) and what says nothing; makes ids the figure's own. */
function tidied(svg: string, prefix: string, defs: string): string {
  return svg
    .replace(/<path class="(?:foreground|background)"[^>]*(?:d=""|d="M0,0h0v0h0Z")[^>]*\/>/g, "")
    .replace(/ (?:role|class|aria-[a-z]+|font-family|pointer-events|stroke-miterlimit)="[^"]*"(?=[^<]*>)/g, "")
    .replace(/ opacity="1"(?=[^<]*>)/g, "")
    .replace(/(id="|url\(#)(clip|gradient)(\d)/g, `$1${prefix}-$2$3`)
    .replace(/<svg [^>]*?width="([\d.]+)" height="([\d.]+)"[^>]*>/, `<svg viewBox="0 0 $1 $2" aria-hidden="true"><defs>${defs}</defs>`);
}
