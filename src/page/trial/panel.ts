// The panel that flies one trial: a point, a manoeuvre, a throttle level and pack; then shows it, in numbers too.
import { AXIS_TITLES, type Axis } from "../../report/axes.js";
import { trialWork } from "../../run/work.js";
import { UNASKED } from "../cost.js";
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
  /** People's gains; the manoeuvre stays as it was chosen where the axis flies it. */
  readonly fly: (axis: Axis, p: number, d: number) => void;
  /** The same for a page that was only opened: a trial that would keep the browser busy waits for a button. */
  readonly open: (axis: Axis, p: number, d: number) => void;
}

export function trialPanel(survey: PageMap, fleet: Simulator): TrialPanel {
  const stage = stageOf(fleet.plan.airframe.propeller.blades);
  const refresh = () => {
    const order = readTrialInputs(fleet);
    if (order === null) return;
    byId("fly-ask").hidden = true;
    const bench = fleet.bench(order.variant);
    const gains = siGains(survey, fleet, order.p, order.d);
    byId("fly-words").textContent = wordsOf(survey, order, trialOf(bench, ...gains));
    const { window, period } = bench.question;
    stage.show({ flight: recorded(bench, ...gains), judged: { from: window.from * period, to: window.to * period } });
  };
  offerChoices(fleet);
  byId("fly-form").addEventListener("change", ({ target }) => {
    if ((target as Element).id === "fly-axis") offerChoices(fleet);
    refresh();
  });
  byId("fly-go").addEventListener("click", refresh);
  return {
    fly(axis, p, d) {
      writeTrialInputs(fleet, axis, p, d);
      refresh();
    },
    open(axis, p, d) {
      writeTrialInputs(fleet, axis, p, d);
      const order = readTrialInputs(fleet);
      if (order === null) return;
      if (trialWork(fleet.plan, order.variant) <= UNASKED) refresh();
      else byId("fly-ask").hidden = false;
    },
  };
}

interface Scene {
  readonly flight: Recording;
  /** s */
  readonly judged: { readonly from: number; readonly to: number };
}

/** Chart, camera, player and speaker, all on the flight shown last. */
function stageOf(blades: number): { readonly show: (scene: Scene) => void } {
  const view = camera();
  byId("fly-camera").replaceChildren(view.svg);
  const sound = speaker(byId<HTMLButtonElement>("fly-sound"));
  const slider = byId<HTMLInputElement>("fly-time");
  const holder = byId("fly-chart");
  let scene: (Scene & { readonly up: Float64Array }) | null = null;
  let point = (_time: number): void => {};
  const moments = player(
    {
      button: byId<HTMLButtonElement>("fly-play"),
      slider,
      pace: byId<HTMLSelectElement>("fly-pace"),
      stillNote: byId("fly-still"),
    },
    (time) => {
      point(time);
      if (scene !== null) view.show(horizonAt(scene.up, Math.round(time / scene.flight.period)));
    },
  );
  const redraw = () => {
    if (scene === null) return;
    const chart = chartOf(scene.flight, holder.clientWidth, scene.judged);
    holder.replaceChildren(chart.svg);
    point = chart.point;
    point(Number(slider.value));
  };
  new ResizeObserver(redraw).observe(holder);
  return {
    show(next) {
      const { flight } = next;
      scene = { ...next, up: upward(flight) };
      redraw();
      moments.load((flight.command.length - 1) * flight.period);
      sound.load({ speeds: flight.speeds, period: flight.period, blades });
    },
  };
}

const ENDS = Object.freeze({
  "dies out": "The oscillation dies out.",
  sustained: "The oscillation does not die out. Never fly here.",
  diverged: "The simulated craft is lost. Never fly here.",
  "at rest": "Nothing moves this axis: the trial says nothing of it.",
});

function wordsOf(survey: PageMap, { axis, p, d, level }: TrialInputs, { outcome, measures }: Trial): string {
  const what = `${AXIS_TITLES[axis]}, ${placeWords(survey, p, d)}, ${levelWords(level)}`;
  return `${what}: ${measuredWords((id) => measures[id])}. ${ENDS[outcome]}`;
}
