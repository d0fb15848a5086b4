// What a pilot may have done before something was seen of roll or pitch: the shipped scripts, by name. A test holds the list
// against their folder.
export const MANOEUVRES = [
  "drop-and-catch",
  "flip-stop",
  "gust",
  "hover-noise",
  "lasting-gust",
  "nudge",
  "punch-out",
  "roll-stop",
  "throttle-blip",
  "wash-turn",
] as const;
