import { type RowSource, sourceOf } from "../../records/tray.ts";
import type { PartingFact } from "./parting-facts.ts";
import { kinship } from "./same-tray.ts";
import type { TrayDraft } from "./tray-draft.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

const bySource = (one: TrayDraft, other: TrayDraft): number => byPlace(sourceOf(one), sourceOf(other));

const byPlace = (a: RowSource, b: RowSource): number =>
  a!.file === b!.file ? a!.row - b!.row : a!.file < b!.file ? -1 : 1;

/** Rows of one name in groups, one for each tray. A row that may belong to a group or not goes into it and is asked about there. */
function groupsOf(
  rows: ReadonlyArray<TrayDraft>,
  parting: ReadonlyMap<string, PartingFact>,
): { groups: TrayDraft[][]; unclear: Set<TrayDraft[]> } {
  const groups: TrayDraft[][] = [];
  const unclear = new Set<TrayDraft[]>();
  for (const row of rows) {
    const kinships = groups.map((group) => {
      const each = group.map((other) => kinship(other, row, parting.get(sourceOf(row).file)));
      return each.includes("two trays") ? "two trays" : each.includes("unclear") ? "unclear" : "one tray";
    });
    const at = kinships.indexOf("one tray");
    const place = at >= 0 ? at : kinships.indexOf("unclear");
    if (place < 0) groups.push([row]);
    else groups[place]!.push(row);
    if (at < 0 && place >= 0) unclear.add(groups[place]!);
  }
  return { groups, unclear };
}

const baseName = (file: string): string =>
  file
    .split("/")
    .at(-1)!
    .replace(/\.[^.\s]+(?= > |$)/, "");

const first = (rows: ReadonlyArray<TrayDraft>, property: "batch" | "inoculatedOn"): string | undefined =>
  rows.find((row) => row[property] !== undefined)?.[property];

/** What tells groups of one name apart: their cooks, else their days of inoculation, what parts their sheet, or their files. */
function markOf(
  groups: ReadonlyArray<TrayDraft[]>,
  parting: ReadonlyMap<string, PartingFact>,
): (group: TrayDraft[]) => string | undefined {
  const ways: ((group: TrayDraft[]) => string | undefined)[] = [
    (group) => first(group, "batch"),
    (group) => first(group, "inoculatedOn"),
    ([one]) => parting.get(sourceOf(one!).file)?.(one!),
    (group) => baseName(sourceOf(group[0]!).file),
  ];
  const apart = ways.find((way) => {
    const marks = groups.map(way);
    return !marks.includes(undefined) && new Set(marks).size === groups.length;
  });
  return apart ?? ((group) => `row ${sourceOf(group[0]!).row} of ${baseName(sourceOf(group[0]!).file)}`);
}

/** Pickings of one tray on different days without numbers are its flushes, in the order of their days. */
function numberByDay(rows: ReadonlyArray<TrayDraft>, log: TrayLog): void {
  const flushes = rows.map((row) => (row.flushes.length === 1 ? row.flushes[0]! : undefined));
  const days = flushes.map((flush) => (flush?.number === 0 ? flush.harvestedOn : undefined));
  if (rows.length < 2 || days.includes(undefined) || new Set(days).size < days.length) return;
  const order = [...days].sort();
  for (const [index, row] of rows.entries()) {
    const number = order.indexOf(days[index]!) + 1;
    flushes[index]!.number = number;
    logAtRow(log, row.trayId, sourceOf(row), "flush", {
      rule: "flush-by-day",
      severity: "change",
      result: String(number),
      reason: "several rows of one tray, picked on different days: its flushes in the order of those days",
    });
  }
}

function logSpelling(rows: ReadonlyArray<TrayDraft>, name: string, log: TrayLog): void {
  for (const row of rows) {
    if (row.trayId === name) continue;
    logAtRow(log, name, sourceOf(row), "tray_id", {
      rule: "name-spelling",
      severity: "change",
      raw: row.trayId,
      result: name,
      reason: "differs from another row's name only in case, spaces, hyphens or leading zeros: one tray",
    });
    row.trayId = name;
  }
}

/**
 * Rows of one name, parted into trays. Where there are several trays of the name, each is called by what tells it from the
 * others: "T1 (A)", "T1 (april)".
 * @param rows two or more whose names differ at most in spelling
 * @param parting what parts the trays of a sheet, by file
 * @returns the rows of each tray, under the name of the tray
 */
export function splitByTray(
  rows: ReadonlyArray<TrayDraft>,
  log: TrayLog,
  parting: ReadonlyMap<string, PartingFact>,
): TrayDraft[][] {
  const { groups, unclear } = groupsOf([...rows].sort(bySource), parting);
  const name = groups[0]![0]!.trayId;
  for (const group of groups) logSpelling(group, name, log);
  if (groups.length > 1) {
    const mark = markOf(groups, parting);
    for (const group of groups) {
      const own = `${name} (${mark(group)})`;
      for (const row of group) row.trayId = own;
      logAtRow(log, own, sourceOf(group[0]!), "tray_id", {
        rule: "name-used-twice",
        severity: "note",
        raw: name,
        result: own,
        reason: "several trays have this name, and their cook, dates, file or another fact of theirs tells them apart",
        expected: "a name of its own for every tray of the book",
        action: "If they are one tray, correct the facts that differ",
      });
    }
  }
  // days in sheets that nothing holds together may be of two trays
  for (const group of groups) if (!unclear.has(group)) numberByDay(group, log);
  return groups;
}
