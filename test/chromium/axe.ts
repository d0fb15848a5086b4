// What axe-core has to say about an open page.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

export const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
/** What the night can change, which is colours alone. */
export const OF_COLOURS = ["color-contrast", "link-in-text-block"];

export async function findings(page: Page, rules: readonly string[] = RULES): Promise<string[]> {
  await page.evaluate(axe);
  const found = (await page.evaluate(
    (runOnly) =>
      (globalThis as unknown as { axe: { run: (of: Document, how: object) => unknown } }).axe.run(document, {
        runOnly,
      }),
    [...rules],
  )) as { violations: { id: string; nodes: { html: string }[] }[] };
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 120)}`);
}
