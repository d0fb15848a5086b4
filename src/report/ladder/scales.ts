// One scale for every picture of the ladder, so that steps can be compared by eye.
import type { Ladder, LadderManoeuvre, LadderTrial } from "../../map/ladder-format.js";
import { extentOf } from "../../words/extent.js";

export interface Scale {
  readonly time: readonly [from: number, to: number]; // s
  readonly value: readonly [from: number, to: number]; // share of the rate, or deg
}

export interface Scales {
  /** Rates of stops, as shares of what was commanded before: steps ask for different rates. */
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
      value: ends(stops.flatMap(sharesOf)),
    },
    swing: { time: timeOf(swings), value: [-HEADROOM * most, HEADROOM * most] },
  };
}

const sharesOf = ({ trial, manoeuvre }: ShownTrial): number[] =>
  [...trial.rate, ...manoeuvre.command].map((value) => value / commandLevel(manoeuvre));

/** The rate a stop ends, deg/s, with its sign; 1 where nothing is commanded. */
export function commandLevel({ command }: LadderManoeuvre): number {
  const [lowest, highest] = extentOf(command, 0);
  const level = highest >= -lowest ? highest : lowest;
  return level === 0 ? 1 : level;
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
