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
      expect(flight).toContain("Land if");
    }
    expect(flights.slice(0, 7).every((flight) => all(flight, /<svg/g).length === 4)).toBe(true);
    expect(flights[0]).toContain("<b>8</b>");
    expect(flights[6]).toContain("<b>20.6</b>");
  });

  it("asks of each axis what a flight file takes: gains, swings, whether it died out, its pace, and of the motors", () => {
    const flights = all(card, /<li class="flight[^>]*>([\s\S]*?)<\/li>/g);
    for (const flight of flights) {
      expect(all(flight, /class="tick">(cool|warm|hot)</g)).toEqual(["cool", "warm", "hot"]);
      expect(all(flight, /class="tick">(yes|no)</g)).toEqual(["yes", "no", "yes", "no"]);
      expect(all(flight, /class="blank">(P|D|swings)</g)).toEqual(["P", "D", "swings", "P", "D", "swings"]);
    }
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

  it("says when to land at once, and what to tick before every flight", () => {
    expect(card).toContain("Land at once");
    expect(card).toContain("Before every flight");
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

  it("says why nothing is planned where there is no starting tune", async () => {
    const { ladder: _, ...bare } = withoutStart(
      withoutStart(map, "roll", "No margin left."),
      "pitch",
      "All of it rings.",
    );
    const without = await renderCard(bare);
    expect(without).toContain("Roll: no starting tune.</strong> No margin left.");
    expect(without).toContain("Pitch: no starting tune.</strong> All of it rings.");
  });

  it("says that an older map holds no climb, though it has starting tunes", async () => {
    const { ladder: _, ...older } = map;
    expect(await renderCard(older)).toContain("Roll: no climb in this map.</strong> It was written before");
  });

  it("leaves the axis without a starting tune out of every flight", async () => {
    const steps = (map.ladder?.steps ?? []).map(({ axes: { roll }, ...step }) => ({
      ...step,
      axes: roll ? { roll } : {},
    }));
    const alone = {
      ...withoutStart(map, "pitch", "All of it rings."),
      ladder: { manoeuvres: map.ladder?.manoeuvres ?? [], steps },
    };
    expect(await renderCard(alone)).not.toMatch(/undefined|Pitch <span/);
    expect(await renderPage(alone)).toContain("Pitch: no starting tune, nothing to climb to.");
  });
});
