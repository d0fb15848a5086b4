// A trial in sentences: which it is, how it ended, what is worst about it, and what the map makes of its point.
import { ABSENCES, measureOf } from "../../base/measures.js";
import { THEORY } from "../../base/theory-name.js";
import { limitingCaseBy, NOBODY } from "../../map/decider.js";
import type { Limits } from "../../map/verdict.js";
import type { Variant } from "../../plan/plan.js";
import { limitingCaseWords, lowerFirst } from "../../words/limit-words.js";
import { count, withUnit } from "../../words/numbers.js";
import { printable } from "../../words/printable.js";
import { unitLabel } from "../../words/units.js";
import { VERDICT_WORDS } from "../../words/verdict-words.js";
import type { PageMap } from "../page-map.js";
import type { Simulator } from "../simulator.js";
import { levelWords, valueWords } from "../words.js";
import type { PointDecision } from "./decision.js";
import type { Trial } from "./trial.js";
import { type RankedTrial, tallyOf } from "./worst-first.js";

/** "Hard stop from a roll at 500 °/s"; text from files, fit to print. */
export const manoeuvreWords = ({ script, rate }: Pick<Variant, "script" | "rate">): string =>
  printable(`${script.title}${rate === 0 ? "" : ` at ${withUnit((180 / Math.PI) * rate, "\u00b0/s")}`}`);

/** "Hard stop from a roll at 500 °/s, hover, fresh pack". */
export function variantWords({ levels }: Pick<Simulator, "levels">, variant: Variant): string {
  const level = levels.find(({ variants }) => variants.some(({ index }) => index === variant.index));
  return level === undefined ? manoeuvreWords(variant) : `${manoeuvreWords(variant)}, ${levelWords(level)}`;
}

const TOO_FEW = (ABSENCES as readonly string[]).indexOf("too few swings to count");

/** How a trial ended, as far as it shows it. */
export function endWords({ outcome, measures, absent }: Trial): string {
  const { unit } = measureOf("oscillation");
  const left = measures.oscillation === null ? "" : withUnit(measures.oscillation, unitLabel(unit));
  if (outcome === "diverged") return "The simulated craft is lost. Never fly here.";
  if (outcome === "sustained")
    return `The oscillation does not die out: it swings \u00b1${left} as the trial ends. Never fly here.`;
  if (outcome === "at rest") return "Nothing moves this axis: the trial says nothing of it.";
  if (absent.growth === TOO_FEW)
    return `It still swings \u00b1${left} as the trial ends, too slowly to count as an oscillation: fewer than six half-cycles. This trial does not show that it dies out.`;
  return measures.growth === null ? "It is calm as the trial ends." : "The oscillation dies out.";
}

/** "does not die out" or "bounce-back 34 %, over 15 %". */
export function worstWords({ worst, trial }: RankedTrial, limits: Limits): string {
  if ("measure" in worst) {
    const { id, title, unit, better } = worst.measure;
    const value = valueWords(worst.measure, trial.measures[id], trial.absent[id]);
    const limit = withUnit(limits[id] ?? 0, unitLabel(unit));
    const side = worst.kind === "within" ? "limit" : better === "high" ? "under" : "over";
    return trial.measures[id] === null
      ? `${lowerFirst(title)}: ${value}, limit ${limit}`
      : `${lowerFirst(title)} ${value}, ${side} ${limit}`;
  }
  return {
    lost: "the simulated craft is lost",
    sustained: "does not die out",
    "at rest": "does not move this axis",
    "not judged": "dies out; nothing else in it is judged",
  }[worst.kind];
}

/** What the map says of the point, and whether by the trial of a variant, given by its index. */
export function decisionWords(pageMap: PageMap, decision: PointDecision, variant: number): string {
  if (decision.kind === "between")
    return "These gains lie between the points of the map, which says nothing of them itself.";
  if (decision.kind === "draw") return drawWords(decision);
  if (decision.kind === "start") return "The starting tune: no trial of it passes a limit.";
  const { verdict, decidedBy, level } = decision;
  const under = level === null ? "The map calls this point" : `Under ${levelWords(level)} alone this point is`;
  const { title } = VERDICT_WORDS[verdict];
  const found = limitingCaseBy(decidedBy, (index) => pageMap.variants[index]);
  if (found === null || decidedBy === NOBODY) return `${under} ${lowerFirst(title)}: no trial of it passes a limit.`;
  if (decidedBy === variant) return `${under} ${lowerFirst(title)}, and this trial decided it.`;
  const who = printable(limitingCaseWords(pageMap, found));
  return found.script === THEORY
    ? `${under} ${lowerFirst(title)}: no trial of it shows that, ${lowerFirst(who)} does.`
    : `${under} ${lowerFirst(title)}, not by this trial but by: ${who}.`;
}

function drawWords({ draw, isSimulated, fails }: PointDecision & { kind: "draw" }): string {
  if (!isSimulated)
    return `Draw ${draw + 1} cannot be simulated here: the map holds too little of it. This is the model as it is written.`;
  const start = fails === null ? "" : ` Of its starting tune the map says: ${printable(fails)}.`;
  return `The craft is draw ${draw + 1}; the verdicts of the map are those of the model as it is written.${start}`;
}

/** "48 trials: 3 do not die out, 12 pass a limit." */
export function tallyWords(ranked: readonly RankedTrial[]): string {
  const { sustained, beyond } = tallyOf(ranked);
  const parts = [
    ...(sustained === 0 ? [] : [`${count(sustained)} ${sustained === 1 ? "does" : "do"} not die out`]),
    ...(beyond === 0 ? [] : [`${count(beyond)} more ${beyond === 1 ? "passes" : "pass"} a limit`]),
  ];
  if (parts.length === 0) return `${count(ranked.length)} trials; none passes a limit, the nearest to one comes first.`;
  return `${count(ranked.length)} trials: ${parts.join(", ").replace(/^(\d+) more/, "$1")}.`;
}
