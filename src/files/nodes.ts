// From YAML nodes to plain data, with faults for exceeded caps and duplicate keys; and from a path back to
// its offset in the text.
import { isAlias, isMap, isScalar, isSeq, type Node, type Pair, type YAMLMap } from "yaml";
import type { Path } from "../base/problem.js";

const DEEPEST = 32; // levels
const MOST_ALIASES = 100; // each use counts, also inside what another one brings
const MOST_VALUES = 50_000;

/** A fault at an offset of the text. */
export interface NodeFault {
  readonly offset: number;
  readonly path: Path;
  readonly message: string;
}

type Anchors = Map<string, Node>;
type Content = Node | null | undefined;

export interface Tree {
  readonly data: unknown;
  readonly faults: readonly NodeFault[];
  /** Offset of the value at a path, or of the path's last key; where absent, of what should hold it. */
  offsetOf(path: Path, of: "value" | "key"): number;
}

/** Plain data of a node. Groups have no prototype, so no key of a file can reach one. */
export function treeOf(root: Content): Tree {
  const walk: Walk = { anchors: new Map(), faults: [], aliases: 0, values: 0, repeating: false, stopped: false };
  const data = dataOf(walk, root, [], 0);
  return { data, faults: walk.faults, offsetOf: (path, of) => find(root, walk.anchors, path, of) };
}

interface Walk {
  readonly anchors: Anchors;
  readonly faults: NodeFault[];
  aliases: number;
  values: number;
  /** Inside what an alias brings; its anchors were met before. */
  repeating: boolean;
  stopped: boolean;
}

function dataOf(walk: Walk, node: Content, path: Path, depth: number): unknown {
  if (walk.stopped || node === null || node === undefined) return null;
  if (++walk.values > MOST_VALUES) return stop(walk, node, [], `more than ${MOST_VALUES} values`);
  if (depth > DEEPEST) return stop(walk, node, [], `nested more than ${DEEPEST} levels deep`);
  if (isAlias(node)) return aliased(walk, node, path, depth);
  if (node.anchor !== undefined && !walk.repeating) walk.anchors.set(node.anchor, node);
  if (isMap(node)) return groupOf(walk, node, path, depth);
  if (isSeq(node)) return node.items.map((item, at) => dataOf(walk, item as Content, [...path, at], depth + 1));
  if (isScalar(node) && (node.value === null || typeof node.value !== "object")) return node.value;
  return stop(walk, node, path, "an unknown tag");
}

function aliased(walk: Walk, node: Node & { source: string }, path: Path, depth: number): unknown {
  const target = walk.anchors.get(node.source);
  if (target === undefined) return stop(walk, node, path, `no anchor "${node.source}" before this alias`);
  if (++walk.aliases > MOST_ALIASES) return stop(walk, node, [], `more than ${MOST_ALIASES} aliases`);
  const before = walk.repeating;
  walk.repeating = true;
  const value = dataOf(walk, target, path, depth + 1);
  walk.repeating = before;
  return value;
}

function groupOf(walk: Walk, node: YAMLMap, path: Path, depth: number): unknown {
  const group: Record<string, unknown> = Object.create(null);
  const keys = new Set<string>();
  for (const pair of node.items) {
    const key = keyOf(pair);
    const place = [...path, key];
    if (keys.has(key))
      walk.faults.push({ offset: startOf(pair.key as Content), path: place, message: "key given twice" });
    else group[key] = dataOf(walk, pair.value as Content, place, depth + 1);
    keys.add(key);
  }
  return group;
}

function stop(walk: Walk, node: Node, path: Path, message: string): null {
  walk.stopped = true;
  walk.faults.push({ offset: startOf(node), path, message });
  return null;
}

function find(root: Content, anchors: Anchors, path: Path, of: "value" | "key"): number {
  let node = root;
  let key = root;
  for (const [at, step] of path.entries()) {
    node = isAlias(node) ? anchors.get(node.source) : node;
    const pair = isMap(node) ? node.items.find((item) => keyOf(item) === String(step)) : undefined;
    const item = isSeq(node) && typeof step === "number" ? (node.items[step] as Content) : undefined;
    if (pair === undefined && item === undefined) return startOf(key);
    key = pair === undefined ? item : (pair.key as Content);
    node = pair === undefined ? item : (pair.value as Content);
    if (at === path.length - 1 && of === "key") return startOf(key);
  }
  return startOf(node ?? key);
}

const keyOf = (pair: Pair): string => (isScalar(pair.key) ? String(pair.key.value) : "");

const startOf = (node: Content): number => node?.range?.[0] ?? 0;
