import type { ComparedTray } from "./compared-tray.ts";
import type { GroupedBy, Grouping, LeftOutReason } from "./decision.ts";
import { enough, mergeByUnit } from "./merge-by-unit.ts";

/** Trays without cook or day that are still taken as one cook. */
export const oneCookAtMost = 12;
/** Days apart within which two days of one level are one cook that took several days. */
const sameCookDays = 2;

/** Trays that count, each with its group. */
export interface GroupedTrays {
  grouping: Grouping;
  /** in row order */
  trays: { tray: ComparedTray; group: number }[];
  leftOut: { row: number; reason: LeftOutReason }[];
}

/**
 * What stands for the cook of each tray: the cook, else the inoculation day, else one cook (few trays) or runs of rows; groups
 * that share a unit with one level are one.
 * @param trays in row order
 * @source common practice, no source; the rules and their error rates are the project's own simulation (test/simulation)
 */
export function groupTrays(trays: ReadonlyArray<ComparedTray>): GroupedTrays {
  const named = namesOf(trays);
  const counted: { tray: ComparedTray; name: string }[] = [];
  const leftOut: GroupedTrays["leftOut"] = [];
  for (let i = 0; i < trays.length; i++) {
    const name = named.names[i];
    if (name !== undefined) counted.push({ tray: trays[i]!, name });
    else leftOut.push({ row: trays[i]!.row, reason: named.by === "day" ? "no-day" : "no-cook" });
  }
  const merging = mergeByUnit(counted);
  const numbers = new Map<string, number>();
  const groups: string[] = [];
  let [last, group]: [string | undefined, number] = [undefined, 0];
  const placed = counted.map(({ tray, name }) => {
    if (name !== last) {
      const joined = merging.nameOf(name);
      group = numbers.get(joined) ?? groups.length;
      if (group === groups.length) {
        numbers.set(joined, group);
        groups.push(joined);
      }
      last = name;
    }
    return { tray, group };
  });
  return {
    grouping: { by: named.by, groups, filled: named.filled, merged: merging.merged },
    trays: placed,
    leftOut,
  };
}

interface Names {
  by: GroupedBy;
  names: (string | undefined)[];
  filled: { row: number; cook: string }[];
}

function namesOf(trays: ReadonlyArray<ComparedTray>): Names {
  if (enough(trays.filter(({ cook }) => cook !== undefined).length, trays.length)) return byCook(trays);
  if (enough(trays.filter(({ day }) => day !== undefined).length, trays.length)) return byDay(trays);
  if (trays.length <= oneCookAtMost) return { by: "assumed-one-cook", names: trays.map(() => "1"), filled: [] };
  const size = Math.max(6, 2 * new Set(trays.map(({ level }) => level)).size);
  return { by: "row-blocks", names: trays.map((_, i) => `${Math.floor(i / size) + 1}`), filled: [] };
}

/** A blank cook is that of its day, if that day has one cook only. */
function byCook(trays: ReadonlyArray<ComparedTray>): Names {
  const cooksOfDay = new Map<number, Set<string>>();
  for (const { cook, day } of trays) {
    if (cook === undefined || day === undefined) continue;
    const cooks = cooksOfDay.get(day);
    if (cooks === undefined) cooksOfDay.set(day, new Set([cook]));
    else cooks.add(cook);
  }
  const filled: { row: number; cook: string }[] = [];
  const names = trays.map(({ cook, day, row }) => {
    if (cook !== undefined) return cook;
    const cooks = day === undefined ? undefined : cooksOfDay.get(day);
    if (cooks?.size !== 1) return undefined;
    const [only] = cooks;
    filled.push({ row, cook: only! });
    return only;
  });
  return { by: "cook", names, filled };
}

/** Days are cooks; neighbouring days of one and the same level are one cook. */
function byDay(trays: ReadonlyArray<ComparedTray>): Names {
  const levelsOfDay = new Map<number, Set<number | string>>();
  for (const { day, level } of trays) {
    if (day === undefined) continue;
    const levels = levelsOfDay.get(day);
    if (levels === undefined) levelsOfDay.set(day, new Set([level]));
    else levels.add(level);
  }
  const lastOfLevel = new Map<number | string, { day: number; name: string }>();
  const names = new Map<number, string>();
  for (const day of [...levelsOfDay.keys()].sort((a, b) => a - b)) {
    const levels = levelsOfDay.get(day)!;
    const [level] = levels;
    const before = levels.size === 1 ? lastOfLevel.get(level!) : undefined;
    const name = before !== undefined && day - before.day <= sameCookDays ? before.name : `${day}`;
    names.set(day, name);
    if (levels.size === 1) lastOfLevel.set(level!, { day, name });
  }
  return { by: "day", names: trays.map(({ day }) => (day === undefined ? undefined : names.get(day))), filled: [] };
}
