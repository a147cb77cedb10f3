import { phrasesOf } from "../../records/words/languages.ts";

const yes = new Set(phrasesOf((words) => words.yes).concat("✓", "✔"));
const no = new Set(phrasesOf((words) => words.no));

/** What a word or a ticked box answers, in the eight languages; undefined for anything else. @example yesOrNo("Oui") // true */
export function yesOrNo(word: string): boolean | undefined {
  const ticked = /^\[\s*(\S?)\s*\]$/.exec(word)?.[1] ?? word;
  if (ticked === "") return word === "" ? undefined : false;
  const short = ticked.toLowerCase().normalize("NFKD").replace(/\p{M}/gu, "");
  return yes.has(short) ? true : no.has(short) ? false : undefined;
}

// the first letter of "o.B." or "n/a" is no answer
const withMore = /^(\p{L}{2,}|\p{L}(?![./]\S)|✓|✔)(?:\s*[-–—,:;.!(/]+\s*|\s+)(\S.*)$/u;

/** A first word that may be an answer, and what stands behind it: "Yes - green". */
export function answerWithMore(text: string): { first: string; more: string } | undefined {
  const [, first, more] = withMore.exec(text) ?? [];
  return first === undefined ? undefined : { first, more: more! };
}
