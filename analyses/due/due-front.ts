import type { AnswerFront, NextStep } from "../../src/analysis.ts";
import { dateOfDay } from "../../src/measures/day-number.ts";
import { dayWords } from "../../src/planning/day-words.ts";
import { trayNamed } from "../../src/records/tray.ts";
import { stepWords, windowWords } from "./due-lines.ts";
import { type DueTray, type DueTrays, dueCount, isVague, listedDay } from "./due-trays.ts";

const counted = (count: number, one: string, many: string): string => (count === 1 ? `one ${one}` : `${count} ${many}`);

/** How many growing trays are late, due within seven days, and later. */
export function dueCounts({ trays, day }: DueTrays): { late: DueTray[]; week: DueTray[]; later: DueTray[] } {
  const late = trays.filter(({ state }) => state === "lost" || state === "overdue");
  const others = trays.filter((tray) => !late.includes(tray));
  const isNear = (tray: DueTray) => listedDay(tray, day) < day.on + 7;
  return { late, week: others.filter(isNear), later: others.filter((tray) => !isNear(tray)) };
}

/** Growing trays whose harvest may come on any day now, for all that is known. */
export const readyAnyDay = ({ trays, day }: DueTrays): DueTray[] =>
  trays.filter(({ next, state }) => state === "coming" && isVague(next) && next.low <= day.on);

/** What the front shows of what is due: how many trays within a week, and which to look at first. */
export function dueFront(due: DueTrays): AnswerFront {
  const { late, week, later } = dueCounts(due);
  const [lateCount, weekCount] = [dueCount(late), dueCount(week)];
  const [first] = [...late, ...week];
  const next: NextStep[] = [];
  if (first !== undefined) {
    const count = lateCount + weekCount;
    const name = first.tray.trayId;
    next.push({
      rank: "due",
      act: [
        count === 1 ? `Look at growing tray ${name}.` : `Look at ${count} growing trays, ${trayNamed(name)} first.`,
      ],
      because: [
        late.length > 0
          ? `${lateCount === 1 ? "One is" : `${lateCount} are`} later than ${first.next.basis.kind === "usual" ? "the usual range" : "19 of 20 such trays"}.`
          : `${stepWords[first.next.step].replace(/^./, (letter) => letter.toUpperCase())}: ${windowWords(first.next)}.`,
      ],
      see: `tray:${name}`,
    });
  }
  const coming = later.find(({ next }) => !isVague(next)) ?? later[0];
  const ready = dueCount(readyAnyDay(due));
  const says =
    late.length > 0
      ? `${counted(lateCount, "tray is", "trays are")} late${weekCount === 0 ? "" : `; ${counted(weekCount, "other is", "others are")} due within seven days`}.`
      : week.length > 0
        ? `no tray is late; next ${trayNamed(week[0]!.tray.trayId)}: ${stepWords[week[0]!.next.step]}.`
        : coming === undefined
          ? "no tray has a date to tell by."
          : ready > 0
            ? `no tray is late; ${ready} may be ready any day.`
            : `nothing within seven days; next ${dayWords(dateOfDay(listedDay(coming, due.day)))}: ${stepWords[coming.next.step]}.`;
  return {
    short: [`On ${dayWords(dateOfDay(due.day.on))}: ${says}`],
    figure: {
      label: "late or due within seven days",
      value: lateCount + weekCount,
      of: dueCount(due.trays),
      unit: "trays",
    },
    strip: {
      kind: "shares",
      parts: [
        { name: "late", value: lateCount },
        { name: "in 7 days", value: weekCount },
        { name: "later", value: dueCount(later) },
      ].map(({ name, value }) => ({ name, value: value / Math.max(1, dueCount(due.trays)), count: value })),
    },
    next,
  };
}
