import type { Table } from "../../src/analysis.ts";
import { dateOfDay } from "../../src/measures/day-number.ts";
import { basisWords, dueLines, stepWords } from "./due-lines.ts";
import type { DueState, DueTrays, DueWindow } from "./due-trays.ts";
import { dueWeek } from "./due-week.ts";
import type { KeepOrBin } from "./keep-or-bin.ts";

const mostRows = 200;

const stateWords: Readonly<Record<DueState, string>> = {
  lost: "likely lost",
  overdue: "overdue",
  due: "due",
  coming: "coming",
};

const dates = (window: DueWindow | undefined): (string | null)[] =>
  window === undefined ? [null, null] : [dateOfDay(window.low), dateOfDay(window.high)];

const adviceCells = (one: KeepOrBin | undefined): (string | number | null)[] =>
  one === undefined ? [null, null, null] : [one.advice, one.waiting, one.place];

/** When, without what the head of the column says of all. */
const inCell = (when: string): string => when.replace(", 8 of 10", "");

/** The next seven days, and every growing tray. */
export function dueTables(due: DueTrays, advice: ReadonlyArray<KeepOrBin>): Table[] {
  const advised = new Map(advice.map((one) => [one.trayId, one]));
  const withAdvice = advice.length > 0;
  const { days, later } = dueWeek(dueLines(due), due.day);
  const soon = days.flatMap(({ title, tasks }) =>
    tasks.map(({ what, who, when }) => [title, `${what}: ${who}`, inCell(when)]),
  );
  const rows = [
    ...soon,
    ...later.slice(0, 12).map(({ what, who, when }) => ["later", `${what}: ${who}`, inCell(when)]),
  ];
  const shown = [...due.trays, ...due.flushes].slice(0, mostRows);
  // where a harvest is all that is waited for, its days are those of the next step
  const withHarvest = shown.some(({ next }) => next.step !== "harvest");
  return [
    {
      caption: "What is due, day by day",
      columns: [{ label: "Day" }, { label: "what and which trays" }, { label: "when, 8 of 10" }],
      rows,
      open: soon.length,
      note: "“8 of 10”: of ten such trays eight fall between the two dates, one comes sooner, one later.",
    },
    {
      caption: "Every growing tray",
      columns: [
        ...[{ label: "Tray" }, { label: "now" }, { label: "next" }, { label: "from" }, { label: "to" }],
        { label: "late after" },
        ...(withHarvest ? [{ label: "harvest from" }, { label: "harvest to" }] : []),
        ...[{ label: "chance lost", unit: "share", digits: 1 }, { label: "known from" }],
        ...(withAdvice
          ? [
              { label: "keep or bin" },
              { label: "waiting brings", unit: "money" },
              { label: "its place brings", unit: "money" },
            ]
          : []),
      ],
      rows: shown.map(({ tray, state, next, harvest, lossChance }) => [
        tray.trayId,
        stateWords[state],
        stepWords[next.step],
        ...dates(next),
        dateOfDay(next.late),
        ...(withHarvest ? dates(next.step === "harvest" ? next : harvest) : []),
        lossChance ?? null,
        basisWords(next.basis),
        ...(withAdvice ? adviceCells(advised.get(tray.trayId)) : []),
      ]),
      ...(due.trays.length + due.flushes.length > shown.length
        ? { note: `${shown.length} of ${due.trays.length + due.flushes.length} are listed.` }
        : {}),
    },
  ];
}
