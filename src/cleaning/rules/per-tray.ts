import { languages } from "../../records/words/languages.ts";
import { type CleaningRule, keep } from "./cleaning-rule.ts";

/** the rule's code in the log */
export const eachRule = "per-tray";

const patterns = (phrases: ReadonlyArray<string>): string[] =>
  phrases
    .map((word) => word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&").replaceAll(" ", "\\s+"))
    .sort((a, b) => b.length - a.length);
const words = patterns(languages.flatMap(({ each }) => each.split("|")));
const slashed = words.filter((word) => word.startsWith("/"));
const spoken = words.filter((word) => !word.startsWith("/"));
const behind = new RegExp(
  `^(.*\\d.*?)\\s*[,(]?\\s*(?:(?:${slashed.join("|")})|(?<![\\p{L}])(?:${spoken.join("|")}))\\.?\\)?$`,
  "iu",
);

/** A text without words that say it is of each tray; as it is where there are none. */
export const withoutEach = (text: string): string => behind.exec(text)?.[1] ?? text;

const inHeader = new RegExp(`(?:(?:${slashed.join("|")})|(?<![\\p{L}])(?:${spoken.join("|")}))(?![\\p{L}])`, "iu");

/** A header without words that say it is of each tray: "LC pro Schale (ml)" is "LC (ml)". */
export const headerWithoutEach = (header: string): string => header.replace(inHeader, " ").replace(/\s+/g, " ").trim();

const means = patterns(languages.flatMap(({ summaries }) => summaries.mean.split("|")));
const inMean = new RegExp(`(?<![\\p{L}])(?:${means.join("|")})(?![\\p{L}])\\.?`, "iu");

/** A header without the word for a mean: "Avg fresh (g)" is "fresh (g)"; as it is where there is none. */
export const headerWithoutMean = (header: string): string => header.replace(inMean, " ").replace(/\s+/g, " ").trim();

/** Whether a header says that its amounts are of each tray: "Fresh g per tray", "Dry weight/tray (g)", "Mean fresh g". */
export const saysEach = (header: string): boolean => inHeader.test(header) || inMean.test(header);

/** "10 mL/tray", "210 g each", "5 ml pro Beutel": the amount of one tray. */
export const perTray: CleaningRule = {
  code: eachRule,
  kinds: ["mass", "volume"],
  apply(text) {
    const match = behind.exec(text);
    return match === null ? keep : { kind: "rewrite", text: match[1]!, reason: "said to be of each tray" };
  },
};
