// From a rotor's command to its duty: a table that straightens thrust, and what makes up for the pack's voltage.
import { at } from "../base/at.js";
import type { Airframe, Controller, DutyRow } from "./airframe.js";

type Shaping = Pick<Controller, "dutyTable" | "packCompensation">;

/** A table as a straight line and what each of its inner rows adds to the slope from there on. */
export interface DutyLine {
  readonly start: number; // duty at no command
  readonly slope: number;
  readonly bends: readonly { readonly command: number; readonly change: number }[];
}

const STRAIGHT: DutyLine = Object.freeze({ start: 0, slope: 1, bends: Object.freeze([]) });

export function dutyLine({ dutyTable: rows }: Shaping): DutyLine {
  if (rows === undefined) return STRAIGHT;
  const slopes = rows.slice(1).map((row, k) => slopeBetween(at(rows, k), row));
  const bends = slopes
    .slice(1)
    .map((slope, k) => ({ command: at(rows, k + 1).command, change: slope - at(slopes, k) }));
  return { start: at(rows, 0).duty, slope: at(slopes, 0), bends };
}

const slopeBetween = (one: DutyRow, next: DutyRow): number => (next.duty - one.duty) / (next.command - one.command);

/** Duty by the table alone; a straight line goes on beyond either end. */
export function dutyByTable(shaping: Shaping, command: number): number {
  const { start, slope, bends } = dutyLine(shaping);
  return bends.reduce(
    (duty, bend) => duty + bend.change * Math.max(0, command - bend.command),
    start + slope * command,
  );
}

/** The command that the table makes this duty of; a straight line goes on beyond either end. */
export function commandByTable({ dutyTable: rows }: Shaping, duty: number): number {
  if (rows === undefined) return duty;
  const next = rows.findIndex((row, k) => k > 0 && row.duty >= duty);
  const row = next < 0 ? rows.length - 1 : next;
  const [before, after] = [at(rows, row - 1), at(rows, row)];
  return before.command + (duty - before.duty) / slopeBetween(before, after);
}

/** The least command whose duty is the lowest one: what `idle` means where a table is between. */
export function idleCommand({ controller }: Pick<Airframe, "controller">): number {
  const { dutyTable: rows, idle } = controller;
  if (rows === undefined) return idle;
  const next = rows.findIndex(({ duty }) => duty > idle);
  const [before, after] = [rows[next - 1], rows[next]];
  if (before === undefined || after === undefined) return 0;
  return before.command + (idle - before.duty) / slopeBetween(before, after);
}

/** What duties are multiplied by under a steady voltage of the pack. */
export const packFactor = ({ packCompensation: given }: Shaping, volts: number): number =>
  given === undefined ? 1 : given.nominal / volts;

/**
 * Duties of rotors by the steady voltage, of which the table is no part; what makes up for the voltage keeps the collective within
 * idle and full.
 */
export function dutiesOf(
  { controller }: Pick<Airframe, "controller">,
  throttle: number,
  commands: readonly number[],
): (volts: number) => readonly number[] {
  if (controller.dutyTable === undefined && controller.packCompensation === undefined) return () => commands;
  const collective = dutyByTable(controller, throttle);
  const byTable = commands.map((command) => dutyByTable(controller, command));
  return (volts) => {
    const factor = Math.min(1, Math.max(controller.idle, packFactor(controller, volts) * collective)) / collective;
    return byTable.map((duty) => factor * duty);
  };
}

/** Duty per command of one rotor about a command, the voltage steady; at a row of the table the mean of both sides. */
export function dutySlope({ controller }: Pick<Airframe, "controller">, command: number, volts: number): number {
  const { slope, bends } = dutyLine(controller);
  const reached = (bend: number) => (command > bend ? 1 : command < bend ? 0 : 0.5);
  const local = bends.reduce((sum, bend) => sum + bend.change * reached(bend.command), slope);
  return packFactor(controller, volts) * local;
}
