// The rooms of src/ and what each may import: types count like values, unless only types are allowed.

export interface Room {
  readonly imports: readonly string[];
  /** Rooms of which only types may be imported. */
  readonly types?: readonly string[];
  readonly packages?: readonly string[];
  /** Said when the table is broken: where the code wants to go. */
  readonly instead: string;
}

const EVERY_ROOM = [
  "base",
  "airframe",
  "sweep",
  "plan",
  "kernel",
  "response",
  "run",
  "theory",
  "map",
  "compare",
  "report",
  "files",
];

export const ROOMS: Readonly<Record<string, Room>> = {
  base: {
    imports: [],
    packages: ["zod", "node:crypto", "node:module"],
    instead:
      "base knows nothing of the rest: move what it needs down into base, or this code up into the room that needs it",
  },
  airframe: {
    imports: ["base"],
    packages: ["zod", "ml-matrix"],
    instead: "an airframe is physics alone: what simulates it belongs to plan or kernel, what reads its file to files",
  },
  sweep: {
    imports: ["base"],
    packages: ["zod", "node:path"],
    instead:
      "a sweep is the question alone: what joins it to an airframe belongs to plan, what reads its file to files",
  },
  plan: {
    imports: ["base", "airframe", "sweep", "theory"], // theory for the gains that hold and the size of the time step
    packages: ["zod"],
    instead:
      "a plan is complete before anything is simulated: put the number into the plan and let run or map read it there",
  },
  kernel: {
    imports: ["base", "airframe", "response"], // response for the passes it carries out in its lanes
    types: ["plan", "sweep"],
    packages: ["node:fs"], // for load-vector.ts alone, which reads the code in its folder
    instead: "the kernel works on numbers: resolve this in plan, or lay it out in memory.ts",
  },
  response: {
    imports: ["base"],
    instead: "a trace is read without knowing what made it: hand it over in Question or Recording",
  },
  run: {
    imports: ["base", "airframe", "plan", "kernel", "response"], // airframe for the work a trial is
    packages: ["tinypool", "node:url", "node:worker_threads"],
    instead: "running knows tasks and results: what they mean belongs to map, where they come from to plan",
  },
  theory: {
    imports: ["base", "airframe"],
    packages: ["ml-matrix"],
    instead:
      "theory linearises an airframe: hand gains and trim over as arguments; what compares it with trials belongs to map",
  },
  map: {
    imports: ["base", "airframe", "plan", "theory"],
    types: ["sweep"],
    packages: ["zod"],
    instead:
      "a map asks for trials through Ask and never runs them; what it shows goes into map.json, not into a chart",
  },
  compare: {
    imports: ["base", "airframe", "sweep", "map"], // the schemas: their keys and units
    packages: ["zod"],
    instead: "two maps are compared from map.json alone: put what is missing into its format",
  },
  report: {
    imports: ["base", "map", "compare"],
    packages: ["vega", "vega-lite", "hono/html", "csv-stringify/sync", "node:crypto"],
    instead:
      "a report reads map.json alone and returns strings: put what is missing into map/format.ts, leave writing to files",
  },
  page: {
    imports: ["base", "kernel", "response", "run", "map", "report"],
    types: ["airframe", "plan", "sweep"],
    instead:
      "the page's script simulates and shows in a browser: what it is given goes into report/page/data.ts, what it draws with into report/charts",
  },
  files: {
    imports: ["base"],
    packages: ["yaml", "node:fs", "node:os", "node:path", "node:crypto", "node:tty"],
    instead: "files reads and writes and does not know what a file means: that is for airframe, sweep or flow",
  },
  flow: {
    imports: EVERY_ROOM,
    packages: ["zod", "node:path"],
    instead:
      "flow is the library's way through the rooms: terminal, options and exit codes belong to cli, the disk to files",
  },
  cli: {
    imports: [...EVERY_ROOM, "flow"],
    packages: ["commander", "node:os", "node:path", "node:tty"],
    instead: "a command reads as the data flow: put the work into a room and the disk into files",
  },
  translator: {
    imports: ["base"],
    packages: ["typescript", "node:fs"],
    instead:
      "the translator runs at build time on the kernel's source as text: it shares only base/vector-layout.ts with it",
  },
  // index.ts
  "": {
    imports: [...EVERY_ROOM, "flow"],
    instead: "the library's face only names what the rooms export",
  },
};
