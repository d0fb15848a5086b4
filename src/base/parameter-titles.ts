// What the numbers of a model are called, by the key as the model file spells it.

const TITLES = {
  "frame.mass": "mass",
  "frame.inertia.xx": "inertia about roll",
  "frame.inertia.yy": "inertia about pitch",
  "frame.inertia.zz": "inertia about yaw",
  "rotors.at": "distance of the rotors from the middle",
  "propeller.diameter": "propeller diameter",
  "propeller.ct": "thrust coefficient",
  "propeller.cp": "power coefficient",
  "propeller.zero_thrust_advance": "advance ratio at which thrust vanishes",
  "propeller.inertia": "inertia of the propeller",
  "motor.kv": "motor speed per volt",
  "motor.resistance": "motor resistance",
  "motor.no_load_current": "no-load current",
  "motor.bell_inertia": "inertia of the bell",
  "pack.open_circuit": "pack voltage",
  "pack.resistance": "pack resistance",
  "sensing.noise": "gyro noise",
  "sensing.notch.centre": "centre of the gyro's notch",
  "sensing.notch.width": "width of the gyro's notch",
  "sensing.low_pass_schedule": "corners of the gyro's low-pass over throttle",
  "sensing.tracking_notch.width": "width of the gyro's notch on the rotors",
  "sensing.tracking_notch.lowest": "lowest place of the gyro's notch on the rotors",
  "controller.rate_derivative_notch.centre": "centre of D's notch",
  "controller.rate_derivative_notch.width": "width of D's notch",
  "controller.rate_derivative_filter_schedule": "corners of D's low-pass over throttle",
  "controller.rate_derivative_tracking_notch.width": "width of D's notch on the rotors",
  "controller.rate_derivative_tracking_notch.lowest": "lowest place of D's notch on the rotors",
  "controller.latency": "latency",
  "controller.pack_compensation.nominal": "voltage that the pack's is made up to",
  "controller.duty_table": "duties of the table from commands",
  "controller.gain_schedule": "factors of the gains over throttle",
  "wash.rms": "strength of prop wash",
  "wash.loss": "thrust lost in prop wash",
  "loop gain": "loop gain",
  loop_gain: "loop gain",
} as const;

export type TitledKey = keyof typeof TITLES;

const VIBRATION = /^sensing\.vibration\[(\d+)\]\.at_hover$/;

/** The title; the key itself where it has none. */
export function parameterTitle(key: string): string {
  if (Object.hasOwn(TITLES, key)) return TITLES[key as TitledKey];
  const [, line] = VIBRATION.exec(key) ?? [];
  return line === undefined ? key : `size of vibration line ${Number(line) + 1}`;
}
