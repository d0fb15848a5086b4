import { createHash } from "node:crypto";
import { beforeAll, describe, expect, it } from "vitest";
import { I_UNIT, P_UNIT } from "../../src/base/units.js";
import { renderCard, renderPage } from "../../src/report/index.js";
import { withoutStart, withScale } from "./fixture.js";
import { climbing } from "./ladder-fixture.js";

const map = climbing();
let card = "";
beforeAll(async () => {
  card = await renderCard(map);
});

const all = (text: string, pattern: RegExp): string[] =>
  [...text.matchAll(pattern)].map((found) => found[1] ?? found[0]);

describe("the flight-test card", () => {
  it("has every flight in order, with its gains, its pictures and a line to write on", () => {
    expect(all(card, /<span class="no">(\d+)<\/span>/g)).toEqual(Array.from({ length: 10 }, (_, k) => String(k + 1)));
    const flights = all(card, /<li class="flight[^>]*>([\s\S]*?)<\/li>/g);
    expect(flights).toHaveLength(10);
    for (const flight of flights) {
      expect(all(flight, /class="blank wide">Seen/g)).toHaveLength(2);
      expect(flight).toMatch(/<b>Fly<\/b> hard stop|<b>Fly<\/b> sharp turn|<b>Fly<\/b> punch-out/);
      expect(flight).toContain("Land if");
    }
    expect(flights.slice(0, 7).every((flight) => all(flight, /<svg/g).length === 4)).toBe(true);
    expect(flights[0]).toContain("<b>8</b>");
    expect(flights[6]).toContain("<b>20.6</b>");
  });

  it("asks of each axis what a flight file takes: gains, swings after a stop, whether it died out, its pace, and of the motors", () => {
    const flights = all(card, /<li class="flight[^>]*>([\s\S]*?)<\/li>/g);
    for (const flight of flights) {
      expect(all(flight, /class="tick">(cool|warm|hot)</g)).toEqual(["cool", "warm", "hot"]);
      expect(all(flight, /class="tick">(yes|no)</g)).toEqual(["yes", "no", "yes", "no"]);
    }
    const blanks = flights.map((flight) => all(flight, /class="blank">(P|D|swings)</g).join(" "));
    const climb = "P D swings P D swings";
    // A finished tune stands fast; in disturbed air and under the throttle no swing is counted.
    expect(blanks).toEqual([...Array(7).fill(climb), "swings swings", "", ""]);
    const paces = flights.map((flight) => all(flight, /class="tick">(?:slower|same|faster)</g).length);
    expect(paces).toEqual([6, 6, 6, 6, 0, 0, 0, 0, 6, 0]);
    expect(card.replaceAll("\u00a0", " ")).toContain("than 6 Hz");
    expect(card).toContain('Hovers at</strong> <span class="blank">throttle, %');
  });

  it("draws every picture to the same scale", () => {
    const zeros = all(card, /<svg class="trace"[^>]*>(?:(?!<\/svg>).)*?<path d="M0,([\d.]+)H150"/g);
    expect(zeros).toHaveLength(34);
    expect(new Set(zeros).size).toBe(2); // one for stops, one for swings
  });

  it("shows behind each picture the step before, dotted, and never behind the first", () => {
    const flights = all(card, /<li class="flight[^>]*>([\s\S]*?)<\/li>/g);
    const dotted = flights.map((flight) => all(flight, /stroke-dasharray="0.6 2.4"/g).length);
    // The throttle is first met in the last check.
    expect(dotted).toEqual([0, 4, 4, 4, 4, 4, 4, 2, 2, 0]);
  });

  it("says at each step what is different from the one before", () => {
    const looks = all(card, /<b>Look<\/b> (.*?) <b>Listen/g);
    expect(looks[0]).toBe(
      "It swings back three times after the stop; in disturbed air it rocks, slowly enough to count.",
    );
    expect(looks[1]).toBe(
      "After the stop it swings back less far (roll) and less often, comes to rest sooner; in disturbed air it rocks less far and quicker than at step 1.",
    );
    expect(looks[7]).toBe("It looks as it did at step 7.");
  });

  it("is drawn in black alone: lines differ by their dashes", () => {
    expect(card).toContain("--contour:#000000;--warn:#000000");
    const inks = new Set(all(card, /stroke="var\(--([a-z-]+)\)" stroke-width/g));
    expect([...inks].sort()).toEqual(["contour", "rule", "sheet", "soft"]);
  });

  it("says when to land at once, and what to tick before every flight", () => {
    expect(card).toContain("Land at once");
    expect(card).toContain("Before every flight");
    for (const box of ["spotter", "local rules", "fire-safe place for packs", "signal-loss landing tested"])
      expect(card).toContain(`<span class="tick">${box}</span>`);
  });

  it("has the first flight before the first step, and a full pack only where the climb asks for one", () => {
    const order = [
      "Before every flight",
      "On the bench, every propeller off",
      "First hover, gains of step 1",
      "Climb in P",
    ];
    const places = order.map((words) => card.indexOf(words));
    expect(places.every((place, k) => place > (places[k - 1] ?? -1))).toBe(true);
    for (const words of [
      "disarm at part throttle",
      "transmitter off",
      "half a minute one to two metres up",
      "throttle pulse",
    ])
      expect(card).toContain(words);
    expect(card).not.toContain("pack full");
  });

  it("says what stays as it is, and rounds down only where the controller's own numbers have decimals", async () => {
    const plain = (text: string) => text.replaceAll("\u00a0", " ");
    expect(plain(card)).toContain("I stays at 42.5 % per 100° (roll and pitch); yaw stays as in the model file.");
    expect(card).not.toContain("round down");
    const { roll, pitch } = map.axes;
    const start = roll.start && { ...roll.start, i: 30 };
    const other = withScale({ ...map, axes: { roll: { ...roll, start }, pitch } }, { p: 10 * P_UNIT, yaw: undefined });
    const yaw = { p: 30 * P_UNIT, i: 25 * I_UNIT };
    const { controller } = other.model as { controller: object };
    const printed = plain(await renderCard({ ...other, model: { controller: { ...controller, yaw } } }));
    expect(printed).toContain(
      "I stays at 1500 (roll) and 2125 (pitch); yaw stays at P 30 % per 100 °/s, I 25 % per 100°.",
    );
    expect(printed).toContain("round down"); // of P, 10 % per 100 °/s a unit, nobody can type 2.06
  });

  it("is one file with one style sheet and no script", () => {
    const [style = ""] = all(card, /<style>([\s\S]*?)<\/style>/g);
    expect(card).toContain(`style-src 'sha256-${createHash("sha256").update(style).digest("base64")}'`);
    expect(card).not.toMatch(/<script|\sstyle=|\son\w+=|NaN|undefined|\bnull\b/);
  });

  it("says in large letters not to fly where no axis has a starting tune, and why", async () => {
    const { ladder: _, ...bare } = withoutStart(
      withoutStart(map, "roll", "No margin left."),
      "pitch",
      "All of it rings.",
    );
    const without = await renderCard(bare);
    expect(without).toContain("<h2>Do not fly</h2>");
    expect(without).toContain("Roll has no starting tune. No margin left.");
    expect(without).toContain("Pitch has no starting tune. All of it rings.");
    expect(without).not.toContain("--test-stand");
  });

  it("says that an older map holds no climb, though it has starting tunes", async () => {
    const { ladder: _, ...older } = map;
    expect(await renderCard(older)).toContain("No climb in this map: it was written before");
  });

  const HELD = "Some points are safe, but none between them held up in its own trials.";
  const steps = (map.ladder?.steps ?? []).map(({ axes: { roll }, ...step }) => ({
    ...step,
    axes: roll ? { roll } : {},
  }));
  const rollAlone = {
    ...withoutStart(map, "pitch", HELD),
    ladder: { manoeuvres: map.ladder?.manoeuvres ?? [], steps },
  };

  it("plans no flight where one axis has no tune, though some of its points are safe", async () => {
    const grounded = await renderCard(rollAlone);
    expect(grounded).toContain("<h2>Do not fly</h2>");
    expect(grounded).toContain(`Pitch has no starting tune. ${HELD}`);
    expect(grounded).toContain("--test-stand roll");
    expect(grounded).not.toMatch(/<li class="flight|First hover/);
    expect(await renderPage(rollAlone)).toContain("Pitch: no starting tune, nothing to climb to.");
  });

  it("plans none where an axis has a tune and no way up to it", async () => {
    const grounded = await renderCard({ ...map, ladder: rollAlone.ladder });
    expect(grounded).toContain("Pitch has a starting tune, but no way up to it");
  });

  it("of one axis on a test stand has its stops alone, and never says to fly", async () => {
    const stand = await renderCard(rollAlone, { testStand: "roll" });
    expect(stand).toContain("Roll alone, on a test stand that holds the craft. Never for flight.");
    expect(all(stand, /<li class="flight/g)).toHaveLength(8);
    expect(stand).not.toMatch(/<b>Fly|Land if|disturbed air|pitch, |Pitch <span|undefined|NaN/);
  });
});
