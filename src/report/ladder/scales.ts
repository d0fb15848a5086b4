// One scale for every picture of the ladder, so that steps can be compared by eye.
import type { Ladder, LadderManoeuvre, LadderTrial } from "../../map/ladder-format.js";
import { extentOf } from "../../words/extent.js";

export interface Scale {
  readonly time: readonly [from: number, to: number]; // s
  readonly value: readonly [from: number, to: number]; // deg/s or deg
}

export interface Scales {
  /** Rates of stops, deg/s. */
  readonly stop: Scale;
  /** Attitude in disturbed air or under a moving throttle, deg. */
  readonly swing: Scale;
}

interface ShownTrial {
  readonly trial: LadderTrial;
  readonly manoeuvre: LadderManoeuvre;
}

const HEADROOM = 1.12; // so that the widest swing keeps clear of the picture's edge

export function scalesOf({ steps, manoeuvres }: Ladder): Scales {
  const shownTrials = steps.flatMap(({ axes }) =>
    Object.values(axes).flatMap(({ trials }) =>
      trials.flatMap((trial): ShownTrial[] => {
        const manoeuvre = manoeuvres[trial.manoeuvre];
        return manoeuvre === undefined ? [] : [{ trial, manoeuvre }];
      }),
    ),
  );
  const stops = shownTrials.filter(({ trial }) => trial.angle === null);
  const swings = shownTrials.filter(({ trial }) => trial.angle !== null);
  const [, most] = extentOf(swings.flatMap(({ trial }) => trial.angle ?? []).map(Math.abs), 1);
  return {
    stop: {
      time: timeOf(stops),
      value: ends(stops.flatMap(({ trial, manoeuvre }) => [...trial.rate, ...manoeuvre.command])),
    },
    swing: { time: timeOf(swings), value: [-HEADROOM * most, HEADROOM * most] },
  };
}

function timeOf(shownTrials: readonly ShownTrial[]): readonly [number, number] {
  return ends(
    shownTrials.flatMap(({ manoeuvre: { from, period, command } }) => [from, from + period * (command.length - 1)]),
  );
}

function ends(values: readonly number[]): readonly [number, number] {
  const [low, high] = extentOf(values, 0);
  return high > low ? [low, high] : [low, low + 1];
}
