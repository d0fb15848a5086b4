// Colours by role. Every figure and page names a role; the style sheet gives it a colour for light, dark and print.
const ROLES = Object.freeze([
  "paper",
  "sheet",
  "ink",
  "soft",
  "rule",
  "contour",
  "warn",
  "clean",
  "safe",
  "avoid",
  "loose",
  "ringing",
  "hot",
  "sustained",
  "loose-mark",
  "ringing-mark",
  "hot-mark",
  "sustained-mark",
  "clean-mark",
  "lost",
  "gained",
  "lost-mark",
  "gained-mark",
  "letter-on-sustained",
  "tint-0",
  "tint-1",
  "tint-2",
  "tint-3",
  "tint-4",
  "tint-5",
  "tint-6",
] as const);
export type Role = (typeof ROLES)[number];

/** The colour of a role as an SVG or CSS value. */
export const ink = (role: Role): string => `var(--${role})`;
