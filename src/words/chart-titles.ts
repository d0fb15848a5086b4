// Titles of the charts: each says what its chart shows to be so, from the numbers it draws.
import { type MeasureId, measureOf } from "../base/measures.js";
import type { AxisDrift } from "../compare/format.js";
import type { ConditionBoundary, StabilityMap } from "../map/format.js";
import { sureOf } from "../map/sure.js";
import { usefulFirst } from "../map/useful.js";
import { AXIS_TITLES, type Axis } from "./axes.js";
import { ofDraws } from "./confidence-words.js";
import { signed } from "./drift-words.js";
import { lowerFirst } from "./limit-words.js";
import { count, percent, withUnit } from "./numbers.js";
import { mostLowered } from "./theory-words.js";
import { unitLabel } from "./units.js";

const twoDigits = (value: number): string => withUnit(Number(Math.abs(value).toPrecision(2)), "%");

/** "Roll: 16.7 % of the swept points are safe". */
export const mapTitle = (map: StabilityMap, name: Axis): string => `${AXIS_TITLES[name]}: ${mapFinding(map, name)}`;

/** The same without the axis: it is of everything together, and no level's own. */
export function mapFinding(map: StabilityMap, name: Axis): string {
  const axis = map.axes[name];
  const sure = sureOf(map, axis);
  const share = sure === null ? axis.safeShare : sure.safeShare;
  const who = share === 0 ? "no swept point is" : `${percent(share)} of the swept points are`;
  return `${who} safe${sure === null ? "" : ` in ${ofDraws(sure.confidence)}`}`;
}

/** "Roll, bounce-back: 6.36 % at the start, limit 15 %". */
export function measureTitle(map: StabilityMap, name: Axis, id: MeasureId): string {
  const { title, unit } = measureOf(id);
  const value = map.axes[name].start?.measures[id];
  const limit = map.limits[id];
  const seen = value == null ? "nothing to measure at the start" : `${withUnit(value, unitLabel(unit))} at the start`;
  const here = map.axes[name].start === null ? "no start" : seen;
  return `${AXIS_TITLES[name]}, ${lowerFirst(title)}: ${here}${limit === null ? "" : `, limit ${withUnit(limit, unitLabel(unit))}`}`;
}

/** Changes below this share of P are none that a chart could show. */
const SEEN = 0.02;

/** P at which the range that counts ends inside the sweep; null elsewhere. */
function endAt({ perD }: ConditionBoundary, row: number): number | null {
  const first = usefulFirst(perD[row]?.stable ?? [])[0];
  return first === undefined || first.toOpen ? null : first.to;
}

/** "Roll, fresh pack: at 70 % throttle the boundary is 42 % lower than at 34 %"; levels with the highest throttle first. */
export function throttleTitle(name: Axis, condition: string, levels: readonly ConditionBoundary[]): string {
  const who = `${AXIS_TITLES[name]}, ${condition}`;
  const [high, low] = [levels[0], levels.at(-1)];
  if (high === undefined || low === undefined || high === low) return `${who}: simulated at one throttle`;
  const row = high.perD.findIndex((_, k) => endAt(high, k) !== null && endAt(low, k) !== null);
  const [at, from] = [endAt(high, row), endAt(low, row)];
  if (at === null || from === null) return `${who}: no two throttles have an end at the same D`;
  const change = at / from - 1;
  if (Math.abs(change) < SEEN) return `${who}: throttle hardly moves the boundary`;
  const [more, less] = [withUnit(high.throttle, "%"), withUnit(low.throttle, "%")];
  return `${who}: at ${more} throttle the boundary is ${twoDigits(100 * change)} ${change < 0 ? "lower" : "higher"} than at ${less}`;
}

/** "Roll: hard manoeuvres lower the boundary by 1.4 % at most". */
export function manoeuvreTitle(map: StabilityMap, name: Axis): string {
  const share = mostLowered(map.axes[name]);
  if (share === null) return `${AXIS_TITLES[name]}: no D shows both boundaries`;
  if (share === 0) return `${AXIS_TITLES[name]}: hard manoeuvres take nothing from the boundary`;
  return `${AXIS_TITLES[name]}: hard manoeuvres lower the boundary by up to ${twoDigits(share)}`;
}

/** "Roll: the boundary falls by up to 10 %". */
export function shiftTitle(name: Axis, { shift: { lowest, highest } }: AxisDrift): string {
  const who = AXIS_TITLES[name];
  if (lowest === null || highest === null) return `${who}: no D has a shift of the boundary`;
  if (lowest.percent === 0 && highest.percent === 0) return `${who}: the boundary stays where it was`;
  const [low, high] = [signed(lowest.percent), signed(highest.percent)];
  return low === high
    ? `${who}: the boundary moves by ${low}\u00a0%`
    : `${who}: the boundary moves by ${low} to ${high}\u00a0%`;
}

/** "Roll: 12 safe points lost, 3 gained". */
export function safeTitle(name: Axis, { safe: { lost, gained } }: AxisDrift): string {
  if (lost === 0 && gained === 0) return `${AXIS_TITLES[name]}: no safe point lost, none gained`;
  return `${AXIS_TITLES[name]}: ${count(lost)} safe ${lost === 1 ? "point" : "points"} lost, ${count(gained)} gained`;
}
