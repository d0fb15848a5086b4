// The flight file beside a card, filled in as a pilot would with an editor, and read back as sightings.
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/base/problem.js";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { readYaml } from "../../src/files/yaml.js";
import { MANOEUVRES } from "../../src/flight/manoeuvres.js";
import { parseFlight } from "../../src/flight/parse.js";
import { FLIGHT_FORMAT } from "../../src/flight/schema.js";
import type { StabilityMap } from "../../src/map/format.js";
import { cardFlight, isAsPrinted, renderCard } from "../../src/report/index.js";
import { climbing } from "./ladder-fixture.js";

const OPTIONS = { model: "../models/sandpiper-r1.yaml", manoeuvres: MANOEUVRES, format: FLIGHT_FORMAT };
const text = cardFlight(climbing(), OPTIONS) ?? "";

const read = (filled: string) => parseFlight(readYaml("card.flight.yaml", filled));

/** The file as blocks: what stands before the sightings, each sighting, the last line. */
const blocks = (whole: string): string[] => whole.split(/\n(?=\n {2}- axis|# as printed)/);

/** Takes away the "# " before an answer and writes it. */
const answered = (block: string, key: string, answer: string): string => {
  expect(block).toMatch(new RegExp(`^    # ${key}: `, "m"));
  return block.replace(new RegExp(`^    # ${key}: .*$`, "m"), `    ${key}: ${answer}`);
};
/** Takes away the "# " alone. */
const uncovered = (block: string, key: string): string =>
  block.replace(new RegExp(`^    # (${key}: .*)$`, "m"), "    $1");

function problemsOf(whole: string) {
  try {
    read(whole);
  } catch (error) {
    if (error instanceof InputError) return error.problems;
    throw error;
  }
  return [];
}

/** The same climb on a craft whose controller has numbers of its own. */
function withOwn(map: StabilityMap): StabilityMap {
  const steps = (map.ladder?.steps ?? []).map((step) => ({
    ...step,
    axes: Object.fromEntries(
      Object.entries(step.axes).map(([axis, tune]) => [axis, { ...tune, own: { p: 5 * tune.p, d: 50 * tune.d } }]),
    ),
  }));
  return { ...map, ladder: { manoeuvres: map.ladder?.manoeuvres ?? [], steps } };
}

describe("the flight file of a card", () => {
  it("has a sighting for every step and axis, and nothing that was not seen", () => {
    expect(text.match(/^ {2}- axis: /gm)).toHaveLength(20);
    expect(text).toContain('model: "../models/sandpiper-r1.yaml"');
    expect(text).not.toMatch(/^\s*(died_out|swings|pace|picture|motors|- \{hover)/m);
  });

  it("is pointed at in one line for each sighting that is not filled in", () => {
    const problems = problemsOf(text);
    expect(problems).toHaveLength(20);
    const lines = text.split("\n");
    for (const [k, { message, line }] of problems.entries()) {
      expect(message).toContain("what was seen?");
      expect(lines[(line ?? 0) - 1]).toContain(k % 2 === 0 ? "axis: roll" : "axis: pitch");
    }
  });

  it("filled in as a pilot would, is read back as what was seen", () => {
    const [head = "", ...sightings] = blocks(text);
    const [first = "", second = "", third = "", fourth = ""] = sightings;
    const filled = [
      head.replace("  # - {hover_throttle: 31 % ± 2 %}", "  - {hover_throttle: 29 % ± 2 %}"),
      ["died_out", "swings", "motors"].reduce(
        (block, key) => answered(block, key, { died_out: "yes", swings: "3", motors: "cool" }[key] ?? ""),
        first,
      ),
      answered(uncovered(answered(second, "died_out", "yes"), "picture"), "pace", "faster"),
      answered(third.replace(/p: 11 /, "p: 10.5 "), "died_out", "no"),
      answered(fourth, "motors", "warm"),
      "",
    ].join("\n");
    const { model, sightings: seen } = read(filled);
    expect(model).toBe("../models/sandpiper-r1.yaml");
    expect(seen).toHaveLength(5);
    expect(seen[0]).toMatchObject({ kind: "hover-throttle", value: 0.29, size: 0.02 });
    const none = { swings: null, frequency: null, pace: null, motors: null, diedOut: null };
    const gains = (p: number, d: number) => ({
      own: false,
      p: expect.closeTo(p * P_UNIT, 12),
      d: expect.closeTo(d * D_UNIT, 12),
    });
    expect(seen[1]).toMatchObject({
      ...none,
      axis: "roll",
      gains: gains(8, 1),
      manoeuvre: "roll-stop",
      diedOut: true,
      swings: 3,
      motors: "cool",
    });
    expect(seen[2]).toMatchObject({
      ...none,
      axis: "pitch",
      gains: gains(8.8, 1.05),
      diedOut: true,
      pace: { than: 6, seen: "faster" },
    });
    expect(seen[3]).toMatchObject({ ...none, axis: "roll", gains: gains(10.5, 1), diedOut: false });
    expect(seen[4]).toMatchObject({ ...none, axis: "pitch", motors: "warm" });
  });

  it("asks for the pace only where the picture has a frequency, the one that the card prints", async () => {
    const card = (await renderCard(climbing())).replaceAll("\u00a0", " ");
    const printed = [...card.matchAll(/than ([\d.]+) Hz/g)].map(([, hertz]) => hertz);
    const pictures = [...text.matchAll(/# picture: ([\d.]+) Hz/g)].map(([, hertz]) => hertz);
    expect(printed).toEqual(pictures);
    expect(pictures).toHaveLength(10);
  });

  it("names a manoeuvre only where a flight file may name it", () => {
    const named = [...text.matchAll(/^ {4}manoeuvre: (\S+)$/gm)].map(([, script]) => script);
    expect(new Set(named)).toEqual(new Set(["roll-stop", "flip-stop", "punch-out"]));
  });

  it("has the controller's own numbers where the card prints them", () => {
    const own = cardFlight(withOwn(climbing()), OPTIONS) ?? "";
    expect(own).toContain("gains: {p: 40, d: 50}");
    const sighting = answered(blocks(own)[1] ?? "", "died_out", "yes");
    expect(read(`${blocks(own)[0]}${sighting}`).sightings[0]).toMatchObject({ gains: { own: true, p: 40, d: 50 } });
  });

  it("knows whether anybody has touched it", () => {
    expect(isAsPrinted(text)).toBe(true);
    expect(isAsPrinted(text.replace("# died_out: yes or no", "died_out: yes"))).toBe(false);
    expect(isAsPrinted(`${text}# a note\n`)).toBe(false);
    expect(isAsPrinted("format: gainscape.flight/1\n")).toBe(false);
  });

  it("is not made of a map without a climb", () => {
    const { ladder: _, ...bare } = climbing();
    expect(cardFlight(bare, OPTIONS)).toBeNull();
  });

  it("keeps what a title holds from becoming keys", () => {
    const map = climbing();
    const odd = { ...map, airframe: { ...map.airframe, name: 'A": [x] #1' } };
    const filled = answered(blocks(cardFlight(odd, OPTIONS) ?? "")[1] ?? "", "died_out", "yes");
    expect(read(`${blocks(cardFlight(odd, OPTIONS) ?? "")[0]}${filled}`).title).toBe('ladder of A": [x] #1 r1');
  });
});
