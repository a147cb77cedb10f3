import { grouped } from "../../records/grouped.ts";
import type { LeftOutRow } from "../../records/issue.ts";
import { sourceOf, type Tray } from "../../records/tray.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

interface Numbered {
  tray: Tray;
  /** what stands before the number: "C1-" of "C1-007" */
  prefix: string;
  number: number;
  /** digits as typed, with leading zeros */
  width: number;
}

/** the rule's code in the log */
export const missingNumberRule = "tray-number-missing";

const mostDigits = 9;
/** A longer gap is a jump in the numbering, not trays that were left out. */
const longestGap = 5;
/** Fewer trays in a row are no numbering to lean on. */
const fewestTrays = 8;
/** Where more of a run is missing, the numbers go up in steps. */
const mostMissing = 1 / 3;

/** Where the number at a name's end begins; the name's length where it ends in none, or in one too long to count on. */
function numberStart(name: string): number {
  let at = name.length;
  while (at > 0 && name.charCodeAt(at - 1) >= 48 && name.charCodeAt(at - 1) <= 57) at--;
  return name.length - at > mostDigits ? name.length : at;
}

/** The number of the digits of a name from a place on. */
function numberFrom(name: string, start: number): number {
  let number = 0;
  for (let at = start; at < name.length; at++) number = number * 10 + name.charCodeAt(at) - 48;
  return number;
}

/** Whether the numbers go up by one from tray to tray, as in most large sheets: then none is missing, and nothing is sorted. */
function goUpByOne(trays: ReadonlyArray<Tray>): boolean {
  let before: number | undefined;
  return trays.every(({ trayId }) => {
    const at = numberStart(trayId);
    if (at === trayId.length) return true;
    const number = numberFrom(trayId, at);
    const follows = before === undefined || number === before + 1;
    before = number;
    return follows;
  });
}

/** Trays in order of their numbers: all of them where no number comes twice, else those of each prefix. */
function sequences(trays: ReadonlyArray<Tray>): Numbered[][] {
  const all = trays.flatMap((tray): Numbered[] => {
    const at = numberStart(tray.trayId);
    if (at === tray.trayId.length) return [];
    const { length } = tray.trayId;
    return [{ tray, prefix: tray.trayId.slice(0, at), number: numberFrom(tray.trayId, at), width: length - at }];
  });
  const byNumber = (a: Numbered, b: Numbered) => a.number - b.number;
  if (new Set(all.map(({ number }) => number)).size === all.length) return [all.sort(byNumber)];
  return [...grouped(all, ({ prefix }) => prefix).values()].map((own) => own.sort(byNumber));
}

/** Between two cooks numbering may start again, so only a single number counts as missing there. */
function isJump(before: Numbered, after: Numbered): boolean {
  const gap = after.number - before.number - 1;
  return gap > longestGap || (gap > 1 && before.tray.batch !== after.tray.batch);
}

/** Cuts a sequence where the numbering jumps. */
function runs(sequence: ReadonlyArray<Numbered>): Numbered[][] {
  const cut: Numbered[][] = [];
  for (const [index, one] of sequence.entries()) {
    if (index === 0 || isJump(sequence[index - 1]!, one)) cut.push([one]);
    else cut.at(-1)!.push(one);
  }
  return cut;
}

/**
 * Numbers that are missing where trays are numbered one by one: trays that were lost and not written down make a risky
 * dose look good. A number that a left-out row bears is not missing; a number counts in whichever sheet it stands.
 * Numbering in steps, beside pools of trays or with jumps is let alone. Writes the log under the name each tray would have.
 */
export function noteMissingNumbers(trays: ReadonlyArray<Tray>, leftOut: ReadonlyArray<LeftOutRow>, log: TrayLog): void {
  if (goUpByOne(trays)) return;
  const setAside = new Set(leftOut.flatMap(({ cells }) => cells.map((cell) => cell.trim())));
  for (const run of sequences(trays).flatMap(runs)) {
    const span = run.at(-1)!.number - run[0]!.number + 1;
    const countsByOne = run.length >= fewestTrays && (span - run.length) / span <= mostMissing;
    if (!countsByOne || run.some(({ tray }) => tray.traysInPool > 1)) continue;
    for (const [index, after] of run.entries()) {
      const before = run[index - 1];
      if (before === undefined) continue;
      for (let number = before.number + 1; number < after.number; number++) {
        const name = `${before.prefix}${String(number).padStart(before.width, "0")}`;
        if (setAside.has(name) || setAside.has(`${after.prefix}${String(number).padStart(after.width, "0")}`)) continue;
        logAtRow(log, name, sourceOf(after.tray), "tray_id", {
          rule: missingNumberRule,
          severity: "warning",
          raw: `${before.tray.trayId}, ${after.tray.trayId}`,
          reason: "a number between these two trays' is in no row, so what became of that tray is not known",
          expected: "a row for every tray filled, the lost ones too",
          action:
            "If it was filled, type its row with its dose and outcome: lost trays left out make a risky dose look good",
        });
      }
    }
  }
}
