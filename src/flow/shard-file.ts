// A shard on disk: one line that says what it is a share of, the results of its tasks, and a seal over all of it.
import { z } from "zod";
import { canonicalJson } from "../base/canonical.js";
import { sameBytes, sha256 } from "../base/digest.js";
import { fileProblem, InputError } from "../base/problem.js";
import { readBinary } from "../files/binary.js";
import { writeAtomically } from "../files/write.js";
import { type EncodedTask, encodeTask, readTask } from "../run/encoded-task.js";
import { MOST_SHARES, type Share } from "../run/share.js";
import type { TaskResult } from "../run/task.js";
import { refuseOthers } from "./file-kind.js";

const LARGEST = 1024 * 2 ** 20; // bytes
const LONGEST_HEAD = 2 ** 20; // bytes
const SEAL = 32;

const text = () => z.string().max(4096);
const digest = () => z.string().regex(/^[0-9a-f]{64}$/);
const named = () => z.object({ name: text(), version: text() });

const headSchema = z.object({
  format: z.literal("gainscape.shard/1"),
  product: named(),
  /** Digest of the code that simulated it. */
  code: digest(),
  /** The command that was divided into shares, which merging completes. */
  command: z.discriminatedUnion("name", [
    z.object({ name: z.literal("sweep"), sweep: text(), model: text(), set: z.array(text()).max(100).optional() }),
    z.object({ name: z.literal("gate"), sweeps: z.array(text()).min(1).max(1000), baselines: text() }),
  ]),
  share: z.object({ index: z.int().min(1), of: z.int().min(1).max(MOST_SHARES) }),
  /** The plans that were simulated, in the order of the command. */
  plans: z.array(z.object({ airframe: text(), sweep: text(), digest: digest() })).max(10_000),
  /** Of a gate: digests of the baselines as they were, in the order of the plans. */
  baselines: z.array(digest()).max(10_000).optional(),
});

export type ShardHead = z.output<typeof headSchema>;
export type SharedCommand = ShardHead["command"];

export interface Shard {
  readonly file: string;
  readonly head: ShardHead;
  readonly tasks: readonly EncodedTask[];
}

export const shardName = ({ index, of }: Share): string => `shard-${index}-of-${of}.trials`;
export const SHARD_NAME = /^shard-\d+-of-\d+\.trials$/;

/** Throws NotWritten where the system refuses. */
export function writeShard(file: string, head: ShardHead, tasks: readonly (readonly [string, TaskResult])[]): void {
  const parts = [
    new TextEncoder().encode(`${canonicalJson(head)}\n`),
    ...tasks.map(([key, result]) => encodeTask(key, result)),
  ];
  writeAtomically(file, Buffer.concat([...parts, sha256(...parts)]));
}

/** The shard in a file. InputError where it is none, was cut short or was changed. */
export function readShard(file: string): Shard {
  refuseOthers(file, ["shard"], "a shard (of gainscape --shard)");
  const bytes = readBinary(file, LARGEST);
  const sealAt = Math.max(0, bytes.length - SEAL);
  const end = bytes.subarray(0, LONGEST_HEAD).indexOf(NEWLINE);
  const head = headOf(bytes.subarray(0, Math.max(0, end)));
  if (head === null) throw refuse(file, "is no shard written by gainscape --shard");
  if (!sameBytes(sha256(bytes.subarray(0, sealAt)), bytes.subarray(sealAt)))
    throw refuse(file, "was cut short or changed after it was written; simulate this shard again");
  const tasks: EncodedTask[] = [];
  for (let at = end + 1; at < sealAt; ) {
    const task = readTask(bytes.subarray(at, sealAt));
    if (typeof task === "string")
      throw refuse(file, `${task} (trial block ${tasks.length + 1}); simulate this shard again`);
    tasks.push(task);
    at += task.length;
  }
  return { file, head, tasks };
}

const NEWLINE = 10;

/** The command a shard is of, whatever else is wrong with the file; null where it does not say. */
export function commandOfShard(file: string): SharedCommand | null {
  try {
    const bytes = readBinary(file, LARGEST).subarray(0, LONGEST_HEAD);
    return headOf(bytes.subarray(0, Math.max(0, bytes.indexOf(NEWLINE))))?.command ?? null;
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

function headOf(line: Uint8Array): ShardHead | null {
  try {
    return headSchema.safeParse(JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(line))).data ?? null;
  } catch {
    return null; // no text, or no JSON
  }
}

const refuse = (file: string, message: string): InputError => new InputError([fileProblem(file, message)]);
