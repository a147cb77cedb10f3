import { type Factor, generationFactor } from "../../src/design/factor.ts";

/** A level with its unit as a label in a chart or table: "9 mL", "5%". */
export const levelLabel = ({ unit }: Pick<Factor, "unit">, level: string): string =>
  /^%?$/.test(unit) ? level + unit : `${level} ${unit}`;

/** Whether it is a column of the grower's own: its levels say little without its name. */
export const isOwnColumn = ({ key }: Factor): boolean => key.startsWith("factor:");

/** A level inside a sentence or a label of its own: "9 mL", "Amber", of a column of one's own with its name: "“lamp” on", "generation 2". */
export const levelName = (thing: Factor, level: string): string =>
  isOwnColumn(thing)
    ? `${thing.label} ${level}`
    : thing === generationFactor
      ? `generation ${level}`
      : levelLabel(thing, level);

/** A thing that varied after a verb: "the inoculum", "“lamp”". */
export const theThing = (thing: Factor): string =>
  isOwnColumn(thing) ? thing.label : `the ${inSentence(thing.label)}`;

/** The first letter small, for a label inside a sentence. */
export const inSentence = (label: string): string => label.charAt(0).toLowerCase() + label.slice(1);

/** Names in a row: "a, b and c". */
export const inRow = (names: ReadonlyArray<string>): string =>
  names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;

/** Words as the start of a sentence. @example capital("place 1 is the worst") // "Place 1 is the worst" */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
