// The trends of one model as a single file that opens from disk, with no script and no network.
import { at } from "../../base/at.js";
import { trendChartSvg } from "../../charts/trend-chart.js";
import type { FollowedAxis, FollowedId, Stage, Trend } from "../../trend/trend.js";
import { count } from "../../words/numbers.js";
import { printable } from "../../words/printable.js";
import {
  creepWords,
  datesWords,
  extentWords,
  FOLLOWED_TITLES,
  findingWords,
  followedAxes,
  followedWords,
  measureFinding,
  ownLinesWords,
  unjudgedStagesWords,
} from "../../words/trend-words.js";
import { head } from "../page/head.js";
import { html, type Piece, raw } from "../page/html.js";
import { scrolling } from "../page/scrolling.js";
import { stepsTable } from "./steps-table.js";
import { TREND_STYLE } from "./style.js";

/** What a page of trends is made of. */
export interface TrendPage {
  /** Of one model, the one with most records first. */
  readonly trends: readonly Trend[];
  readonly files: readonly string[];
  /** Lines of the files that were no records. */
  readonly problems: readonly string[];
  readonly command: string;
}

/** The page as one HTML text; the same records give the same bytes. */
export async function renderTrendPage(written: TrendPage): Promise<string> {
  const page = printable(written);
  const first = at(page.trends, 0);
  const chapters = await Promise.all(page.trends.map(chapter));
  const text = await html`<!DOCTYPE html>
<html lang="en">
${head(findingWords(first), TREND_STYLE)}
<body>
<header class="masthead">
<p class="series">Gainscape trend</p>
<h1>${findingWords(first)}</h1>
<p class="sub">${extentWords(first)}.</p>
</header>
<main>
${problemList(page.problems)}
${chapters}
<section aria-labelledby="provenance">
<h2 id="provenance">Provenance</h2>
<dl class="provenance">${page.files.map((file) => html`<div><dt>Records</dt><dd>${file}</dd></div>`)}</dl>
<p>The same command draws the same page from the same records:</p>
<pre><code>${page.command}</code></pre>
</section>
</main>
<footer><p>Maps are a model's estimate: a trend shows what changed in models, not in the craft. Climb to every new tune step by step.</p></footer>
</body>
</html>
`;
  return text.toString();
}

export const problemList = (problems: readonly string[]): Piece | string =>
  problems.length === 0
    ? ""
    : html`<ul class="notes" aria-label="Lines left out">${problems.map((line) => html`<li>Left out: ${line}</li>`)}</ul>`;

/** Sets headings apart where there are several. */
const ofQuestion = (index: number): string => (index === 0 ? "" : `, question ${index + 1}`);

/** One question: its steps, what creeps, and a chart per measure and axis. */
async function chapter(trend: Trend, index: number): Promise<Piece> {
  const notes = [ownLinesWords(trend), unjudgedStagesWords(trend)].filter((line) => line !== null);
  const charts = await Promise.all(followedAxes(trend).map((axis) => axisCharts(trend, axis, index)));
  const more =
    index === 0
      ? ""
      : html`<p class="answer">${findingWords(trend)}.</p><p>${extentWords(trend)}. Another question than above: its maps do not compare with those.</p>`;
  return html`<section aria-labelledby="steps-${index}">
<h2 id="steps-${index}">Steps${ofQuestion(index)}</h2>
${more}
${stepsTable(trend, `Table of steps${ofQuestion(index)}`)}
${notes.length === 0 ? "" : html`<ul class="notes">${notes.map((line) => html`<li>${line}</li>`)}</ul>`}
${creeps(trend)}
</section>
${charts}
${stagesTable(trend, index)}`;
}

const creeps = (trend: Trend): Piece | string =>
  trend.creeps.length === 0
    ? ""
    : html`<h3>Slow creep</h3>
<ul class="plain">${trend.creeps.map((creep) => html`<li>${creepWords(trend, creep)}.</li>`)}</ul>
<p>No single step of these is beyond the tolerance; together they are, and beyond what other seeds do (test of Mann 1945 and Kendall 1975, slope of Sen 1968).</p>`;

async function axisCharts(trend: Trend, axis: FollowedAxis, index: number): Promise<Piece> {
  const measures = [...new Set(trend.axes[axis].map(({ measure }) => measure))];
  const figures = await Promise.all(measures.map((measure) => figure(trend, axis, measure)));
  return html`<section aria-labelledby="${axis}-${index}">
<h2 id="${axis}-${index}">${FOLLOWED_TITLES[axis]}${ofQuestion(index)}</h2>
<div class="trends">${figures}</div>
</section>`;
}

async function figure(trend: Trend, axis: FollowedAxis, measure: FollowedId): Promise<Piece | string> {
  const { title, unit } = followedWords(measure, axis);
  const svg = await trendChartSvg(trend, axis, measure, unit);
  if (svg === null) return "";
  const d = trend.axes[axis].find((line) => line.measure === measure && line.level !== undefined)?.d;
  const heading = d === undefined ? title : `${title}, at D ${d}`;
  const name = `${FOLLOWED_TITLES[axis]}: ${heading}, ${unit}, from ${at(trend.stages, 0).version} to ${at(trend.stages, trend.stages.length - 1).version}; steps are in the table above.`;
  return html`<figure class="trend"><h3>${heading}</h3><div role="img" aria-label="${name}">${raw(svg)}</div><figcaption>${measureFinding(trend, axis, measure)}.</figcaption></figure>`;
}

const MOST_ROWS = 200;

function stagesTable(trend: Trend, index: number): Piece {
  const { stages } = trend;
  const rows = stages.slice(-MOST_ROWS);
  const left = stages.length - rows.length;
  return html`<section aria-labelledby="maps-${index}">
<h2 id="maps-${index}">Maps${ofQuestion(index)}</h2>
<p>Each place of the charts is a map; nights on which nothing changed share one.${left === 0 ? "" : ` The first ${count(left)} are left out here.`}</p>
${scrolling(
  `Table of maps${ofQuestion(index)}`,
  html`<table class="maps"><thead><tr><th scope="col">Version</th><th scope="col" class="text">Recorded</th><th scope="col">Records</th><th scope="col">Seed</th><th scope="col">Gainscape</th></tr></thead>
<tbody>${rows.map(stageRow)}</tbody></table>`,
)}
</section>`;
}

const stageRow = (stage: Stage): Piece =>
  html`<tr><th scope="row">${stage.version}</th><td>${datesWords(stage)}</td><td>${count(stage.records)}</td><td>${stage.seed}</td><td>${stage.product}</td></tr>`;
