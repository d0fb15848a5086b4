// From a script document to the frozen Script.
import { check } from "../base/check.js";
import { type Document, problemAt } from "../base/document.js";
import { deepFreeze } from "../base/freeze.js";
import { InputError } from "../base/problem.js";
import { scriptFaults } from "./script-faults.js";
import { type ScriptFile, scriptSchema } from "./script-schema.js";
import type { Script, Timeline } from "./sweep.js";

/** The script of a document; InputError with every problem found. */
export function parseScript(document: Document): Script {
  const file = check(scriptSchema, document);
  const faults = scriptFaults(file);
  if (faults.length > 0) throw new InputError(faults.map(({ path, message }) => problemAt(document, path, message)));
  return deepFreeze(resolved(file));
}

function resolved({
  format: _,
  notes: __,
  noise,
  throttle,
  command,
  yaw,
  climb,
  descent,
  gusts,
  ...same
}: ScriptFile): Script {
  return {
    ...same,
    axes: [...new Set(same.axes)],
    noise: noise === "on",
    throttle: timeline(throttle, { kind: "level", plus: 0 }),
    command: timeline(command, { kind: "rate", rate: 0 }),
    yaw: timeline(yaw, { kind: "rate", rate: 0 }),
    climb: timeline(climb, { kind: "speed", speed: 0 }),
    descent: timeline(descent, { kind: "speed", speed: 0 }),
    gusts: gusts ?? [],
  };
}

const timeline = <V>(points: readonly { at: number; value: V }[] | undefined, rest: V): Timeline<V> =>
  points === undefined ? [[0, rest]] : points.map(({ at, value }) => [at, value] as const);

/** Whether a script's throttle follows the swept level, and its commands the swept rate. */
export const varies = (script: Script): { throttle: boolean; rate: boolean } => ({
  throttle: script.throttle.some(([, value]) => value.kind === "level"),
  rate: [...script.command, ...script.yaw].some(([, value]) => value.kind === "share"),
});
