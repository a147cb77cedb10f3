import { harvestField } from "../../records/harvest-field.ts";
import type { Issue } from "../../records/issue.ts";
import type { Settings } from "../../records/setting.ts";
import { cleaningIssue } from "../cleaning-issue.ts";
import { plainConventions } from "../values/quantity-reading.ts";
import type { ColumnPin, ColumnPlan } from "./column-plan.ts";
import { borneOut, type ColumnMeaning, type ColumnProfile, meaningsOfHeader } from "./match-columns.ts";

const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

const example = (file: string, header: string, field: string): string => `${file},${header},${field}`;

/** The pin of a column: one for this sheet before one for every sheet. */
function pinOf(pins: ReadonlyArray<ColumnPin>, file: string, header: string): ColumnPin | undefined {
  const named = pins.filter((pin) => same(pin.header, header));
  const sheet = file.split(" > ")[0]!;
  return (
    named.find((pin) => same(pin.file, file) || same(pin.file, sheet) || same(pin.file, sheet.split("/").at(-1)!)) ??
    named.find((pin) => pin.file.trim() === "")
  );
}

const slotOf = ({ field, flush }: ColumnMeaning): string => (flush === undefined ? field : `${field} ${flush}`);

interface Claim {
  index: number;
  meaning: ColumnMeaning;
}

/** What each column of a table is taken for, and what has to be said about it. */
export interface ColumnsPlanned {
  plans: ColumnPlan[];
  issues: Issue[];
}

/**
 * Decides what every column of a harvest table holds. A pin in columns.csv wins, then the canonical name, then what the
 * header means to the trade; where only the cells can tell, they are looked at. Two columns with equal claims to one
 * field are both left out and asked about.
 * @param profiles counts what the cells of columns look like; called at most once, with the places of the columns in doubt
 */
