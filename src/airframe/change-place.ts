// Where a key that somebody writes stands in a model: checked by the schema, list members by name or place.
import { z } from "zod";
import { at as memberAt } from "../base/at.js";
import { nearest, suggestion } from "../base/nearest.js";
import { type Path, pathText } from "../base/problem.js";
import { besidesTheWord } from "../base/shapes.js";
import { airframeSchema } from "./schema.js";

export interface Place {
  readonly path: Path;
  /** What is read there. */
  readonly schema: z.ZodType;
}

export interface PlaceFault {
  readonly fault: string;
}

/** The place of a key whose first step may be left out where that is clear: "latency" is controller.latency. */
export function placeIn(data: unknown, steps: Path): Place | PlaceFault {
  const whole = wholeKey(steps);
  return "fault" in whole ? whole : walked(data, whole.path);
}

/** What is read at a path of the data that its schema knows; undefined where it does not. */
export function schemaAt(data: unknown, path: Path): z.ZodType | undefined {
  const found = walked(data, path);
  return "fault" in found ? undefined : found.schema;
}

const ROOT = shapeOf(airframeSchema) ?? {};
const GROUPS = Object.entries(ROOT).flatMap(([key, schema]) =>
  Object.keys(shapeOf(plain(schema)) ?? {}).map((member) => ({ key, member })),
);

function wholeKey(steps: Path): { readonly path: Path } | PlaceFault {
  const [first] = steps;
  if (typeof first !== "string") return { fault: "expected a key first" };
  if (Object.hasOwn(ROOT, first)) return { path: steps };
  const groups = GROUPS.filter(({ member }) => member === first).map(({ key }) => key);
  if (groups.length === 1) return { path: [memberAt(groups, 0), ...steps] };
  const full = groups.map((group) => pathText([group, ...steps]));
  if (full.length > 1) return { fault: `stands in more than one group; expected ${full.join(" or ")}` };
  const near = nearest(first, [...Object.keys(ROOT), ...new Set(GROUPS.map(({ member }) => member))]);
  return { fault: near === null ? `unknown key${suggestion(first, Object.keys(ROOT))}` : `unknown key${meant(near)}` };
}

function meant(near: string): string {
  const groups = GROUPS.filter(({ member }) => member === near).map(({ key }) => `${key}.${near}`);
  const whole = Object.hasOwn(ROOT, near) ? [near] : groups;
  return ` (did you mean ${whole.map((key) => `"${key}"`).join(" or ")}?)`;
}

function walked(data: unknown, steps: Path): Place | PlaceFault {
  let schema: z.ZodType = airframeSchema;
  let here = data;
  const path: (string | number)[] = [];
  for (const step of steps) {
    schema = formOf(plain(schema), here);
    const next = stepInto(schema, here, step);
    if ("fault" in next) return { fault: path.length === 0 ? next.fault : `${pathText(path)}: ${next.fault}` };
    path.push(next.step);
    schema = next.schema;
    here = memberOf(here, next.step);
  }
  return { path, schema: plain(schema) };
}

type Step = { readonly step: string | number; readonly schema: z.ZodType } | PlaceFault;

function stepInto(schema: z.ZodType, here: unknown, step: string | number): Step {
  if (schema instanceof z.ZodArray) {
    const members: readonly unknown[] = Array.isArray(here) ? here : [];
    const element = schema.element as z.ZodType;
    return typeof step === "number" ? byPlace(members, element, step) : byName(members, element, step);
  }
  const shape = shapeOf(schema);
  if (shape === undefined) return { fault: `holds one value, so it has no ${pathText([step])}` };
  if (typeof step === "number")
    return { fault: `is no list, so it has no [${step}]; its keys are ${Object.keys(shape).join(", ")}` };
  const found = Object.hasOwn(shape, step) ? shape[step] : undefined;
  if (found === undefined) return { fault: `has no key ${step}${suggestion(step, Object.keys(shape))}` };
  return { step, schema: found };
}

/** One place behind the last is a new member's. */
function byPlace(members: readonly unknown[], schema: z.ZodType, step: number): Step {
  if (step <= members.length) return { step, schema };
  const last = members.length === 0 ? "it is empty" : `its last is [${members.length - 1}]`;
  return { fault: `has no [${step}]: ${last}` };
}

function byName(members: readonly unknown[], schema: z.ZodType, name: string): Step {
  const names = members.map((member) => nameOf(member));
  const places = names.flatMap((one, place) => (one === name ? [place] : []));
  const [step, second] = places;
  if (step !== undefined && second === undefined) return { step, schema };
  if (second !== undefined) return { fault: `more than one is called "${name}"; expected [${step}] or [${second}]` };
  const given = names.filter((one) => one !== null);
  if (given.length === 0) return { fault: `its members have no names; expected a place, as [0], found [${name}]` };
  return { fault: `no member is called "${name}"${suggestion(name, given)}` };
}

/** The name of a list's member; null where it has none. */
export function nameOf(member: unknown): string | null {
  const name = memberOf(member, "name");
  return typeof name === "string" ? name : null;
}

export const memberOf = (group: unknown, step: string | number): unknown =>
  typeof group === "object" && group !== null ? (group as Record<string | number, unknown>)[step] : undefined;

/** Without what makes it optional, or lets a word stand in its place. */
function plain(schema: z.ZodType): z.ZodType {
  if (schema instanceof z.ZodOptional) return plain(schema.unwrap() as z.ZodType);
  const other = besidesTheWord(schema);
  return other === undefined ? schema : plain(other);
}

function shapeOf(schema: z.ZodType): Readonly<Record<string, z.ZodType>> | undefined {
  return schema instanceof z.ZodObject ? (schema.shape as Record<string, z.ZodType>) : undefined;
}

/** Of several forms that which the data has. */
function formOf(schema: z.ZodType, data: unknown): z.ZodType {
  if (!(schema instanceof z.ZodUnion)) return schema;
  const form = schema.options.find((option) => (option as z.ZodType).safeParse(data).success);
  return plain((form ?? memberAt(schema.options, 0)) as z.ZodType);
}
