// All models of a folder of records at a glance, those that stepped last first; each has a page of its own.
import { count } from "../../words/numbers.js";
import { printable } from "../../words/printable.js";
import { head } from "../page/head.js";
import { html, type Piece } from "../page/html.js";
import { scrolling } from "../page/scrolling.js";
import { problemList } from "./page.js";
import { TREND_STYLE } from "./style.js";

/** One model in the list. */
export interface TrendRow {
  readonly airframe: string;
  readonly finding: string;
  /** Day of the last step; null: there was none. */
  readonly lastStep: string | null;
  readonly steps: number;
  readonly creeps: number;
  readonly records: number;
  /** Its page, relative to the list. */
  readonly page: string;
}

export async function renderTrendIndex(rows: readonly TrendRow[], problems: readonly string[]): Promise<string> {
  const fit = printable({ rows, problems });
  const moved = fit.rows.filter(({ lastStep }) => lastStep !== null).length;
  const title = `${count(moved)} of ${count(fit.rows.length)} models stepped`;
  const text = await html`<!DOCTYPE html>
<html lang="en">
${head(title, TREND_STYLE)}
<body>
<header class="masthead"><p class="series">Gainscape trends</p><h1>${title}</h1></header>
<main>
${problemList(fit.problems)}
<section aria-labelledby="models"><h2 id="models">Models</h2>
${scrolling(
  "Table of models",
  html`<table class="models"><thead><tr><th scope="col">Model</th><th scope="col" class="text">What stands out</th><th scope="col">Last step</th><th scope="col">Steps</th><th scope="col">Creeps</th><th scope="col">Records</th></tr></thead>
<tbody>${fit.rows.map(row)}</tbody></table>`,
)}
</section>
</main>
<footer><p>Maps are a model's estimate: a trend shows what changed in models, not in the craft.</p></footer>
</body>
</html>
`;
  return text.toString();
}

const row = ({ airframe, finding, lastStep, steps, creeps, records, page }: TrendRow): Piece =>
  html`<tr><th scope="row"><a href="${encodeURIComponent(page)}">${airframe}</a></th><td>${finding}</td><td>${lastStep ?? "none"}</td><td>${count(steps)}</td><td>${count(creeps)}</td><td>${count(records)}</td></tr>`;
