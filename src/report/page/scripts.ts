// The page's script and what it reads, as elements at the end of the page.
import { canonicalJson } from "../../base/canonical.js";
import { escapedAsJson } from "../../base/hidden.js";
import type { StabilityMap } from "../../map/format.js";
import { pageData } from "../../page-data/data.js";
import { html, type Piece, raw } from "./html.js";

/** Vector kernels by `Shape.coupled`; null: none is needed, or there is none. */
export type PageKernels = readonly (Uint8Array | null)[];

/** Nothing without a script. A script is ours: its text is trusted, but must not end its own element. */
export function scripts(map: StabilityMap, script: string | null, kernels: PageKernels): Piece {
  if (script === null) return html``;
  return html`<script type="application/json" id="map-data">${raw(inMarkup(canonicalJson(pageData(map))))}</script>
${kernelData(kernels)}<script>${raw(script)}</script>
`;
}

function kernelData(kernels: PageKernels): Piece {
  if (kernels.length === 0) return html``;
  const codes = kernels.map((code) => (code === null ? null : Buffer.from(code).toString("base64")));
  return html`<script type="application/json" id="map-kernels">${raw(canonicalJson(codes))}</script>
`;
}

/** JSON that no markup can begin or end in, and nothing in it is hidden from who reads the page's source. */
const inMarkup = (json: string): string =>
  escapedAsJson(json).replace(/[<>&]/g, (one) => `\\u${one.charCodeAt(0).toString(16).padStart(4, "0")}`);

/** Whether a script can stand inside its element as it is. */
export const standsAlone = (script: string): boolean => !/<(?:\/script|script|!--)/i.test(script);
