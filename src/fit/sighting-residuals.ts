// What was seen or heard without a log, as residuals: a number with its error, or an interval as the square root of minus
// twice its log-likelihood, so that the sum of squares is that of maximum likelihood.
import type { Airframe, AxisGains } from "../airframe/airframe.js";
import type { Mixer } from "../airframe/mixer.js";
import { hoverTrim } from "../airframe/trim.js";
import { exp, ln } from "../base/elementary.js";
import type { Sighting } from "../flight/flight.js";
import { axisPieces } from "../theory/axis-pieces.js";
import { stableIntervals, type UltimatePoint, ultimateGain } from "../theory/boundary.js";
import type { GainsByAxis } from "../theory/plant.js";
import { craftOf } from "./in-flight.js";
import { lnNormalBelow } from "./normal-log.js";

/**
 * Standard deviations of what theory and a pilot's eye differ by, as logarithms. Our own, no source: the linear loop has
 * no gust, no limit of duty and no wake, a swing that fades slowly is hard to tell from one that stays, and a pilot counts
 * the swings of a loop that is not on its boundary, where theory knows the frequency.
 */
const SIGHTING_WIDTH = Object.freeze({ boundary: 0.08, frequency: 0.05, pace: 0.1, same: 0.1 });

/** What a craft that cannot hover, or has no boundary, is charged: far out, and not infinite. */
const IMPOSSIBLE = 30;

export interface SightingPlace {
  readonly mixer: Mixer;
  readonly charge: number;
  /** SI gains of all axes as they were set; null where the controller's own units are not worth anything yet. */
  gainsOf(sighting: Extract<Sighting, { kind: "oscillation" }>): GainsByAxis | null;
}

/** In the order of the sightings; those that tell nothing give none. */
export function sightingResiduals(airframe: Airframe, sightings: readonly Sighting[], place: SightingPlace): number[] {
  const craft = craftOf(airframe, place.mixer, place.charge);
  const trim = hoverTrim(craft);
  return sightings.flatMap((sighting): number[] => {
    if (sighting.kind === "hover-throttle")
      return [trim === null ? IMPOSSIBLE : (trim.throttle - sighting.value) / (0.5 * sighting.size)];
    if (sighting.kind === "motor-tone") {
      if (trim === null) return [IMPOSSIBLE];
      const turns = trim.speeds.reduce((sum, speed) => sum + speed, 0) / (trim.speeds.length * 2 * Math.PI);
      return [(turns * airframe.propeller.blades - sighting.value) / (0.5 * sighting.size)];
    }
    const gains = place.gainsOf(sighting);
    if (gains === null) return [];
    const edge = trim === null ? null : edgeAt(axisPieces(craft, trim, sighting.axis, gains), gains[sighting.axis]);
    return oscillationResiduals(sighting, gains[sighting.axis], edge);
  });
}

/** How many residuals a sighting gives; the same for every craft. */
export const residualsOf = (sighting: Sighting, known: boolean): number =>
  sighting.kind !== "oscillation"
    ? 1
    : known
      ? Number(sighting.diedOut !== null) + Number(sighting.frequency !== null) + Number(sighting.pace !== null)
      : 0;

/** Search for the boundary this far from the gains, as a factor. */
const FAR = 16;

/** Where the stable range that holds these gains, or lies next below them, ends. */
function edgeAt(
  pieces: Parameters<typeof ultimateGain>[0],
  { p, i, d }: AxisGains,
): Pick<UltimatePoint, "p" | "frequency"> | null {
  const range = { from: p / FAR, to: p * FAR };
  const stable = stableIntervals(pieces, d, i, range);
  const [first] = stable;
  if (first === undefined) return null;
  const holds = stable.findLast(({ from }) => from <= p) ?? first;
  const points = ultimateGain(pieces, d, i, range);
  return points.find((point) => point.p === holds.to) ?? null;
}

function oscillationResiduals(
  { diedOut, frequency, pace }: Extract<Sighting, { kind: "oscillation" }>,
  { p }: AxisGains,
  edge: Pick<UltimatePoint, "p" | "frequency"> | null,
): number[] {
  const residuals: number[] = [];
  const swings = edge === null ? null : edge.frequency / (2 * Math.PI);
  if (diedOut !== null) {
    const room = edge === null ? IMPOSSIBLE : ln(edge.p / p) / SIGHTING_WIDTH.boundary;
    residuals.push(ofLikelihood(lnNormalBelow(diedOut ? room : -room)));
  }
  if (frequency !== null) {
    const size = 0.5 * frequency.size;
    const theory = SIGHTING_WIDTH.frequency * frequency.value;
    residuals.push(
      swings === null ? IMPOSSIBLE : (swings - frequency.value) / Math.sqrt(size * size + theory * theory),
    );
  }
  if (pace !== null)
    residuals.push(swings === null ? IMPOSSIBLE : ofLikelihood(lnPace(ln(swings / pace.than), pace.seen)));
  return residuals;
}

/** ln of how likely the pace is seen so, where the swings are by `faster` (a logarithm) faster than the picture's. */
function lnPace(faster: number, seen: "slower" | "same" | "faster"): number {
  const { pace, same } = SIGHTING_WIDTH;
  if (seen === "faster") return lnNormalBelow((faster - same) / pace);
  if (seen === "slower") return lnNormalBelow((-faster - same) / pace);
  const distance = Math.abs(faster);
  const [near, far] = [lnNormalBelow((same - distance) / pace), lnNormalBelow((-same - distance) / pace)];
  return near + ln(1 - exp(far - near));
}

const ofLikelihood = (logarithm: number): number => Math.min(IMPOSSIBLE, Math.sqrt(Math.max(0, -2 * logarithm)));
