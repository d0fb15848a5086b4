// A file that holds a share of a command's work: one line that says what it is a share of, its content, and a seal over both.
import { z } from "zod";
import { canonicalJson } from "../base/canonical.js";
import { sameBytes, sha256 } from "../base/digest.js";
import { fileProblem, InputError } from "../base/problem.js";
import { version } from "../base/version.js";
import { readBinary } from "../files/binary.js";
import { writeAtomically } from "../files/write.js";
import type { Plan } from "../plan/plan.js";
import { MOST_SHARES, type Share } from "../run/share.js";
import { type FileKind, refuseOthers } from "./file-kind.js";

const LONGEST_HEAD = 2 ** 20; // bytes
const SEAL = 32;
const NEWLINE = 10;

const text = () => z.string().max(4096);
const named = () => z.object({ name: text(), version: text() });
export const digestShape = () => z.string().regex(/^[0-9a-f]{64}$/);

/** What every share says of itself. */
export const HEAD_SHAPE = {
  product: named(),
  /** Digest of the code that made it. */
  code: digestShape(),
  /** The command that was divided into shares, which merging completes. */
  command: z.discriminatedUnion("name", [
    z.object({ name: z.literal("sweep"), sweep: text(), model: text(), set: z.array(text()).max(100).optional() }),
    z.object({ name: z.literal("gate"), sweeps: z.array(text()).min(1).max(1000), baselines: text() }),
  ]),
  share: z.object({ index: z.int().min(1), of: z.int().min(1).max(MOST_SHARES) }),
  /** The plans that were simulated, in the order of the command. */
  plans: z.array(z.object({ airframe: text(), sweep: text(), digest: digestShape() })).max(10_000),
};

const headShape = z.object(HEAD_SHAPE);
export type ShareHead = z.output<typeof headShape>;
export type SharedCommand = ShareHead["command"];

/** The head of a share of the command, made by code of this digest. */
export const headOfShare = (command: SharedCommand, plans: readonly Plan[], share: Share, code: string): ShareHead => ({
  product: { name: "gainscape", version: version() },
  code,
  command,
  share,
  plans: plans.map(({ airframe, sweep, digests }) => ({
    airframe: `${airframe.name} ${airframe.version}`,
    sweep: sweep.name,
    digest: digests.plan,
  })),
});

/** How a kind of share is read. */
export interface ShareKind<Head> {
  readonly kind: FileKind;
  /** What is expected, and what such a file is called in a sentence. */
  readonly expected: string;
  readonly noun: string;
  readonly largest: number; // bytes
  readonly head: z.ZodType<Head>;
}

/** Throws NotWritten where the system refuses. */
export function writeShareFile(file: string, head: ShareHead, content: readonly Uint8Array[]): void {
  const parts = [new TextEncoder().encode(`${canonicalJson(head)}\n`), ...content];
  writeAtomically(file, Buffer.concat([...parts, sha256(...parts)]));
}

/** InputError where the file is none of this kind, was cut short or was changed. */
export function readShareFile<Head>(
  file: string,
  { kind, expected, noun, largest, head: shape }: ShareKind<Head>,
): { readonly head: Head; readonly content: Uint8Array } {
  refuseOthers(file, [kind], expected);
  const bytes = readBinary(file, largest);
  const sealAt = Math.max(0, bytes.length - SEAL);
  const end = bytes.subarray(0, LONGEST_HEAD).indexOf(NEWLINE);
  const head = headIn(bytes.subarray(0, Math.max(0, end)), shape);
  if (head === null) throw refuse(file, `is no ${noun} written by gainscape --shard`);
  if (!sameBytes(sha256(bytes.subarray(0, sealAt)), bytes.subarray(sealAt)))
    throw refuse(file, "was cut short or changed after it was written; simulate this shard again");
  return { head, content: bytes.subarray(end + 1, sealAt) };
}

/** The command a share is of, whatever else is wrong with the file; null where it does not say. */
export function commandOfShare<Head extends ShareHead>(
  file: string,
  { largest, head }: ShareKind<Head>,
): SharedCommand | null {
  try {
    const bytes = readBinary(file, largest).subarray(0, LONGEST_HEAD);
    return headIn(bytes.subarray(0, Math.max(0, bytes.indexOf(NEWLINE))), head)?.command ?? null;
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

function headIn<Head>(line: Uint8Array, shape: z.ZodType<Head>): Head | null {
  try {
    return shape.safeParse(JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(line))).data ?? null;
  } catch {
    return null; // no text, or no JSON
  }
}

const refuse = (file: string, message: string): InputError => new InputError([fileProblem(file, message)]);
