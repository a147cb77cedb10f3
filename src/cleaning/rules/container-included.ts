import { fold } from "../../records/words/fold.ts";
import { phrasesOf } from "../../records/words/languages.ts";
import { perWords } from "../../records/words/per-words.ts";
import { type CleaningRule, keep, unreadable } from "./cleaning-rule.ts";

const withWords = phrasesOf((words) => words.withWords).filter((word) => word !== "plus" && word !== "gross");
const things = phrasesOf((words) => words.tare);
const articles =
  "the|a|der|die|das|dem|den|le|la|les|l|el|il|lo|los|las|een|de|het|o|os|as|um|uma|un|une|una|ein|einem|my|its|wet|damp|clean";
const included = new RegExp(
  `\\b(?:${withWords.join("|")}|plus|gross)\\s+(?:(?:${articles}|\\d+ ?(?:g|gr|grams?|oz))\\s+)*(?:${things.join("|")})s?\\b|\\b(?:gross|brutto|bruto|lordo|brut|not tared|untared|un tared|tare not taken off|tara inkl)\\b`,
);
const without = /\b(?:without|w o|ohne|sans|sin|senza|zonder|bez|sem|no|minus|less|not)\s+(?:\p{L}+\s+)?(?:\p{L}+)$/u;

/** "233 w/o bag", "210 g ohne Deckel" */
const saidWithout = new RegExp(
  `^(.*\\d\\s*\\p{L}{0,5}\\.?)[\\s,(]+(?:without|w/o|ohne|sans|sin|senza|zonder|bez|sem|no)\\s+(?:(?:${articles})\\s+)?(?:${phrasesOf((words) => words.tare).join("|")})s?[).\\s]*$`,
  "iu",
);

const thing = `(?:${things.join("|")})s?`;
/** "Fresh without box g", "Fresh (w/o tray)" */
const headedWithout = new RegExp(
  `[\\s,([]+(?:without|w/o|ohne|sans|sin|senza|zonder|bez|sem|minus|less)\\s+(?:(?:${articles})\\s+)?${thing}(?!\\p{L})[)\\]]?`,
  "iu",
);
/** "Tray + mushrooms g", "box and fresh weight" */
const and = "\\s*(?:[+&]|\\s(?:plus|and|und|et|y|e|en|i|with|mit)\\s)\\s*";
const thingAnd = new RegExp(`(?<!\\p{L})${thing}${and}\\p{L}|\\p{L}${and}${thing}(?!\\p{L})`, "iu");

/** A header of what something weighs without its container, less that it is without: "Fresh without box g"; undefined for any other. */
export function withoutContainer(header: string): string | undefined {
  const rest = header.replace(headedWithout, "").trim();
  return rest === header.trim() || rest === "" ? undefined : rest;
}

/** Whether a header names a container and what lies in it. */
export const containerAndMore = (header: string): boolean => thingAnd.test(header);

const bareThing = new RegExp(`^(?:\\p{L}+ )?(?:${things.join("|")})s?$`, "u");

/** "420 (with 3)", "420 incl. T3": another tray was weighed along */
const otherTray = new RegExp(
  `\\d\\s*\\p{L}{0,5}\\.?[\\s,([]+(?:${withWords.join("|")})\\.?\\s+(?:tray\\s+|bag\\s+|no\\.?\\s*)?[#\\p{L}]{0,2}\\d{1,3}[)\\]\\s]*$`,
  "iu",
);

const ofEach = new RegExp(`/|^\\s*(?:${perWords})\\s`, "i");

/** Whether a text says that something was weighed along: "incl. bag", "with towel", "gross". */
export function includesContainer(text: string): boolean {
  const words = fold(text.replace(/[+&]/g, " plus "));
  // "310 g (wet towel)": what stands in brackets was on the scale, or was not
  const inside = /[([]\s*(\D[^()[\]]*)[)\]]/.exec(text)?.[1];
  // "g/tray", "per tray" is the weight of one
  if (inside !== undefined && !ofEach.test(inside) && bareThing.test(fold(inside))) return true;
  return included.test(words) && (/\btared\b/.test(words) || !without.test(words));
}

const emptyThing = new RegExp(
  `^(?:empty |weight )?(?:${things.join("|")})s?(?: empty)?(?: weight| wt| gewicht)?(?: m?k?g| oz)?$`,
  "u",
);

/** Whether a header names what a container weighs: "Tray weight g", "empty box". */
export const namesContainer = (header: string): boolean => emptyThing.test(fold(header));

/**
 * A weight taken with its container ("310 with towel", "210 g (incl. bag)") is not the weight of what was in it, or may not
 * be: asked, with what it weighed empty.
 */
export const containerIncluded: CleaningRule = {
  code: "container-included",
  kinds: ["mass"],
  apply(text) {
    if (!/\d/.test(text) || !/\p{L}{2}/u.test(text)) return keep;
    if (otherTray.test(text)) return unreadable("the weight of one tray", "another tray was weighed along");
    const net = saidWithout.exec(text)?.[1];
    if (net !== undefined) return { kind: "rewrite", text: net, reason: "said to be without what it lay in" };
    return includesContainer(text)
      ? unreadable(
          "the weight without what was weighed along, such as 310 g",
          "something was weighed along, and what it weighs by itself is not said",
        )
      : keep;
  },
};
