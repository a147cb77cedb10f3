import type { Tray } from "../records/tray.ts";
import { doseFactor, type Factor } from "./factor.ts";
import { mostLevels, variedThings } from "./varied-things.ts";

/** The levels by which trays are grouped, marked and coloured: those of one thing that varied. */
export interface VariedLevels {
  /** what it is called inside a sentence: "dose", "spawn", "strain" */
  what: string;
  /** of an amount; "" for names */
  unit: string;
  /** ascending: amounts, or for names their places, from 0 */
  values: number[];
  /** for names: what each place stands for */
  names?: string[];
  /** the tray's level, one of `values`; undefined where it is not recorded */
  levelOf(tray: Tray): number | undefined;
}

const wordOf = ({ key, label }: Factor): string =>
  key === doseFactor.key ? "dose" : label.charAt(0).toLowerCase() + label.slice(1);

function ofAmount(trays: ReadonlyArray<Tray>, factor: Factor): VariedLevels {
  const levelOf = (tray: Tray) => factor.value!(tray);
  const values = [...new Set(trays.map(levelOf))].filter((value) => value !== undefined).sort((a, b) => a - b);
  return { what: wordOf(factor), unit: factor.unit, values, levelOf };
}

function ofNames(trays: ReadonlyArray<Tray>, factor: Factor): VariedLevels {
  const names = [...new Set(trays.map((tray) => factor.level(tray)))]
    .filter((name) => name !== undefined)
    .sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
  const places = new Map(names.map((name, place) => [name, place]));
  return {
    what: wordOf(factor),
    unit: "",
    values: names.map((_, place) => place),
    names,
    levelOf: (tray) => places.get(factor.level(tray) ?? ""),
  };
}

/**
 * The levels by which a book's trays are told apart wherever they are shown: its doses of liquid culture where those
 * differ; else the first thing that varied and has few levels (grams or per cent of spawn, a strain, a supplement).
 * @param wanted key or header of the thing that the book says it is about
 */
export function variedLevels(trays: ReadonlyArray<Tray>, wanted: string): VariedLevels {
  const doses = ofAmount(trays, doseFactor);
  if (doses.values.length > 1) return doses;
  const thing = variedThings(trays, wanted).find(({ levels, isPeriod }) => levels <= mostLevels && !isPeriod);
  if (thing === undefined) return doses;
  return thing.kind === "amount" ? ofAmount(trays, thing.factor) : ofNames(trays, thing.factor);
}
