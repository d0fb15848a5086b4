// A shard on disk: a share of a command's grids, the results of its tasks as the cache has them.
import { z } from "zod";
import { fileProblem, InputError } from "../base/problem.js";
import { type EncodedTask, encodeTask, readTask } from "../run/encoded-task.js";
import type { Share } from "../run/share.js";
import type { TaskResult } from "../run/task.js";
import {
  commandOfShare,
  digestShape,
  HEAD_SHAPE,
  readShareFile,
  type SharedCommand,
  type ShareKind,
  writeShareFile,
} from "./share-file.js";

const head = z.object({
  format: z.literal("gainscape.shard/1"),
  ...HEAD_SHAPE,
  /** Of a gate: digests of the baselines as they were, in the order of the plans. */
  baselines: z.array(digestShape()).max(10_000).optional(),
});

export type ShardHead = z.output<typeof head>;

const SHARD: ShareKind<ShardHead> = {
  kind: "shard",
  expected: "a shard (of gainscape --shard)",
  noun: "shard",
  largest: 1024 * 2 ** 20,
  head,
};

export interface Shard {
  readonly file: string;
  readonly head: ShardHead;
  readonly tasks: readonly EncodedTask[];
}

export const shardName = ({ index, of }: Share): string => `shard-${index}-of-${of}.trials`;
export const SHARD_NAME = /^shard-\d+-of-\d+\.trials$/;

/** Throws NotWritten where the system refuses. */
export const writeShard = (file: string, head: ShardHead, tasks: readonly (readonly [string, TaskResult])[]): void =>
  writeShareFile(
    file,
    head,
    tasks.map(([key, result]) => encodeTask(key, result)),
  );

/** The shard in a file. InputError where it is none, was cut short or was changed. */
export function readShard(file: string): Shard {
  const { head, content } = readShareFile(file, SHARD);
  const tasks: EncodedTask[] = [];
  for (let at = 0; at < content.length; ) {
    const task = readTask(content.subarray(at));
    if (typeof task === "string") {
      const message = `${task} (trial block ${tasks.length + 1}); simulate this shard again`;
      throw new InputError([fileProblem(file, message)]);
    }
    tasks.push(task);
    at += task.length;
  }
  return { file, head, tasks };
}

/** The command a shard is of, whatever else is wrong with the file; null where it does not say. */
export const commandOfShard = (file: string): SharedCommand | null => commandOfShare(file, SHARD);
