import { dateOfDay } from "../../src/measures/day-number.ts";
import { daysWords } from "../../src/planning/day-words.ts";
import { grouped } from "../../src/records/grouped.ts";
import {
  type Basis,
  type DueState,
  type DueTray,
  type DueTrays,
  type DueWindow,
  dueCount,
  listedDay,
} from "./due-trays.ts";
import type { DueDay } from "./known-days.ts";
import type { Step } from "./wait-sample.ts";

/** Trays of one cook that have the same thing due at the same time. */
export interface DueLine {
  /** ISO 8601 date it stands under */
  day: string;
  state: DueState;
  step: Step;
  /** "harvest", "move to fruiting" */
  what: string;
  cook: string | undefined;
  trays: string[];
  /** "6 trays of C7: C7-01 to C7-06" */
  who: string;
  /** "between 8 and 14 Mar, 8 of 10" */
  when: string;
  low: string;
  high: string;
  basis: Basis;
}

/** What is to be done at a step, as a row of a list begins. */
export const stepWords: Readonly<Record<Step, string>> = {
  colonise: "colonised",
  move: "move to fruiting",
  harvest: "harvest",
  flush: "next flush",
};

/** What a late tray has not done. */
const notYet: Readonly<Record<Step, string>> = {
  colonise: "not colonised",
  move: "not moved to fruiting",
  harvest: "not harvested",
  flush: "no next flush",
};

const startWords = {
  inoculated: "inoculation",
  colonised: "colonised",
  fruiting: "the move",
  picked: "the last picking",
} as const;

const scopeWords = {
  alike: "of the same strain, dose and temperature",
  strain: "of its strain",
  book: "of this book",
} as const;

/**
 * Where a forecast comes from, in words.
 * @example basisWords({ kind: "own", scope: "book", done: 40, waiting: 6 }) // "40 trays of this book, 6 more still waiting"
 */
export function basisWords(basis: Basis): string {
  if (basis.kind === "usual") return "the usual range in the settings (common practice, no source)";
  const { done, scope, waiting } = basis;
  return `${done} trays ${scopeWords[scope]}${waiting > 0 ? `, ${waiting} more still waiting` : ""}`;
}

/** "8 to 14 Mar" */
export const windowWords = ({ low, high }: DueWindow): string => daysWords(dateOfDay(low), dateOfDay(high));

/** Names of trays: the first and last of many. */
function trayNames(trays: ReadonlyArray<string>): string {
  return trays.length <= 4 ? trays.join(", ") : `${trays[0]} to ${trays.at(-1)}`;
}

function whenWords({ state, next, lossChance, again }: DueTray, on: number): string {
  if (state === "coming" || state === "due") {
    const range = `${windowWords(next)}, ${next.basis.kind === "usual" ? "usual range" : "8 of 10"}`;
    return again === undefined ? range : `${range}, if it still stands: ${percent(again)} of such trays gave another`;
  }
  const late = `${notYet[next.step]} ${on - next.start} days after ${startWords[next.from]}`;
  const bound = next.late - next.start;
  const usual = next.basis.kind === "usual" ? `the usual range ends at ${bound}` : `19 of 20 are there by ${bound}`;
  const chance = state === "lost" && lossChance !== undefined ? `; chance that it is lost ${percent(lossChance)}` : "";
  return `${late}; ${usual}${chance}`;
}

/** A chance in words, never "100%": 99 at most. */
export const percent = (share: number): string => `${Math.min(99, Math.round(share * 100))}%`;

/** What is expected of a tray, one thing each: what comes next, and the harvest where that is still to come after it. */
const expectations = (due: DueTray): DueTray[] => [
  due,
  ...(due.harvest === undefined || due.state === "lost" ? [] : [afterNext(due, due.harvest)]),
];

const afterNext = ({ tray }: DueTray, harvest: DueWindow): DueTray => ({ tray, state: "coming", next: harvest });

/** What is due in rows: the trays of one cook that have the same thing due at the same time stand together. */
export function dueLines({ day, trays, flushes }: Omit<DueTrays, "undated">): DueLine[] {
  const lines = grouped([...trays.flatMap(expectations), ...flushes], ({ tray, state, next, again }) =>
    JSON.stringify([tray.batch, state, next.step, next.start, next.low, next.high, next.late, again]),
  );
  return [...lines.values()].map((alike) => lineOf(alike, day));
}

function lineOf(alike: ReadonlyArray<DueTray>, day: DueDay): DueLine {
  const [first] = alike as [DueTray];
  const { tray, state, next } = first;
  const ordered = alike
    .map(({ tray: { trayId } }) => trayId)
    .sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
  const many = dueCount(alike);
  const count = many === 1 ? "" : `${many} trays: `;
  return {
    day: dateOfDay(listedDay(first, day)),
    state,
    step: next.step,
    what: stepWords[next.step],
    cook: tray.batch,
    trays: ordered,
    who: `${tray.batch === undefined ? "" : `cook ${tray.batch}, `}${count}${trayNames(ordered)}`,
    when: whenWords(first, day.on),
    low: dateOfDay(next.low),
    high: dateOfDay(next.high),
    basis: next.basis,
  };
}
