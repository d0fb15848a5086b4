// The head of a page: one style sheet, a policy that allows nothing but it and the page's script (`compiles`: with
// WebAssembly it brings along), and the icon.
import { contentPolicy } from "./content-policy.js";
import { html, type Piece, raw } from "./html.js";

const ICON =
  "data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 16 16'%3E%3Cpath d='M8 1.5 15 14H1z' fill='%23fbf7ec' stroke='%23a3241c' stroke-width='2' stroke-linejoin='round'/%3E%3C/svg%3E";

export const head = (title: string, style: string, script: string | null = null, compiles = false): Piece => html`<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${raw(contentPolicy(style, script, compiles))}">
<title>${title}</title>
<link rel="icon" href="${raw(ICON)}">
<style>${raw(style)}</style>
</head>`;
