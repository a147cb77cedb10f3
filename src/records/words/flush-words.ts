import { fold } from "./fold.ts";
import { phrasesOf, placesOf } from "./languages.ts";

const names = new Set(phrasesOf(({ flushes }) => flushes));
const ordinals = placesOf(({ ordinals: list }) => list);

/** A header that speaks of one flush: which one, and what is left of the header. */
export interface FlushInHeader {
  flush: number;
  rest: string;
}

/** "flushes" beside "flush" */
const isPlural = (word: string): boolean => names.has(word) && [1, 2].some((end) => names.has(word.slice(0, -end)));

const numberOf = (word: string): number | undefined => {
  if (/^[1-9]$/.test(word)) return Number(word);
  const place = ordinals.get(word);
  return place === undefined ? undefined : place + 1;
};

/** The flush that a name speaks of which is nothing but an ordinal: "1st", "zweite"; undefined for any other. */
export const bareOrdinal = (header: string): number | undefined => {
  const place = ordinals.get(fold(header));
  return place === undefined || /^\d+$/.test(header.trim()) ? undefined : place + 1;
};

/** A header with one number or ordinal among its words, and without it: "Fresh 2 (g)", "dry2", "1st wet wt", "1. Ernte". */
export function numberedHeader(header: string): { place: number; name: string } | undefined {
  // "Dry g (8 h)": a number in a remark
  if (/[([][^)\]]*\d\s+\p{L}/u.test(header)) return undefined;
  const parts = header.replace(/(\p{Ll})(?=[1-9](?!\d))/gu, "$1 ").split(/([^\p{L}\p{N}]+)/u);
  const places = parts.map((part) => numberOf(fold(part)));
  const at = places.findIndex((place) => place !== undefined);
  if (at < 0 || places.some((place, index) => index > at && place !== undefined)) return undefined;
  return {
    place: places[at]!,
    name: parts
      .map((part, index) => (index === at ? "" : part))
      .join("")
      .replace(/^[\s._-]+/, ""),
  };
}

/** A name without the ordinal in it, and which that is: "1st shot ml" is the first "shot ml"; undefined where it has none. */
export function withoutOrdinal(header: string): { place: number; name: string } | undefined {
  // "1. Spritze", but not "1 ml"
  const words = fold(
    header.replace(/^\s*([1-5])\. /, (_, digit) => `${["first", "second", "third", "fourth", "fifth"][digit - 1]} `),
  ).split(" ");
  const at = words.findIndex((word) => ordinals.has(word));
  if (at < 0) return undefined;
  return { place: ordinals.get(words[at]!)!, name: words.filter((_, index) => index !== at).join(" ") };
}

/**
 * The flush that a column's name speaks of: "Flush1_g", "1st pick", "flush 2 fresh", "F3 dry", "2. Welle (g)",
 * "première volée", in any of the eight languages.
 * @returns undefined when it speaks of none
 * @example flushInHeader("2. Welle g") // { flush: 2, rest: "g" }
 */
export function flushInHeader(header: string): FlushInHeader | undefined {
  const words = fold(header.replace(/(\p{Ll})(?=\d)/gu, "$1 ").replace(/^F(?=\d)/, "F "))
    .split(" ")
    .filter((word) => word !== "#");
  for (let at = 0; at < words.length; at++) {
    const isName = names.has(words[at]!) || (at === 0 && words[at] === "f");
    if (!isName) continue;
    for (const beside of [at + 1, at - 1]) {
      const flush = words[beside] === undefined ? undefined : numberOf(words[beside]!);
      // "3 flushes" are so many
      if (flush === undefined || (/^\d$/.test(words[beside]!) && beside < at && isPlural(words[at]!))) continue;
      return { flush, rest: words.filter((_, index) => index !== at && index !== beside).join(" ") };
    }
  }
  return undefined;
}
