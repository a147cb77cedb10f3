import type { Trial } from "../../src/analysis.ts";
import type { Decision, Level } from "../../src/decisions/verdict/index.ts";
import {
  chamberFactor,
  cultureAgeFactor,
  doseFactor,
  type Factor,
  freeFactor,
  fruitingFactor,
  generationFactor,
  gradeFactor,
  incubationFactor,
  shelfFactor,
  supplementAmountFactor,
  supplementFactor,
} from "../../src/design/factor.ts";
import type { VariedThing } from "../../src/design/varied-things.ts";
import type { Tray } from "../../src/records/tray.ts";
import { inSentence, isOwnColumn } from "../comparison/level-text.ts";
import { levelIn } from "../treatment/compared-trays.ts";
import { thingsOf } from "../treatment/treatment-decision.ts";
import { yieldDecision } from "../treatment/what-changed-the-yield.ts";
import type { ProposedLevels } from "./propose-doses.ts";

/** What a trial varies. */
export type PlannedThing = Pick<VariedThing, "factor" | "kind">;

/** A culture as old as it is, and a day, are no choice of whoever lays out a trial. */
const given: ReadonlyArray<Factor> = [cultureAgeFactor, generationFactor];
const ofRooms: ReadonlyArray<Factor> = [fruitingFactor, incubationFactor];
const places: ReadonlyArray<Factor> = [chamberFactor, shelfFactor];

const doses: PlannedThing = { factor: doseFactor, kind: "amount" };

/** What the next trial varies unasked: the book's main question, where a tray can be given it; else why not. */
export function thingToPlan(trial: Trial, isSplit: boolean): PlannedThing | { reason: string; remedy: string } {
  const main = thingsOf(trial).find(({ factor, isPeriod }) => !isPeriod && !given.includes(factor));
  if (main === undefined) return doses;
  if (!ofRooms.includes(main.factor)) return main;
  if (isSplit) {
    const isOfTrays = ({ factor, isPeriod }: VariedThing): boolean =>
      !isPeriod && ![...ofRooms, ...given, ...places].includes(factor);
    return thingsOf(trial).find(isOfTrays) ?? { factor: fruitingFactor, kind: "amount" };
  }
  return {
    reason: `the book compares ${inSentence(main.factor.label)}, which is set for a whole chamber and not tray by tray`,
    remedy:
      main.factor === fruitingFactor
        ? "Where there are two chambers, --layout split swaps the temperatures between them. For doses all the same, name them, such as --doses 3,6,9"
        : "Put each cook's trays into two chambers, drawn by lot, and swap their temperatures each cook. For doses, name them, such as --doses 3,6,9",
  };
}

/** Another thing that changed together with the one to be planned, so that neither is known; undefined where none did. */
export function tiedWith(trial: Trial, { factor }: PlannedThing): VariedThing | undefined {
  const own = thingsOf(trial).find(({ factor: { key } }) => key === factor.key);
  const of = own && yieldDecision(trial, own);
  if (of === undefined) return undefined;
  const { caps, leftOut } = of.decision;
  const isTied = [...caps, ...leftOut].some(({ reason }) => reason === "tied-to-the-other-factor");
  const other = isTied ? of.beside.takenOut[0] : of.beside.tied[0];
  return other === undefined || ofRooms.includes(other.factor) || given.includes(other.factor) ? undefined : other;
}

/** Levels of a thing in its trays, numbers upwards; of an amount with more than `most` its ends. */
export function levelsTried({ factor, kind }: PlannedThing, trays: ReadonlyArray<Tray>, most: number): Level[] {
  const levels = [...new Set(trays.flatMap((tray) => levelIn(factor, tray) ?? []))];
  const sorted = kind === "amount" ? levels.sort((a, b) => Number(a) - Number(b)) : levels.sort();
  return kind === "amount" && sorted.length > most ? [sorted[0]!, sorted.at(-1)!] : sorted.slice(0, most);
}

/** Names to grow next: those that may still be the best, the likeliest first, and the usual one; at least two. */
export function namesToGrow(
  { levels, best = [], running = [] }: Decision,
  usual: Level | undefined,
  most: number,
): ProposedLevels {
  const byMean = levels.toSorted((a, b) => (b.adjusted ?? b.mean ?? 0) - (a.adjusted ?? a.mean ?? 0));
  const ranked = best.length > 0 ? best.map(({ level }) => level) : byMean.map(({ level }) => level);
  const wanted = ranked.filter((level, at) => at < 2 || running.includes(level) || levels.length <= most);
  const kept = [...(usual === undefined ? [] : [usual]), ...wanted.filter((level) => level !== usual)].slice(0, most);
  const why = kept.length === levels.length ? "all that were tried" : "those that may still be the best";
  return { levels: kept.toSorted(), why };
}

/** Numbers of a sheet without the tails of binary fractions. */
const typed = (value: number): string => String(Number(value.toPrecision(6)));

/** The column of a sheet in which a thing stands. */
export const columnOf = ({ key }: Factor): string => (key.startsWith("factor:") ? key.slice("factor:".length) : key);

/** A level as the book's own cells have it: "5 %" where they were typed so. */
function cellOf({ factor, kind }: PlannedThing, level: Level, trays: ReadonlyArray<Tray>): string {
  if (kind === "names") return String(level);
  const raw = isOwnColumn(factor)
    ? freeFactor(columnOf(factor))
    : factor.key === supplementFactor.key
      ? supplementFactor
      : undefined;
  const known = raw && trays.find((tray) => factor.value!(tray) === level);
  if (known !== undefined) return raw!.level(known)!;
  const hasUnit = raw !== undefined && trays.some((tray) => /\d\s*[^\d\s.,]/.test(raw.level(tray) ?? ""));
  return `${typed(Number(level))}${hasUnit && factor.unit !== "" ? ` ${factor.unit}` : ""}`;
}

const facets: ReadonlyArray<Factor> = [supplementFactor, gradeFactor, supplementAmountFactor];

/** The cells of a level: its own, and of a supplement what always stood beside it, so that its name goes with its grade. */
function cellsOf(thing: PlannedThing, level: Level, trays: ReadonlyArray<Tray>): Record<string, string> {
  const cells = { [columnOf(thing.factor)]: cellOf(thing, level, trays) };
  if (!facets.some(({ key }) => key === thing.factor.key)) return cells;
  const own = trays.filter((tray) => levelIn(thing.factor, tray) === level);
  for (const facet of facets) {
    const beside = new Set(own.map((tray) => facet.level(tray) ?? ""));
    if (facet.key !== thing.factor.key && beside.size === 1) cells[facet.key] = [...beside][0]!;
  }
  return cells;
}

/** The arms of a trial as cells of a sheet. Water is added to every dose so that all trays get the same liquid. */
export function armsOf(thing: PlannedThing, levels: ReadonlyArray<Level>, trays: ReadonlyArray<Tray>) {
  // temperatures are given to the chambers, whatever their trays get
  if (thing.factor === fruitingFactor) return [{}];
  if (thing.factor === doseFactor) return doseArms(levels.map(Number));
  return levels.map((level) => cellsOf(thing, level, trays));
}

/** @param amounts mL per tray */
export function doseArms(amounts: ReadonlyArray<number>): Record<string, string>[] {
  const highest = Math.max(...amounts);
  return amounts.map((dose) => ({ inoculum_ml: typed(dose), added_liquid_ml: typed(highest - dose) }));
}
