// The answers one by one: as they are asked on a terminal, and as options of the command.
import type { Path } from "../base/problem.js";
import { LAYOUTS } from "./layout.js";

export interface Question {
  readonly path: Path;
  /** Of the command, with what it takes. */
  readonly option: string;
  /** As asked on a terminal. */
  readonly ask: string;
  /** An answer, so that nobody has to guess the form. */
  readonly example: string;
  /** One of these, where there are only a few. */
  readonly choices?: readonly string[];
  /** Said beside a choice that ends so. */
  readonly hints?: Readonly<Record<string, string>>;
  /** Asked in other words where the answer to `key` starts so. */
  readonly after?: readonly { readonly key: string; readonly starts: string; readonly ask: string }[];
  /** May be left empty. */
  readonly optional?: true;
  /** Asked only where that one was left empty, or only where it was not. */
  readonly without?: string;
  readonly with?: string;
  readonly holds?: "number" | "list";
}

export const QUESTIONS: readonly Question[] = [
  { path: ["name"], option: "--name <name>", ask: "Name of the craft", example: "Knot" },
  {
    path: ["layout"],
    option: "--layout <layout>",
    ask: "Layout",
    example: "quadrotor-x",
    choices: LAYOUTS,
    hints: { "-x": "no motor straight ahead", "-plus": "a motor straight ahead" },
  },
  {
    path: ["distances"],
    option: "--distances <lengths>",
    ask: "Distances between motors: front to rear, left to right; with six or eight, to the one opposite",
    example: "200 mm, 150 mm",
    after: ["hexacopter", "octocopter"].map((starts) => ({
      key: "layout",
      starts,
      ask: "Distance from a motor to the one opposite",
    })),
    holds: "list",
  },
  {
    path: ["ducts"],
    option: "--ducts <yes|no>",
    ask: "Ducts around the propellers",
    example: "no",
    choices: ["no", "yes"],
    optional: true,
  },
  { path: ["weight"], option: "--weight <mass>", ask: "Weight without pack, propellers on", example: "421 g" },
  { path: ["pack", "cells"], option: "--pack-cells <n>", ask: "Cells of the pack", example: "4", holds: "number" },
  { path: ["pack", "capacity"], option: "--pack-capacity <charge>", ask: "Capacity of the pack", example: "1300 mAh" },
  { path: ["pack", "weight"], option: "--pack-weight <mass>", ask: "Weight of the pack with strap", example: "198 g" },
  {
    path: ["propeller", "diameter"],
    option: "--propeller-diameter <length>",
    ask: "Propeller: diameter",
    example: "5 in",
  },
  { path: ["propeller", "pitch"], option: "--propeller-pitch <length>", ask: "Propeller: pitch", example: "4.3 in" },
  {
    path: ["propeller", "blades"],
    option: "--propeller-blades <n>",
    ask: "Propeller: blades",
    example: "3",
    holds: "number",
  },
  {
    path: ["propeller", "weight"],
    option: "--propeller-weight <mass>",
    ask: "Propeller: weight of one (empty: not weighed)",
    example: "3.5 g",
    optional: true,
  },
  { path: ["motor", "kv"], option: "--motor-kv <speed/volt>", ask: "Motor: KV on its label", example: "1950 rpm/V" },
  {
    path: ["motor", "weight"],
    option: "--motor-weight <mass>",
    ask: "Motor: weight of one with screws (empty: not weighed)",
    example: "33 g",
    optional: true,
  },
  {
    path: ["motor", "bell", "diameter"],
    option: "--bell-diameter <length>",
    ask: "Motor: outer diameter of the bell",
    example: "28 mm",
    without: "motor.weight",
  },
  {
    path: ["motor", "bell", "length"],
    option: "--bell-length <length>",
    ask: "Motor: length with its base, without shaft",
    example: "20 mm",
    without: "motor.weight",
  },
  { path: ["loop_rate"], option: "--loop-rate <frequency>", ask: "Controller: loop rate", example: "4 kHz" },
  {
    path: ["gyro_low_pass"],
    option: "--gyro-low-pass <frequency>",
    ask: "Controller: low-pass of the gyro, or none",
    example: "250 Hz",
  },
  {
    path: ["derivative_low_pass"],
    option: "--derivative-low-pass <frequency>",
    ask: "Controller: low-pass of D, or none",
    example: "150 Hz",
  },
  {
    path: ["one_unit", "p"],
    option: "--one-unit-p <gain>",
    ask: "What one unit of the controller's P is worth (empty: not known)",
    example: "0.004 %/(100 deg/s)",
    optional: true,
  },
  {
    path: ["one_unit", "d"],
    option: "--one-unit-d <gain>",
    ask: "What one unit of the controller's D is worth",
    example: "0.0005 %/(1000 deg/s^2)",
    with: "one_unit.p",
  },
];

/** "--pack-cells" of a question. */
export const flagOf = ({ option }: Question): string => option.split(" ")[0] ?? option;

/** What was typed, as the file would hold it. */
export function asWritten({ holds }: Question, text: string): unknown {
  const plain = text.trim();
  if (holds === "list") return plain.split(",").map((part) => part.trim());
  return holds === "number" && /^\d+(\.\d+)?$/.test(plain) ? Number(plain) : plain;
}
