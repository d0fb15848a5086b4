// Players that are worth something only together become one.
import { at } from "../base/at.js";
import type { Coalition } from "./shapley.js";

/** Players as one, by place. */
export type Team = readonly number[];

/**
 * The finest teams found whose every coalition is worth something, by joining two at a time those with which the fewest
 * coalitions are worth nothing. All together are worth something, so that it ends.
 */
export function joinedTeams(players: number, isWorth: (coalition: Coalition) => boolean): Team[] {
  let teams: Team[] = Array.from({ length: players }, (_, player) => [player]);
  for (let worthless = worthlessOf(teams, players, isWorth); worthless > 0 && teams.length > 1; ) {
    const choices = pairsOf(teams.length).map(([one, other]) => {
      const joined = withJoined(teams, one, other);
      return { joined, worthless: worthlessOf(joined, players, isWorth) };
    });
    const best = choices.reduce((least, one) => (one.worthless < least.worthless ? one : least));
    [teams, worthless] = [best.joined, best.worthless];
  }
  return teams;
}

const worthlessOf = (teams: readonly Team[], players: number, isWorth: (coalition: Coalition) => boolean): number =>
  Array.from({ length: 2 ** teams.length }, (_, mask) => mask).filter((mask) => {
    const present = teams.filter((_, team) => (mask & (1 << team)) !== 0);
    return !isWorth(membersOf(present, players));
  }).length;

/** The players of the teams, of all players. */
export function membersOf(teams: readonly Team[], players: number): Coalition {
  const members = new Set(teams.flat());
  return Array.from({ length: players }, (_, player) => members.has(player));
}

const pairsOf = (count: number): (readonly [number, number])[] =>
  Array.from({ length: count }, (_, one) => one).flatMap((one) =>
    Array.from({ length: count - one - 1 }, (_, k) => [one, one + 1 + k] as const),
  );

const withJoined = (teams: readonly Team[], one: number, other: number): Team[] =>
  teams.flatMap((team, place) => {
    if (place === other) return [];
    return [place === one ? [...team, ...at(teams, other)] : team];
  });
