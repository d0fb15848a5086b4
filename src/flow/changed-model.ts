// A model with some of its numbers set anew from a command line, without a file of its own: `--set pack.cells=6`.
import type { Airframe } from "../airframe/airframe.js";
import { mistakenKey, withoutKey, withValue } from "../airframe/change.js";
import { placeIn } from "../airframe/change-place.js";
import { parseAirframe } from "../airframe/resolve.js";
import type { Document } from "../base/document.js";
import { deepFreeze } from "../base/freeze.js";
import { holdsHidden } from "../base/hidden.js";
import { keyAndValue, LONGEST_SETTING, MOST_SETTINGS, stepsOf } from "../base/key-path.js";
import { fileProblem, InputError, type Problem, Problems, pathText } from "../base/problem.js";
import { shellLine } from "../base/shell-words.js";
import { readYaml } from "../files/yaml.js";
import { refuseOthers } from "./file-kind.js";
import { readAirframe, type WithDocument } from "./read.js";

const OPTION = "--set";
/** They say which model it is, not what it is like. */
const IDENTITY = new Set(["format", "name", "version", "title", "notes", "flights"]);

interface Change {
  /** As it may be typed: "pack.cells=6". */
  readonly text: string;
  /** As messages spell it. */
  readonly key: string;
}

/**
 * The model, itself changed or not, with each `key=value` set, in their order; an empty value takes the key out. Its version says
 * what was changed, so that it is never taken for the file's. Throws InputError with a line per option that cannot be.
 */
export function changedModel(model: WithDocument<Airframe>, options: readonly string[]): WithDocument<Airframe> {
  if (options.length === 0) return model;
  if (options.length > MOST_SETTINGS)
    throw refusal(OPTION, `given ${options.length} times, expected at most ${MOST_SETTINGS}`);
  const changes: Change[] = [];
  let { data } = model.document;
  const problems = new Problems();
  for (const text of options) {
    const change = problems.attempt(() => changeOf(data, text, changes));
    if (change === null) continue;
    changes.push(change);
    data = change.data;
  }
  problems.throwIfAny();
  const document: Document = { ...model.document, data, place: () => ({ line: 0, column: 0 }) };
  const airframe = parsed(document, changes);
  const all = [...(model.value.changed ?? []), ...changes.map(({ text }) => text)];
  const version = `${airframe.version} with ${all.map(settingWords).join(", ")}`;
  return { value: deepFreeze({ ...airframe, version, changed: all }), document };
}

/** "pack.cells = 6" or "no sensing.notch". */
function settingWords(text: string): string {
  const [key, value] = keyAndValue(text) ?? [text, ""];
  return value === "" ? `no ${key}` : `${key} = ${value}`;
}

/** Whether the text takes out a key that the model does not have. */
export function takesOutNothing({ document }: WithDocument<Airframe>, text: string): boolean {
  const [key = "", value] = keyAndValue(text) ?? [];
  const steps = value === "" ? stepsOf(key) : null;
  const place = steps === null ? null : placeIn(document.data, steps);
  return place !== null && !("fault" in place) && withoutKey(document.data, place) === null;
}

function changeOf(data: unknown, text: string, earlier: readonly Change[]): Change & { readonly data: unknown } {
  const [key, value] = keyAndValue(text) ?? [text.trim(), null];
  const complaint = (message: string) => refusal(OPTION, message, key);
  if (value === null) throw complaint('expected key=value, as --set "motor.resistance=80 mohm"');
  if (text.length > LONGEST_SETTING) throw complaint(`${text.length} characters, expected at most ${LONGEST_SETTING}`);
  if (holdsHidden(text)) throw complaint("holds characters that cannot be printed on one line");
  const steps = stepsOf(key);
  if (steps === null) throw complaint('not a key; expected one as messages spell it, "frame.parts[2].mass"');
  const place = placeIn(data, steps);
  if ("fault" in place) throw complaint(place.fault);
  const whole = pathText(place.path);
  if (IDENTITY.has(String(place.path[0])))
    throw complaint("says which model this is; expected a number of the craft, for a changed model says so itself");
  if (earlier.some((change) => change.key === whole)) throw complaint("given twice");
  const isGone = value === "";
  const after = isGone ? withoutKey(data, place) : withValue(data, place, yamlValue(value, complaint));
  if (after === null) throw complaint("is not there, so an empty value has nothing to take out");
  const mistaken = mistakenKey(data, after, place, isGone);
  if (mistaken !== null)
    throw complaint(
      `correlations name ${mistaken}, which would be another number then, or none; take them out before, with --set correlations=`,
    );
  return { text: `${whole}=${value}`, key: whole, data: after };
}

function yamlValue(text: string, complaint: (message: string) => InputError): unknown {
  try {
    return readYaml(OPTION, text).data;
  } catch (error) {
    if (error instanceof InputError) throw complaint(error.problems[0]?.message ?? "cannot be read");
    throw error;
  }
}

/** The changed model read as a file is; its first problem per option, since the file itself has none. */
function parsed(document: Document, changes: readonly Change[]): Airframe {
  try {
    return parseAirframe(document);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const own = changes.flatMap(({ key, text }) => {
      const problem = error.problems.find(({ path }) => path === key || /^[.[]/.test(afterKey(path, key)));
      if (problem === undefined) return [];
      const isNeeded = problem.path === key && text === `${key}=`;
      return [{ ...problem, file: OPTION, ...(isNeeded ? { message: NEEDED } : {}) }];
    });
    const options = shellLine(changes.flatMap(({ text }) => [OPTION, text]));
    const [first] = error.problems;
    throw new InputError(own.length > 0 || first === undefined ? own : [{ ...first, file: options }]);
  }
}

const NEEDED = "no model is without it, so an empty value cannot take it out; expected a value";

const afterKey = (path: string, key: string): string => (path.startsWith(key) ? path.slice(key.length) : "");

const refusal = (file: string, message: string, path = ""): InputError => {
  const problem: Problem = { ...fileProblem(file, message), path };
  return new InputError([problem]);
};

/** The model of a file whose keys are to be set. Throws InputError with every problem of the file. */
export function readModelToChange(path: string): WithDocument<Airframe> {
  refuseOthers(path, ["model"], `a model, whose keys ${OPTION} sets`);
  return readAirframe(path);
}

/** The options that make the model again from its file. */
export const setWords = ({ changed = [] }: Pick<Airframe, "changed">): string[] =>
  changed.flatMap((text) => [OPTION, text]);
