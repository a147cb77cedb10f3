import type { Excluded } from "../../src/analysis.ts";
import type { ComparedTray, Level } from "../../src/decisions/verdict/index.ts";
import type { Factor } from "../../src/design/factor.ts";
import { dayNumber, daysBetween } from "../../src/measures/day-number.ts";
import { cookOf, lostAhead } from "../../src/records/ended-cooks.ts";
import { addTo } from "../../src/records/grouped.ts";
import { Memo } from "../../src/records/memo.ts";
import { isLost, type Tray } from "../../src/records/tray.ts";
import { inSentence } from "../comparison/level-text.ts";
import type { TrayResponse } from "../comparison/tray-response.ts";

/** The trays of a comparison as the verdict rules see them. */
export interface GatheredTrays {
  trays: ComparedTray[];
  /** every tray by the row number it has in `trays` */
  byRow: ReadonlyArray<Tray>;
  excluded: Excluded[];
  /** jars whose name came back so much later that another jar is meant */
  jarsAgain: string[];
}

/** A jar of culture is used up or thrown away within so many days; its name coming back later is another jar. */
const jarLastsDays = 21;

/** Which use of its jar's name a tray belongs to, where it is not the first; undated trays belong to that. */
function laterJarUses(trays: ReadonlyArray<Tray>): { useOf: ReadonlyMap<Tray, string>; again: string[] } {
  const byName = new Map<string, { dated: { tray: Tray; on: string }[]; first: string; last: string }>();
  for (const tray of trays) {
    const { jar, inoculatedOn: on } = tray;
    if (jar === undefined || on === undefined) continue;
    const own = byName.get(jar);
    if (own === undefined) byName.set(jar, { dated: [{ tray, on }], first: on, last: on });
    else {
      own.dated.push({ tray, on });
      if (on < own.first) own.first = on;
      if (on > own.last) own.last = on;
    }
  }
  const useOf = new Map<Tray, string>();
  const again: string[] = [];
  for (const [name, { dated, first, last }] of byName) {
    if (first === last || daysBetween(first, last) <= jarLastsDays) continue;
    dated.sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
    let use = 1;
    dated.forEach(({ tray, on }, at) => {
      if (at > 0 && daysBetween(dated[at - 1]!.on, on) > jarLastsDays) use++;
      if (use > 1) useOf.set(tray, `${name} (${use})`);
    });
    if (use > 1) again.push(name);
  }
  return { useOf, again };
}

/** A tray's level of a thing: an amount as a number, else its name; undefined where it is not written. */
export const levelIn = (thing: Factor, tray: Tray): Level | undefined =>
  thing.value === undefined ? thing.level(tray) : thing.value(tray);

/** How many of some trays had each level of a thing; those on which it is not written are left out. */
export function traysByLevel(trays: ReadonlyArray<Tray>, thing: Factor): Map<Level, number> {
  const counts = new Map<Level, number>();
  for (const tray of trays) {
    const level = levelIn(thing, tray);
    if (level !== undefined) counts.set(level, (counts.get(level) ?? 0) + 1);
  }
  return counts;
}

/** What is set for a whole room. */
const ofRooms: ReadonlyArray<string> = ["fruiting_c", "incubation_c"];

/**
 * What a tray shared with others, apart from the thing compared, its parts (the shelves of a chamber) and what it is a part of,
 * which have one level by nature. One name is one thing in the whole book, but for a load, which belongs to its cook, and a jar. What is set for a
 * room is shared by the trays of a cook that stood there together.
 */
function unitsOf(tray: Tray, jar: string | undefined, thing: Factor): Record<string, string> {
  const { key } = thing;
  const isPlace = key === "chamber" || key === "shelf";
  const units: Record<string, string> = {};
  const add = (kind: string, name: string | undefined): void => {
    if (kind !== key && name !== undefined) units[kind] = name;
  };
  add("jar", jar);
  add("shelf", isPlace ? undefined : tray.shelf);
  add("chamber", isPlace ? undefined : tray.chamber);
  add("load", tray.load === undefined ? undefined : `${tray.batch ?? ""}, ${tray.load}`);
  add("run", ofRooms.includes(key) ? JSON.stringify([tray.chamber, cookOf(tray), levelIn(thing, tray)]) : undefined);
  return units;
}

/** Units that are themselves compared, and things set for a whole room: what is shared beside them is their own. */
const withOwnUnits: ReadonlyArray<string> = ["jar", "shelf", "chamber", "load", ...ofRooms];

/** What each tray shared with others beside the thing compared, and jars that came back; the same for most things. */
function unitsBeside(thing: Factor, trays: ReadonlyArray<Tray>, memo: Memo) {
  const of = withOwnUnits.includes(thing.key) ? thing.key : "what trays are given";
  return memo.once([trays], `units beside ${of}`, () => {
    const { useOf, again } = laterJarUses(trays);
    return { units: trays.map((tray) => unitsOf(tray, useOf.get(tray) ?? tray.jar, thing)), again };
  });
}

/** Why a tray says nothing about a thing and a response; undefined where it does. */
function whyLeftOut(
  tray: Tray,
  level: number | string | undefined,
  value: number | undefined,
  thing: Factor,
  response: TrayResponse,
  keepLost: boolean,
): string | undefined {
  if (tray.outcome === "growing" && value === undefined) return "still growing, so no result yet";
  if (tray.outcome === "asked") return "asked about in the log, so what became of it is not known";
  if (level === undefined) return `${inSentence(thing.label)} not recorded or not readable`;
  if (value !== undefined) return undefined;
  if (!isLost(tray)) return `no ${response.label} recorded`;
  return keepLost ? undefined : `lost, so no ${response.label}`;
}

/**
 * Gathers the finished trays on which a thing that varied is written, and says why the others do not count.
 * @param thing what varied; amounts become numbers, names stay names
 * @param response the result of a good tray; lost trays count as lost
 * @param keepLost whether lost trays belong to the comparison (as losses); days know none
 * @param memo keeps what several things and responses of the same trays share
 */
export function gatherTrays(
  trays: ReadonlyArray<Tray>,
  thing: Factor,
  response: TrayResponse,
  keepLost = true,
  memo = new Memo(),
): GatheredTrays {
  const compared: ComparedTray[] = [];
  const reasons = new Map<string, string[]>();
  const { units, again } = unitsBeside(thing, trays, memo);
  const ahead = keepLost ? memo.once([trays], "lost ahead", () => lostAhead(trays)) : new Set();
  let [date, day]: [string | undefined, number | undefined] = [undefined, undefined];
  for (const [row, tray] of trays.entries()) {
    const level = levelIn(thing, tray);
    const value = response.of(tray);
    const reason = ahead.has(tray)
      ? "lost, while its cook grows for the most part: losses come before pickings"
      : whyLeftOut(tray, level, value, thing, response, keepLost);
    if (reason !== undefined || level === undefined) {
      addTo(reasons, reason!, tray.trayId);
      continue;
    }
    if (tray.inoculatedOn !== date) {
      date = tray.inoculatedOn;
      day = date === undefined ? undefined : dayNumber(date);
    }
    compared.push({
      level,
      row,
      value: value ?? "lost",
      units: units[row]!,
      cook: tray.batch,
      day,
      pooled: tray.traysInPool === 1 ? undefined : tray.traysInPool,
      other: undefined,
    });
  }
  const excluded = [...reasons].map(([reason, names]) => ({ trays: names, reason }));
  return { trays: compared, byRow: trays, excluded, jarsAgain: again };
}
