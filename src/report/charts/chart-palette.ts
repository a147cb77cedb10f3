/** Colours of a chart's parts on a light ground. */
export const chartColours = {
  ground: "#ffffff",
  ink: "#1c2326",
  quiet: "#576269",
  grid: "#e3e7e8",
  dot: "#66737a",
  shade: "#dcecef",
  signal: "#d55e00",
} as const;

/**
 * Colours that tell series apart, readable with any colour vision; the set's yellow is left out, too pale on white.
 * @source Okabe & Ito 2008, Color Universal Design, https://jfly.uni-koeln.de/color/
 */
export const seriesColours = ["#0072b2", "#d55e01", "#009e73", "#cc79a7", "#e69f00", "#56b4e9", "#000000"] as const;

/** From least to most, each a step darker on the light ground. */
export const bandColours = ["#eef5f6", "#d2e6ea", "#add2da", "#83bac6", "#569fb0", "#2f8296", "#0f6175"] as const;

/** Marks that tell series apart without colour, in the order of `seriesColours`. */
export const seriesShapes = [
  "circle",
  "square",
  "triangle-up",
  "diamond",
  "cross",
  "triangle-down",
  "triangle-right",
] as const;

/** Line patterns that tell curves apart without colour. */
export const seriesDashes: ReadonlyArray<number[]> = [
  [1, 0],
  [7, 3],
  [2, 2],
  [9, 3, 2, 3],
  [4, 4],
  [12, 3],
  [1, 3],
];

/** The colour each light one turns into on a dark ground. */
export const darkColours: Readonly<Record<string, string>> = {
  "#ffffff": "#1b2124",
  "#1c2326": "#e6eaeb",
  "#576269": "#a9b4b9",
  "#e3e7e8": "#333c40",
  "#66737a": "#9fabb0",
  "#dcecef": "#24424a",
  "#d55e00": "#ff8a3d",
  "#0072b2": "#52aee6",
  "#d55e01": "#ff8a3c",
  "#009e73": "#2fc79a",
  "#cc79a7": "#e39cc4",
  "#e69f00": "#f0b53c",
  "#56b4e9": "#a5dbfa",
  "#000000": "#ffffff",
  "#eef5f6": "#1e2a2e",
  "#d2e6ea": "#20404a",
  "#add2da": "#255967",
  "#83bac6": "#2e7486",
  "#569fb0": "#4193a7",
  "#2f8296": "#67b3c5",
  "#0f6175": "#a4d7e4",
};
