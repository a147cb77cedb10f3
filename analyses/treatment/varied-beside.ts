import type { Trial } from "../../src/analysis.ts";
import {
  type BesideOther,
  besideOther,
  type ComparedTray,
  changedTray,
  type Level,
} from "../../src/decisions/verdict/index.ts";
import { mostLevels, type VariedThing } from "../../src/design/varied-things.ts";
import type { Tray } from "../../src/records/tray.ts";
import { alwaysWith } from "./came-together.ts";
import { type GatheredTrays, levelIn } from "./compared-trays.ts";

/** Other things that varied in the same cooks as the thing compared. */
export interface VariedBeside {
  /** taken out of the comparison */
  takenOut: VariedThing[];
  /** partly tied to the thing compared, and not taken out since that would leave trays out */
  tied: VariedThing[];
  /** the trays, each with what is taken out as its other level */
  trays: ComparedTray[];
}

/** Things that may be crossed with another in one trial and change a yield themselves: the first of them is always taken out. */
const crossed: ReadonlyArray<string> = [
  "inoculum_ml",
  "spawn_g",
  "spawn_pct",
  "supplement_g",
  "supplement",
  "supplement_grade",
  "strain",
  "fruiting_c",
];

/** What a column is a facet of: a supplement has a name, a grade and an amount. */
const subjectOf = ({ factor }: VariedThing): string => factor.key.split("_")[0]!;

/** Two columns that say one thing twice: "none" and 0 g, "fine" and 40 g, "low" and 3 mL. Neither is taken out of the other. */
const saySame = (trial: Trial, one: VariedThing, other: VariedThing): boolean => {
  const [there, back] = [
    alwaysWith(one.factor, other.factor, trial.trays),
    alwaysWith(other.factor, one.factor, trial.trays),
  ];
  return subjectOf(one) === subjectOf(other) ? there || back : !crossed.includes(other.factor.key) && (there || back);
};

/** The level of a tray of all of some things, at least one, as one. */
export function levelOfOthers(things: ReadonlyArray<VariedThing>): (tray: Tray) => Level {
  const levelOf = ({ factor }: VariedThing, tray: Tray): Level => levelIn(factor, tray) ?? "not written";
  const [first, ...more] = things;
  if (more.length === 0) return (tray) => levelOf(first!, tray);
  return (tray) => JSON.stringify(things.map((thing) => levelOf(thing, tray)));
}

/** The trays with their levels of all of some things as one. */
function withOthers(gathered: GatheredTrays, things: ReadonlyArray<VariedThing>): ComparedTray[] {
  const levelOf = levelOfOthers(things);
  return gathered.trays.map((tray) => changedTray(tray, { other: levelOf(gathered.byRow[tray.row]!) }));
}

/**
 * Other things that the same cooks varied, and the trays with them to be taken out. Of what grows are tried on, the first is
 * taken out whatever it costs; every further one, and any column of one's own, only where no tray is left out for it and it
 * was either crossed with the thing compared or goes together with it. What was the same in each whole cook changes nothing
 * inside cooks, so beside a thing varied there only what varied there, too, is looked at.
 * @param things everything that varied
 */
export function variedBeside(
  trial: Trial,
  thing: VariedThing,
  things: ReadonlyArray<VariedThing>,
  gathered: GatheredTrays,
): VariedBeside {
  const inside = thing.place !== "whole cooks";
  const mayBe = things.filter(
    (other) =>
      other.factor.key !== thing.factor.key &&
      !other.isPeriod &&
      (!inside || other.place === thing.place) &&
      other.levels <= mostLevels &&
      !saySame(trial, thing, other),
  );
  const isTried = ({ factor }: VariedThing): boolean => crossed.includes(factor.key);
  const first = isTried(thing) ? mayBe.find(isTried) : undefined;
  const takenOut = first === undefined ? [] : [first];
  const tied: VariedThing[] = [];
  let look: ReturnType<typeof besideOther> | undefined;
  const beside = (some: ReadonlyArray<VariedThing>): BesideOther => {
    look ??= besideOther(gathered.trays);
    const levelOf = levelOfOthers(some);
    return look(({ tray }) => String(levelOf(gathered.byRow[tray.row]!)));
  };
  for (const other of inside ? mayBe : []) {
    if (other === first || takenOut.some((one) => saySame(trial, one, other))) continue;
    const alone = beside([other]);
    if (!alone.crossed && !alone.tied) continue;
    const all = takenOut.length === 0 ? alone : beside([...takenOut, other]);
    if (all.costsNoTray()) takenOut.push(other);
    else if (alone.tied) tied.push(other);
  }
  return { takenOut, tied, trays: takenOut.length === 0 ? gathered.trays : withOthers(gathered, takenOut) };
}
