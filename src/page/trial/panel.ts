// The panel that simulates one trial (a point, a manoeuvre, a throttle level and pack) and shows it, in numbers too.

import { trialWork } from "../../run/work.js";
import { AXIS_TITLES, type Axis } from "../../words/axes.js";
import { WITHOUT_ASKING } from "../cost.js";
import { byId } from "../dom.js";
import type { PageMap } from "../page-map.js";
import type { Simulator } from "../simulator.js";
import { levelWords, measuredWords, placeWords } from "../words.js";
import { horizonAt, upward } from "./attitude.js";
import { camera } from "./camera.js";
import { chartOf } from "./chart.js";
import { offerChoices, readTrialInputs, type TrialInputs, writeTrialInputs } from "./inputs.js";
import { player } from "./player.js";
import { type Recording, recorded } from "./recording.js";
import { speaker } from "./speaker.js";
import { siGains, type Trial, trialOf } from "./trial.js";

export interface TrialPanel {
  /** Gains in display units; the chosen manoeuvre stays if the axis has it. */
  readonly show: (axis: Axis, p: number, d: number) => void;
  /** The same when the page has just been opened: a trial that would keep the browser busy waits for a button. */
  readonly open: (axis: Axis, p: number, d: number) => void;
}

export function trialPanel(pageMap: PageMap, simulator: Simulator): TrialPanel {
  const display = displayOf(simulator.plan.airframe.propeller.blades);
  const refresh = () => {
    const inputs = readTrialInputs(simulator);
    if (inputs === null) return;
    byId("trial-ask").hidden = true;
    const trials = simulator.trialsFor(inputs.variant);
    const gains = siGains(pageMap, simulator, inputs.variant.axis, inputs.p, inputs.d);
    byId("trial-words").textContent = wordsOf(pageMap, inputs, trialOf(trials, ...gains));
    const { window, period } = trials.question;
    display.show({
      recording: recorded(trials, ...gains),
      judged: { from: window.from * period, to: window.to * period },
    });
  };
  offerChoices(simulator);
  byId("trial-form").addEventListener("change", ({ target }) => {
    if ((target as Element).id === "trial-axis") offerChoices(simulator);
    refresh();
  });
  byId("trial-go").addEventListener("click", refresh);
  return {
    show(axis, p, d) {
      writeTrialInputs(simulator, axis, p, d);
      refresh();
    },
    open(axis, p, d) {
      writeTrialInputs(simulator, axis, p, d);
      const inputs = readTrialInputs(simulator);
      if (inputs === null) return;
      if (trialWork(simulator.plan, inputs.variant) <= WITHOUT_ASKING) refresh();
      else byId("trial-ask").hidden = false;
    },
  };
}

interface Scene {
  readonly recording: Recording;
  /** s */
  readonly judged: { readonly from: number; readonly to: number };
}

/** Chart, camera, player and speaker of the trial shown last. */
function displayOf(blades: number): { readonly show: (scene: Scene) => void } {
  const view = camera();
  byId("trial-camera").replaceChildren(view.svg);
  const sound = speaker(byId<HTMLButtonElement>("trial-sound"));
  const slider = byId<HTMLInputElement>("trial-time");
  const holder = byId("trial-chart");
  let scene: (Scene & { readonly up: Float64Array }) | null = null;
  let point = (_time: number): void => {};
  const moments = player(
    {
      button: byId<HTMLButtonElement>("trial-play"),
      slider,
      pace: byId<HTMLSelectElement>("trial-pace"),
      stillNote: byId("trial-still"),
    },
    (time) => {
      point(time);
      if (scene !== null) view.show(horizonAt(scene.up, Math.round(time / scene.recording.period)));
    },
  );
  const redraw = () => {
    if (scene === null) return;
    const chart = chartOf(scene.recording, holder.clientWidth, scene.judged);
    holder.replaceChildren(chart.svg);
    point = chart.point;
    point(Number(slider.value));
  };
  new ResizeObserver(redraw).observe(holder);
  return {
    show(next) {
      const { recording } = next;
      scene = { ...next, up: upward(recording) };
      redraw();
      moments.load((recording.command.length - 1) * recording.period);
      sound.load({ speeds: recording.speeds, period: recording.period, blades });
    },
  };
}

const ENDS = Object.freeze({
  "dies out": "The oscillation dies out.",
  sustained: "The oscillation does not die out. Never fly here.",
  diverged: "The simulated craft is lost. Never fly here.",
  "at rest": "Nothing moves this axis: the trial says nothing of it.",
});

function wordsOf(pageMap: PageMap, { axis, p, d, level }: TrialInputs, { outcome, measures }: Trial): string {
  const what = `${AXIS_TITLES[axis]}, ${placeWords(pageMap, p, d)}, ${levelWords(level)}`;
  return `${what}: ${measuredWords((id) => measures[id])}. ${ENDS[outcome]}`;
}
