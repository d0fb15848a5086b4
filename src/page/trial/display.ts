// Chart, camera, player and speaker of the trial that is shown.
import type { Airframe } from "../../airframe/airframe.js";
import { byId } from "../dom.js";
import { horizonAt, upward } from "./attitude.js";
import { camera } from "./camera.js";
import { chartOf, type Readings } from "./chart.js";
import { player } from "./player.js";
import type { Recording } from "./recording.js";
import { rotorNames } from "./rotor-lanes.js";
import { speaker } from "./speaker.js";
import type { Spectrum } from "./spectrum.js";
import { spectrumChart } from "./spectrum-chart.js";

export interface Scene extends Readings {
  readonly recording: Recording;
  /** Of what is left as it ends; null: the craft is lost. */
  readonly spectrum: Spectrum | null;
}

export interface Display {
  readonly show: (scene: Scene) => void;
  /** Another trial is to come: what is there is of the one before. */
  readonly wait: () => void;
  /** No trial is shown, and none can be played. */
  readonly clear: () => void;
}

export function displayOf({ propeller: { blades }, rotors }: Airframe): Display {
  const names = rotorNames({ rotors });
  const view = camera();
  byId("trial-camera").replaceChildren(view.svg);
  const sound = speaker({
    button: byId<HTMLButtonElement>("trial-sound"),
    level: byId<HTMLInputElement>("trial-loudness"),
  });
  const slider = byId<HTMLInputElement>("trial-time");
  const [views, holder] = [byId("trial-views"), byId("trial-chart")];
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
    const width = holder.clientWidth;
    const chart = chartOf(scene.recording, width, scene, names);
    holder.replaceChildren(chart.svg, ...(scene.spectrum === null ? [] : [spectrumChart(scene.spectrum, width)]));
    point = chart.point;
    point(Number(slider.value));
  };
  new ResizeObserver(redraw).observe(holder);
  return {
    show(next) {
      const { recording } = next;
      views.hidden = false;
      views.classList.remove("waiting");
      scene = { ...next, up: upward(recording) };
      redraw();
      moments.load((recording.command.length - 1) * recording.period);
      sound.load({ speeds: recording.speeds, period: recording.period, blades });
    },
    wait() {
      views.classList.add("waiting");
    },
    clear() {
      scene = null;
      moments.load(0);
      sound.load({ speeds: [], period: 1, blades });
      views.hidden = true;
    },
  };
}
