// The panel that shows single trials. A point opens with the trial that decided it, or the one nearest to a limit, and all
// its trials stand below, worst first.
import type { Variant } from "../../plan/plan.js";
import { trialWork } from "../../run/work.js";
import type { Axis } from "../../words/axes.js";
import { count } from "../../words/numbers.js";
import { POINT_WITHOUT_ASKING, WITHOUT_ASKING } from "../cost.js";
import { byId, make, pause } from "../dom.js";
import type { View } from "../map/view.js";
import type { PageMap } from "../page-map.js";
import type { Simulator } from "../simulator.js";
import type { Subject } from "../subject.js";
import { decidingVariant, decisionInDraw, decisionOn, type PointDecision } from "./decision.js";
import { displayOf } from "./display.js";
import { offerChoices, readGains, readVariant, writeTrialInputs, writeVariant } from "./inputs.js";
import { pointTrials, pointWork, variantsOf } from "./point-trials.js";
import { recorded } from "./recording.js";
import { heardWords, sceneOf } from "./scene.js";
import { type ShownPoint, sentences, titleOf } from "./shown-point.js";
import { siGains, trialOf } from "./trial.js";
import { trialList } from "./trial-list.js";
import { decisionWords } from "./trial-words.js";
import { doesNotDieOut, worstFirst } from "./worst-first.js";

export interface TrialPanel {
  /** Opens a point, gains in display units, as a view of the map has it. */
  readonly show: (axis: Axis, p: number, d: number, view: View) => void;
  /** The same when the page has just been opened: nothing is simulated before the panel comes into sight. */
  readonly open: (axis: Axis, p: number, d: number) => void;
}

/** `ofDraw` gives the simulator of a draw; null where the map holds too little of it. */
export function trialPanel(
  pageMap: PageMap,
  written: Simulator,
  shownDraw: Subject<number | null>,
  ofDraw: (draw: number) => Simulator | null,
): TrialPanel {
  let simulator = written;
  const display = displayOf(simulator.plan.airframe);
  const together: View = { shown: "verdict", axes: pageMap.axes, level: null };
  let point: ShownPoint | null = null;
  const showTrial = (variant: Variant) => {
    if (point === null) return;
    const trials = simulator.trialsFor(variant);
    const gains = siGains(pageMap, simulator, point.axis, point.p, point.d);
    const trial = trialOf(trials, ...gains);
    const scene = sceneOf(trials, simulator.plan.airframe, recorded(trials, ...gains));
    write(sentences(pageMap, simulator, point, variant, trial, scene.spectrum));
    byId("trial-listen").textContent = heardWords(simulator.plan.airframe, variant, trial, scene);
    display.show(scene);
    list.mark(variant.index);
  };
  const choose = (variant: Variant) => {
    writeVariant(simulator, variant);
    showTrial(variant);
  };
  const list = trialList(pageMap.limits, choose);
  const listTrials = async (shown: ShownPoint, opened: boolean): Promise<void> => {
    const [p, d] = siGains(pageMap, simulator, shown.axis, shown.p, shown.d);
    const trials = await pointTrials(
      simulator,
      { axis: shown.axis, p, d },
      {
        pause,
        isCurrent: () => point === shown,
        onProgress: ({ done, of }) => list.clear(`Simulating them: ${count(done)} of ${count(of)}.`),
      },
    );
    if (trials === null) return;
    const decider = decidingVariant(shown.decision);
    const ranked = worstFirst(trials, pageMap.limits, decider);
    list.show(ranked, simulator, decider);
    const [first] = ranked;
    if (opened || first === undefined) list.mark(readVariant(simulator)?.index ?? -1);
    else if (isSustained(shown.decision) && !doesNotDieOut(first)) {
      // Theory alone objects: a calm trace would say that all is well.
      write([`${titleOf(pageMap, shown)}.`, `${decisionWords(pageMap, shown.decision, -1)} Choose a trial to see it.`]);
      display.clear();
    } else choose(first.variant);
  };
  /** Opens with the deciding trial, or the one the form names where the reader stays with it; null: one to be found. */
  const openPoint = (shown: ShownPoint, stay: Variant | null) => {
    point = shown;
    byId("trial-ask").hidden = true;
    list.clear("");
    const deciding = simulator.plan.variants[decidingVariant(shown.decision)] ?? null;
    const named = stay ?? deciding;
    const work = pointWork(simulator, shown.axis);
    const asks = work > POINT_WITHOUT_ASKING;
    // A sustained point without a deciding trial is theory's: any trial might be calm.
    const opening = named ?? (asks && !isSustained(shown.decision) ? readVariant(simulator) : null);
    if (opening !== null) choose(opening);
    else {
      write([`${titleOf(pageMap, shown)}.`, asks ? decisionWords(pageMap, shown.decision, -1) : LOOKING]);
      display.wait();
    }
    if (!asks) void listTrials(shown, opening !== null);
    else list.clear("They take many more steps than most and would keep the browser busy for a while.", true);
  };
  const pointOf = (axis: Axis, p: number, d: number, view: View): ShownPoint => {
    const draw = shownDraw.get();
    const decision =
      draw === null
        ? decisionOn(pageMap, axis, p, d, view)
        : decisionInDraw(pageMap, axis, p, d, draw, simulator !== written);
    return { axis, p, d, decision };
  };
  shownDraw.watch((draw) => {
    simulator = (draw === null ? null : ofDraw(draw)) ?? written;
    if (point !== null) openPoint(pointOf(point.axis, point.p, point.d, together), null);
  });
  offerChoices(simulator);
  byId("trial-form").addEventListener("change", ({ target }) => {
    const { id } = target as Element;
    if (id === "trial-axis") offerChoices(simulator);
    const gains = readGains(simulator);
    const variant = readVariant(simulator);
    if (gains === null || variant === null || id === "trial-stay") return;
    const sameGains = id === "trial-script" || id === "trial-level";
    if (sameGains && point !== null) showTrial(variant);
    else {
      const stays = byId<HTMLInputElement>("trial-stay").checked;
      openPoint(pointOf(gains.axis, gains.p, gains.d, together), stays || sameGains ? variant : null);
    }
  });
  byId("trial-list-go").addEventListener("click", () => {
    if (point !== null) void listTrials(point, true);
  });
  const show: TrialPanel["show"] = (axis, p, d, view) => {
    writeTrialInputs(simulator, axis, p, d);
    openPoint(pointOf(axis, p, d, view), null);
  };
  return {
    show,
    open(axis, p, d) {
      writeTrialInputs(simulator, axis, p, d);
      const longest = Math.max(...variantsOf(simulator, axis).map((variant) => trialWork(simulator.plan, variant)));
      const start = () => {
        if (point === null) show(axis, p, d, together);
      };
      byId("trial-go").addEventListener("click", start);
      if (longest > WITHOUT_ASKING) byId("trial-ask").hidden = false;
      else whenInSight(byId("trial"), start);
    },
  };
}

const LOOKING = "Looking for the trial that comes nearest to a limit.";

const isSustained = (decision: PointDecision): boolean => decision.kind === "point" && decision.verdict === "sustained";

const write = (lines: readonly string[]): void =>
  byId("trial-words").replaceChildren(
    ...lines.filter((line) => line !== "").flatMap((line) => [make("p", {}, line), " "]),
  );

/** Calls once when the element comes near the part of the page that is seen. */
function whenInSight(element: Element, act: () => void): void {
  const observer = new IntersectionObserver(
    ([entry]) => {
      if (entry?.isIntersecting !== true) return;
      observer.disconnect();
      act();
    },
    { rootMargin: "300px" },
  );
  observer.observe(element);
}
