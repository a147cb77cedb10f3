import { mostDoses } from "./chart-palette.ts";

/** Our own ramp, olive to indigo, each step further from the ground; and the same hues dark enough for letters. */
const ramps = {
  light: ["#7f9424", "#1c857a", "#2a52a0", "#2a1650"],
  lightLetters: ["#5f7112", "#12706a", "#2a52a0", "#2a1650"],
  dark: ["#7f8f2f", "#2f9f8c", "#77b6ee", "#e6dcff"],
  darkLetters: ["#a9ba58", "#5cc9b7", "#8cc3f3", "#e6dcff"],
} as const;

const toLinear = (part: number): number =>
  part <= 0.04045 ? part / 12.92 : Math.exp(2.4 * Math.log((part + 0.055) / 1.055));
const toPart = (linear: number): number =>
  linear <= 0.0031308 ? 12.92 * linear : 1.055 * Math.exp(Math.log(linear) / 2.4) - 0.055;

/** The three linear parts of a colour. @source IEC 61966-2-1 (sRGB) */
const linearParts = (hex: string): number[] =>
  [1, 3, 5].map((at) => toLinear(Number.parseInt(hex.slice(at, at + 2), 16) / 255));

const hexOf = (linear: ReadonlyArray<number>): string =>
  `#${linear
    .map((part) =>
      Math.round(255 * Math.min(1, Math.max(0, toPart(part))))
        .toString(16)
        .padStart(2, "0"),
    )
    .join("")}`;

/** A colour at a place along a ramp of four, 0 to 1, mixed in linear light between its neighbours. */
function along(ramp: ReadonlyArray<string>, place: number): string {
  const at = place * (ramp.length - 1);
  const from = Math.min(Math.floor(at), ramp.length - 2);
  if (at - from < 1e-9) return ramp[from]!;
  const [first, second] = [linearParts(ramp[from]!), linearParts(ramp[from + 1]!)];
  return hexOf(first.map((part, index) => part + (second[index]! - part) * (at - from)));
}

/**
 * The colours of so many doses, first to last.
 * @param count doses, 1 to `mostDoses`
 * @example doseColours("light", 2) // ["#7f9424", "#2a52a0"]
 */
function doseColours(ramp: keyof typeof ramps, count: number): string[] {
  const place = (index: number): number => (count <= 2 ? (index * 2) / 3 : index / (count - 1));
  return Array.from({ length: Math.min(count, mostDoses) }, (_, index) => along(ramps[ramp], place(index)));
}

const names = (colours: ReadonlyArray<string>, suffix = ""): string =>
  colours.map((colour, index) => `--dose-${index + 1}${suffix}:${colour};`).join("");

const counts = Array.from({ length: mostDoses }, (_, index) => index + 1);

/** The colours of so many doses on one ground, for a page whose root says how many there are. */
const ofCount = (ground: "light" | "dark", count: number): string =>
  `:root[data-doses='${count}']{${names(doseColours(ground, count))}${names(doseColours(`${ground}Letters`, count), "-ink")}}`;

/** The style that gives the doses of a report their colours, on light, dark and paper; the root's `data-doses` says how many. */
export const doseStyle = `${counts.map((count) => ofCount("light", count)).join("")}
@media screen and (prefers-color-scheme:dark){${counts.map((count) => ofCount("dark", count)).join("")}}`;
