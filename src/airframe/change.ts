// A model's data with some keys set or taken out: other spreads, tables and places stay as true as they were.
import { z } from "zod";
import { measuredBy, writtenIn } from "../base/fields.js";
import { stepsOf } from "../base/key-path.js";
import { type Path, pathText } from "../base/problem.js";
import { type PlacedSpread, spreadsIn } from "../base/spreads-in.js";
import { memberOf, nameOf, type Place, schemaAt } from "./change-place.js";
import { type Placed, placedSpreadText } from "./change-spread.js";
import { airframeSchema } from "./schema.js";

/** Plain data as a model's file holds it. Nothing in it is shared with what it was made from. */
export type ModelData = unknown;

/** The data with `value` at the place; one group where a list is read stands for a list of one. */
export function withValue(data: ModelData, { path, schema }: Place, value: unknown): ModelData {
  const changed = structuredClone(data);
  put(changed, path, asListed(schema, value));
  keepSpreads(data, changed, path);
  followTable(data, changed, path);
  return changed;
}

/** The data without the key, or the member of a list; null where nothing stands there. */
export function withoutKey(data: ModelData, { path }: Place): ModelData | null {
  const changed = structuredClone(data);
  const group = path.slice(0, -1).reduce<unknown>(memberOf, changed);
  const last = path.at(-1);
  if (last === undefined || memberOf(group, last) === undefined) return null;
  if (Array.isArray(group)) group.splice(Number(last), 1);
  else delete (group as Record<string | number, unknown>)[last];
  return changed;
}

function asListed(schema: z.ZodType, value: unknown): unknown {
  const isGroup = typeof value === "object" && value !== null && !Array.isArray(value);
  return schema instanceof z.ZodArray && isGroup ? [value] : value;
}

function put(data: unknown, path: Path, value: unknown): void {
  let here = data as Record<string | number, unknown>;
  for (const [place, step] of path.entries()) {
    const next = path[place + 1];
    if (next === undefined) here[step] = value;
    else {
      here[step] ??= typeof next === "number" ? [] : {};
      here = here[step] as Record<string | number, unknown>;
    }
  }
}

/** Numbers under the path that had a spread and are written without one keep theirs. */
function keepSpreads(before: unknown, changed: unknown, path: Path): void {
  for (const spread of spreadsIn(airframeSchema, before)) {
    if (!isUnder(spread.path, path) || !isSameMember(before, changed, spread.path)) continue;
    const written = spread.path.reduce<unknown>(memberOf, changed);
    const text = spreadText(changed, spread, written);
    if (text !== null) put(changed, spread.path, text);
  }
}

const isUnder = (path: Path, group: Path): boolean => group.every((step, place) => path[place] === step);

/** A member of another name is another thing: what was unsure of the first says nothing of it. */
const isSameMember = (before: unknown, changed: unknown, path: Path): boolean =>
  path.every((_, place) => {
    return nameOf(at(before, path, place)) === nameOf(at(changed, path, place));
  });

function spreadText(data: unknown, before: PlacedSpread, written: unknown): string | null {
  const schema = schemaAt(data, before.path);
  const measured = schema === undefined ? undefined : measuredBy(schema);
  if (schema === undefined || measured === undefined) return null;
  const reading = measured.read(written);
  if ("fault" in reading || reading.value.spread !== null) return null;
  const placed: Placed = { written: String(written).trim(), nominal: reading.value.value, unit: writtenIn(schema) };
  const text = placedSpreadText(before, placed);
  return text !== null && "value" in measured.read(text) ? text : null;
}

/** A propeller's table scales with its ct and cp, as it does in draws: both are of the same measured run. */
function followTable(before: unknown, changed: unknown, path: Path): void {
  const key = pathText(path);
  const column = key === "propeller.ct" ? "ct" : key === "propeller.cp" ? "cp" : null;
  const schema = column === null ? undefined : schemaAt(before, path);
  if (column === null || schema === undefined) return;
  const [from, to] = [before, changed].map((data) => {
    const result = schema.safeParse(path.reduce<unknown>(memberOf, data));
    return result.success ? Number(result.data) : Number.NaN;
  });
  const factor = Number(to) / Number(from);
  if (!Number.isFinite(factor) || factor === 1) return;
  const table = ["propeller", "table"].reduce<unknown>(memberOf, changed);
  for (const row of Array.isArray(table) ? table : []) if (typeof row[column] === "number") row[column] *= factor;
}

/**
 * The first key of the model's correlations that would be another number's after the change: its list has other members, or the
 * same in other places. Null where each is what it was, or gone, which reading the model finds.
 */
export function mistakenKey(
  before: unknown,
  changed: unknown,
  { path, schema }: Place,
  isGone: boolean,
): string | null {
  const place = path.at(-1);
  const isMember = isGone && typeof place === "number";
  const list = isMember ? path.slice(0, -1) : path;
  const isOtherList = isMember || (!isGone && isListOfGroups(schema));
  const pairs = memberOf(before, "correlations");
  const keys = (Array.isArray(pairs) ? pairs : []).flatMap((pair) => [memberOf(pair, "one"), memberOf(pair, "other")]);
  const mistaken = keys.find((key) => {
    const steps = typeof key === "string" ? stepsOf(key) : null;
    if (steps === null) return false;
    if (!isSameMember(before, changed, steps)) return true;
    const index = steps[list.length];
    const isAfter = !isMember || (typeof index === "number" && index >= Number(place));
    return isOtherList && isUnder(steps, list) && isAfter && nameOf(at(before, steps, list.length + 1)) === null;
  });
  return typeof mistaken === "string" ? mistaken : null;
}

const at = (data: unknown, path: Path, steps: number): unknown => path.slice(0, steps).reduce<unknown>(memberOf, data);

const isListOfGroups = (schema: z.ZodType): boolean =>
  schema instanceof z.ZodArray && (schema.element instanceof z.ZodObject || schema.element instanceof z.ZodUnion);