export function planColumns(
  file: string,
  header: ReadonlyArray<string>,
  settings: Settings,
  pins: ReadonlyArray<ColumnPin>,
  profiles: (indexes: ReadonlyArray<number>) => ReadonlyMap<number, ColumnProfile>,
): ColumnsPlanned {
  const issues: Issue[] = [];
  const say = (column: string, entry: Pick<Issue, "rule" | "severity" | "reason"> & Partial<Issue>) =>
    issues.push(cleaningIssue({ file, column, raw: column, ...entry }));
  const pinned = header.map((name) => pinOf(pins, file, name));
  const options = header.map((name, index): ColumnMeaning[] => {
    const pin = pinned[index];
    if (pin === undefined) return name === "" ? [] : meaningsOfHeader(name);
    if (pin.field === "factor" || pin.field === "unread") return [];
    const unit = pin.unit || meaningsOfHeader(name).find(({ field }) => field === pin.field)?.unit || "";
    return [{ field: pin.field, because: "pinned in columns.csv", rank: 4, unit }];
  });
  const doubtful = options.flatMap((meanings, index) => (meanings.length > 1 ? [index] : []));
  const looked = doubtful.length > 0 ? profiles(doubtful) : new Map<number, ColumnProfile>();
  for (const index of doubtful) {
    const left = borneOut(options[index]!, looked.get(index) ?? {});
    if (left.length === 1) left[0] = { ...left[0]!, because: `${left[0]!.because}, by what the cells hold` };
    options[index] = left;
  }
  const taken = new Map<number, ColumnMeaning>();
  const unread = new Set<number>();
  const strong = new Set(options.filter((meanings) => meanings.length === 1).map(([only]) => slotOf(only!)));
  const claims = new Map<string, Claim[]>();
  options.forEach((meanings, index) => {
    // a field that another column names alone is no longer in doubt here
    const left = meanings.length > 1 ? meanings.filter((meaning) => !strong.has(slotOf(meaning))) : meanings;
    const empty = Object.keys(looked.get(index) ?? { empty: 0 }).every((cell) => cell === "empty");
    if (left.length > 1 && !(looked.has(index) && empty)) {
      unread.add(index);
      const fields = left.map(({ field }) => field);
      say(header[index]!, {
        rule: "column-in-doubt",
        severity: "error",
        reason: `the column could be ${fields.join(" or ")}, and neither its name nor its cells decide`,
        expected: `a name such as ${fields[0]}`,
        action: `Add the line ${example(file, header[index]!, fields[0]!)} (or another field) to columns.csv`,
      });
      return;
    }
    const meaning = left[0];
    if (meaning === undefined) return;
    const slot = slotOf(meaning);
    claims.set(slot, [...(claims.get(slot) ?? []), { index, meaning }]);
  });
  for (const [slot, claimants] of claims) {
    const best = Math.max(...claimants.map(({ meaning }) => meaning.rank));
    const winners = claimants.filter(({ meaning }) => meaning.rank === best);
    const names = claimants.map(({ index }) => `“${header[index]}”`).join(" and ");
    if (winners.length === 1 || slot === "note") {
      for (const { index, meaning } of slot === "note" ? claimants : winners) taken.set(index, meaning);
      if (slot === "note") continue;
      for (const { index, meaning } of claimants) {
        if (meaning.rank === best) continue;
        say(header[index]!, {
          rule: "second-column",
          severity: "note",
          reason: `another column has the better claim to ${meaning.field}, so this one is passed through as a factor`,
          action: `If this column is the right one, add the line ${example(file, header[index]!, meaning.field)} to columns.csv`,
        });
      }
      continue;
    }
    for (const { index, meaning } of claimants) {
      unread.add(index);
      say(header[index]!, {
        rule: "two-columns-one-field",
        severity: "error",
        reason: `${names} could all be ${meaning.field}: none of them is read until one is chosen`,
        expected: "one column for each field",
        action: `Add the line ${example(file, header[index]!, meaning.field)} to columns.csv for the right one, and factor for the others`,
      });
    }
  }
  const plans = header.map((name, index): ColumnPlan => {
    const meaning = taken.get(index);
    const pin = pinned[index];
    const base = {
      index,
      header: name,
      conventions: { ...plainConventions },
      dates: { order: "", epoch: "" } as const,
    };
    base.conventions.cupMillilitres = settings.cupMillilitres;
    base.conventions.syringeMillilitres = settings.syringeMillilitres;
    if (meaning === undefined) {
      const field = pin?.field === "unread" || unread.has(index) || name === "" ? "unread" : "factor";
      const because =
        pin !== undefined ? "pinned in columns.csv" : field === "factor" ? "no field by that name" : "left out";
      return { ...base, field, kind: "text", because, canonical: false, mixedTemperatures: false };
    }
    const { kind } = harvestField(meaning.field);
    if (meaning.field === "fresh_g") base.conventions.weightState = "fresh";
    if (meaning.field === "dry_g") base.conventions.weightState = "dry";
    if (meaning.unit !== "") {
      base.conventions.bareUnit = meaning.unit;
      base.conventions.bareUnitReason = "the header says so";
    }
    if (meaning.rank === 1) {
      say(name, {
        rule: "column-by-elimination",
        severity: "note",
        result: meaning.field,
        reason: `read as ${meaning.field} because no other column is`,
        action: `If it is something else, add the line ${example(file, name, "factor")} (or its field) to columns.csv`,
      });
    }
    if (meaning.because.startsWith("spelling")) {
      say(name, {
        rule: "header-spelling",
        severity: "change",
        result: meaning.field,
        reason: `the misspelt header is read as ${meaning.field}`,
      });
    }
    return {
      ...base,
      field: meaning.field,
      kind,
      because: meaning.because,
      canonical: meaning.rank === 3 || (meaning.rank === 4 && meaning.field === name),
      mixedTemperatures: false,
      ...(meaning.flush === undefined ? {} : { flush: meaning.flush }),
    };
  });
  for (const { field, header: name, because } of plans) {
    if (field === "factor" && because === "no field by that name" && !issues.some(({ column }) => column === name)) {
      say(name, {
        rule: "free-column",
        severity: "note",
        reason: "no field by that name: passed through, and can be used as a factor",
        action: `If it is one of the fields, add the line ${example(file, name, "FIELD")} with the field's name to columns.csv`,
      });
    }
    if (field === "unread" && name === "") {
      say("", {
        rule: "nameless-column",
        severity: "warning",
        reason: "a column with cells but no name is left out",
        action: "Name the column",
      });
    }
  }
  return { plans, issues };
}
