// Changed keys of a model in groups whose share in a drift theory can tell, and those that theory does not read.
import type { Airframe } from "../airframe/airframe.js";
import { chainDelay, gyroChain, slopeChain } from "../airframe/filter.js";
import type { Path } from "../base/problem.js";
import type { ChangedGroup } from "../why/mixed.js";
import { modelKey } from "./model-keys.js";

/** Of the number that a group stands for. */
export type Direction = "more" | "less" | "other";

export interface DirectedGroup extends ChangedGroup {
  readonly change: Direction;
}

export interface ChangedGroups {
  readonly groups: readonly DirectedGroup[];
  /** Changed keys that theory does not read, as files spell them: what they do only trials show. */
  readonly unread: readonly string[];
}

interface KnownGroup extends ChangedGroup {
  /** What is more or less of it; left out where no one number says so. */
  readonly size?: (airframe: Airframe) => number;
}

const sumOf = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0);

/** Those of more than one key, and those whose size is not their key's. Files weigh parts: mass, place and inertia are one. */
const KNOWN: readonly KnownGroup[] = [
  {
    id: "frame",
    where: [["mass"], ["centreOfMass"], ["inertia"]],
    size: ({ inertia }) => inertia.xx + inertia.yy,
  },
  { id: "rotors", where: [["rotors"]], size: ({ rotors }) => sumOf(rotors.map(({ at: [x, y] }) => x * x + y * y)) },
  {
    id: "propeller.cp",
    where: [
      ["propeller", "cp"],
      ["propeller", "cpSlope"],
    ],
    size: ({ propeller }) => propeller.cp,
  },
  { id: "motor.kv", where: [["motor", "constant"]], size: ({ motor }) => 1 / motor.constant },
  {
    id: "pack.open_circuit",
    where: [["pack", "openCircuit"]],
    size: ({ pack }) => sumOf(pack.openCircuit.map(([, volts]) => volts)) / pack.openCircuit.length,
  },
  { id: "sensing.low_pass", where: [["sensing", "lowPass"]], size: (one) => chainDelay(gyroChain(one), one) },
  {
    id: "controller.rate_derivative_filter",
    where: [["controller", "derivativeFilter"]],
    size: (one) => chainDelay(slopeChain(one), one),
  },
];

/** Theory reads neither noise nor wash, nor what moves no edge of stability or only trials run into. */
const UNREAD =
  /^(wash|pack\.capacity|propeller\.blades|sensing\.(noiseDensity|vibration)|controller\.(idle|integralLimit|substeps|commandLowPass|feedForward))\b/;
/** What a number or a craft is called, not what it is. */
const NOTHING_PHYSICAL = /^(name$|controller\.scale\b)/;

export function changedGroups(
  changes: readonly { readonly path: Path; readonly key: string }[],
  base: Airframe,
  candidate: Airframe,
): ChangedGroups {
  const found = new Map<string, DirectedGroup>();
  const unread = new Set<string>();
  for (const { path, key } of changes) {
    if (NOTHING_PHYSICAL.test(key)) continue;
    const [part = "", inside] = path.slice(0, 2).map(String);
    if (UNREAD.test(key)) {
      unread.add(modelKey(inside === undefined ? part : `${part}.${inside}`));
      continue;
    }
    const group = KNOWN.find(({ where }) =>
      where.some(([of, of2]) => of === part && (of2 === undefined || of2 === inside)),
    );
    const one = group ?? groupOfKey(part, inside);
    found.set(one.id, { id: one.id, where: one.where, change: directionOf(one, base, candidate) });
  }
  return { groups: [...found.values()], unread: [...unread] };
}

function groupOfKey(part: string, key: string | undefined): KnownGroup {
  if (key === undefined) return { id: modelKey(part), where: [[part]] };
  const size = (airframe: Airframe) =>
    Number((airframe as unknown as Record<string, Record<string, unknown>>)[part]?.[key]);
  return { id: modelKey(`${part}.${key}`), where: [[part, key]], size };
}

function directionOf({ size }: KnownGroup, base: Airframe, candidate: Airframe): Direction {
  const [before, after] = [base, candidate].map((one) => size?.(one) ?? Number.NaN) as [number, number];
  if (before === after || Number.isNaN(before) || Number.isNaN(after)) return "other";
  return after > before ? "more" : "less";
}
