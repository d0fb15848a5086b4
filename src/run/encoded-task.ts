// One finished task as bytes of a file: format line, key, sizes, results, and a seal over all of it.
// Numbers stand in the machine's own byte order, and so do the gains in the key: what a machine of the other order
// wrote is never looked up.
import { at } from "../base/at.js";
import { hex, sameBytes, sha256 } from "../base/digest.js";
import { ABSENCES, MEASURE_IDS } from "../base/measures.js";
import { OUTCOMES, type TaskResult } from "./task.js";

const FORMAT = new TextEncoder().encode("gainscape.trials/1\n");
const KEY_AT = FORMAT.length;
const SIZES_AT = KEY_AT + 32; // trials and measures, 32 bits each
const STEPS_AT = SIZES_AT + 8;
const HEAD = STEPS_AT + 8;
const SEAL = 32;
const WIDTH = MEASURE_IDS.length;

const lengthOf = (trials: number): number => HEAD + trials * (9 * WIDTH + 9) + SEAL;

/** `key`: 64 hexadecimal digits. */
export function encodeTask(key: string, { values, until, absent, outcome, steps }: TaskResult): Uint8Array {
  const bytes = new Uint8Array(lengthOf(outcome.length));
  let at = 0;
  const append = (part: Uint8Array) => {
    bytes.set(part, at);
    at += part.length;
  };
  append(FORMAT);
  append(Buffer.from(key, "hex"));
  append(bytesOf(Uint32Array.of(outcome.length, WIDTH)));
  append(bytesOf(Float64Array.of(steps)));
  append(bytesOf(values));
  append(bytesOf(until));
  append(absent);
  append(outcome);
  append(sha256(bytes.subarray(0, at)));
  return bytes;
}

export interface EncodedTask {
  readonly key: string;
  readonly result: TaskResult;
  /** Bytes it took. */
  readonly length: number;
}

/** The task these bytes begin with, or a short reason why there is none. */
export function readTask(bytes: Uint8Array): EncodedTask | string {
  if (!sameBytes(bytes.subarray(0, KEY_AT), FORMAT)) return "is not a file of cached trials";
  if (bytes.length < HEAD + SEAL) return "was cut short";
  const [trials = 0, width = 0] = new Uint32Array(copyOf(bytes, SIZES_AT, STEPS_AT).buffer);
  const length = lengthOf(trials);
  if (width === WIDTH && bytes.length < length) return "was cut short";
  const sealAt = length - SEAL;
  if (width !== WIDTH || !sameBytes(sha256(bytes.subarray(0, sealAt)), bytes.subarray(sealAt, length)))
    return "was changed after it was written";
  const result = resultOf(bytes, trials);
  if (!isSound(result)) return "holds what no trial gives";
  return { key: hex(bytes.subarray(KEY_AT, SIZES_AT)), result, length };
}

/** The results of just this task from a file of its own, or a short reason why they are not there. */
export function decodeTask(key: string, trials: number, bytes: Uint8Array): TaskResult | string {
  const decoded = readTask(bytes);
  if (typeof decoded === "string") return decoded;
  if (decoded.key !== key || decoded.result.outcome.length !== trials) return "holds other trials than its name says";
  return decoded.length === bytes.length ? decoded.result : "was changed after it was written";
}

function resultOf(bytes: Uint8Array, trials: number): TaskResult {
  const untilAt = HEAD + 8 * trials * WIDTH;
  const absentAt = untilAt + 8 * trials;
  const outcomeAt = absentAt + trials * WIDTH;
  return {
    values: new Float64Array(copyOf(bytes, HEAD, untilAt).buffer),
    until: new Float64Array(copyOf(bytes, untilAt, absentAt).buffer),
    absent: copyOf(bytes, absentAt, outcomeAt),
    outcome: copyOf(bytes, outcomeAt, outcomeAt + trials),
    steps: at(new Float64Array(copyOf(bytes, STEPS_AT, HEAD).buffer), 0),
  };
}

/** A sealed file may still have been made to mislead: nothing comes in that no trial gives. */
const isSound = ({ values, until, absent, outcome, steps }: TaskResult): boolean =>
  Number.isSafeInteger(steps) &&
  steps >= 0 &&
  outcome.every((code) => code < OUTCOMES.length) &&
  absent.every((code) => code < ABSENCES.length) &&
  until.every((time) => Number.isFinite(time) && time >= 0) &&
  values.every((value) => Number.isFinite(value));

/** Copied: numbers must stand aligned, and results outlive the file's bytes. */
const copyOf = (bytes: Uint8Array, from: number, to: number): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(bytes.subarray(from, to));

const bytesOf = ({ buffer, byteOffset, byteLength }: Float64Array | Uint32Array): Uint8Array =>
  new Uint8Array(buffer, byteOffset, byteLength);
