// Faults of a model file whose form is right: values that no craft can have.
import { figures, quantityText } from "../base/units.js";
import { type Fault, notRising } from "./fault.js";
import { filterFaults } from "./filter-faults.js";
import { inertiaFault } from "./inertia.js";
import { vector } from "./parts.js";
import { figureOfMerit } from "./rotor.js";
import type { AirframeFile } from "./schema.js";

// Static figure of merit of the measured propellers of 2.2 to 10 inches (UIUC Propeller Database, vols. 1 to 3).
const MERIT = [0.2, 0.85] as const;

/** Up to this advance ratio a row of the table counts as near hover. */
export const NEAR_HOVER = 0.4;

/** Faults that can be found before the airframe is assembled. */
export function fileFaults(file: AirframeFile): Fault[] {
  return [
    ...frameFaults(file),
    ...rotorFaults(file),
    ...propellerFaults(file),
    ...packFaults(file),
    ...filterFaults(file),
    ...dutyFaults(file),
    ...notRising(
      (file.controller.gain_schedule ?? []).map(({ throttle }) => throttle),
      ["controller", "gain_schedule"],
      "throttle",
    ),
  ];
}

function frameFaults({ frame }: AirframeFile): Fault[] {
  const measured = (["mass", "centre_of_mass", "inertia"] as const).filter((key) => frame[key] !== undefined);
  if (frame.parts !== undefined) {
    return measured.map((key) => ({
      path: ["frame", key],
      message: "comes from the parts; give either the parts or mass, centre_of_mass and inertia",
    }));
  }
  if (frame.inertia === undefined || measured.length < 3) {
    return [{ path: ["frame"], message: "expected parts, or all of mass, centre_of_mass and inertia" }];
  }
  const { xx, yy, zz, xy = 0, xz = 0, yz = 0 } = frame.inertia;
  const fault = inertiaFault({ xx, yy, zz, xy, xz, yz });
  return fault === null ? [] : [{ path: ["frame", "inertia"], message: `no body can have it: ${fault}` }];
}

/** Two discs in one plane cannot share air or space. */
function rotorFaults({ rotors, propeller }: AirframeFile): Fault[] {
  return rotors.flatMap((rotor, later) =>
    rotors.slice(0, later).flatMap((other, earlier) => {
      const [dx, dy, dz] = vector(rotor.at.map((value, axis) => value - (other.at[axis] ?? 0)));
      if (Math.abs(dz) > 0.005 || Math.hypot(dx, dy) >= propeller.diameter) return [];
      const apart = quantityText(Math.hypot(dx, dy), "length");
      return [
        { path: ["rotors", later, "at"], message: `its propeller hits that of rotors[${earlier}]: ${apart} apart` },
      ];
    }),
  );
}

/** Whether a measured propeller has this ct beside this cp. */
export function isPropeller({ ct, cp }: { readonly ct: number; readonly cp: number }): boolean {
  const merit = figureOfMerit(ct, cp);
  return merit >= MERIT[0] && merit <= MERIT[1];
}

function propellerFaults({ propeller }: AirframeFile): Fault[] {
  const faults: Fault[] = [];
  if (!isPropeller(propeller)) {
    const merit = figureOfMerit(propeller.ct, propeller.cp);
    const message = `ct ${propeller.ct} and cp ${propeller.cp} make a figure of merit of ${figures(merit)}, measured propellers lie between ${MERIT[0]} and ${MERIT[1]}`;
    faults.push({ path: ["propeller", "cp"], message });
  }
  const table = propeller.table ?? [];
  faults.push(
    ...notRising(
      table.map((row) => row.j),
      ["propeller", "table"],
      "j",
    ),
  );
  const near = table.filter((row) => row.j > 0 && row.j <= NEAR_HOVER);
  if (table.length > 0 && near.length === 0) {
    faults.push({
      path: ["propeller", "table"],
      message: `needs a row with j above 0 and up to ${NEAR_HOVER}, where hovering rotors work`,
    });
  }
  if (
    propeller.zero_thrust_advance === undefined &&
    !near.some((row) => row.ct !== undefined && row.ct < propeller.ct)
  ) {
    faults.push({
      path: ["propeller", "zero_thrust_advance"],
      message: `missing, and no row of a table up to j ${NEAR_HOVER} has a ct below the static one to take it from`,
    });
  }
  return faults;
}

function packFaults({ pack }: AirframeFile): Fault[] {
  const rows = pack.open_circuit ?? [];
  const path = ["pack", "open_circuit"];
  const sinks = rows.findIndex((row, at) => row.voltage < (rows[at - 1]?.voltage ?? 0));
  const sinking =
    sinks === -1
      ? []
      : [{ path: [...path, sinks, "voltage"], message: "a fuller cell cannot stand lower; expected rising voltages" }];
  return [
    ...notRising(
      rows.map((row) => row.charge),
      path,
      "charge",
    ),
    ...sinking,
  ];
}

function dutyFaults({ controller }: AirframeFile): Fault[] {
  const { duty_table: rows, pack_compensation: compensation, rate } = controller;
  const path = ["controller", "duty_table"];
  const columns = (["command", "duty"] as const).flatMap((key) =>
    notRising(
      (rows ?? []).map((row) => row[key]),
      path,
      key,
    ),
  );
  const ends = [
    { at: 0, command: 0, text: "0 %" },
    { at: (rows?.length ?? 1) - 1, command: 1, text: "100 %" },
  ].flatMap(({ at, command, text }) =>
    rows === undefined || rows[at]?.command === command
      ? []
      : [{ path: [...path, at, "command"], message: `expected ${text} in this row: the table covers every command` }],
  );
  const half = rate / 2;
  const late =
    compensation === undefined || compensation.cutoff < half
      ? []
      : [
          {
            path: ["controller", "pack_compensation", "cutoff"],
            message: `is not below half the loop rate, ${quantityText(half, "frequency")}`,
          },
        ];
  return [...columns, ...ends, ...late];
}
