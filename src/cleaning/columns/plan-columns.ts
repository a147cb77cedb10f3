import { writeCsv } from "../../csv/write-csv.ts";
import type { ColumnReading } from "../../records/book.ts";
import { fileName, fileStem } from "../../records/file-stem.ts";
import { harvestField, isWeightField } from "../../records/harvest-field.ts";
import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import { nameKey } from "../../records/name-key.ts";
import { plannedTrialColumn } from "../../records/planned-trial.ts";
import type { Settings } from "../../records/setting.ts";
import type { RemarksSay } from "../../records/sheet.ts";
import { plainConventions } from "../values/quantity-reading.ts";
import { isRate } from "./amounts-not-of-trays.ts";
import { type Claims, claimColumns } from "./claim-columns.ts";
import type { ColumnMeaning, ColumnPin, ColumnPlan, Say } from "./column-plan.ts";
import type { ColumnProfile } from "./column-profile.ts";
import { takeNamelessDose } from "./nameless-dose.ts";
import { onlyMarkedCount, saysUse } from "./use-columns.ts";

const same = (a: string, b: string): boolean => nameKey(a) === nameKey(b);

const example = (file: string, header: string, field: string): string =>
  writeCsv([[file, header, field]], { guard: true }).trim();

/** Whether a pin names a sheet itself, not every sheet. */
function namesSheet(pin: ColumnPin, file: string): boolean {
  const sheet = file.split(" > ")[0]!;
  const last = fileName(sheet);
  return [file, sheet, last, fileStem(last)].some((name) => same(pin.file, name));
}

/** What pickings in columns of their own are called, to be added up. */
export const pickingsNamed = "pickings to be added up are named Flush 1 g, Flush 2 g";

const isForAll = (pin: ColumnPin): boolean => pin.file.trim() === "";

/** The pin of a column: one for this sheet before one for every sheet. */
export function pinOf(pins: ReadonlyArray<ColumnPin>, file: string, header: string): ColumnPin | undefined {
  const named = pins.filter((pin) => same(pin.header, header));
  return named.find((pin) => namesSheet(pin, file)) ?? named.find(isForAll);
}

/** Lines of columns.csv about columns that no harvest sheet has: said, so that a misspelt header is not passed over. */
export function pinsWithoutColumn(
  pins: ReadonlyArray<ColumnPin>,
  columns: ReadonlyArray<Pick<ColumnReading, "file" | "header">>,
): Issue[] {
  const isUsed = (pin: ColumnPin): boolean =>
    columns.some(({ file, header }) => same(pin.header, header) && (isForAll(pin) || namesSheet(pin, file)));
  const headersFor = (pin: ColumnPin): string => {
    const own = columns.filter(({ file }) => namesSheet(pin, file));
    return (own.length > 0 ? own : columns).map(({ file, header }) => `${file},${header}`).join("; ");
  };
  return pins.flatMap((pin) =>
    pin.line === undefined || isUsed(pin)
      ? []
      : [
          logEntry({
            ...pin.line,
            column: "header",
            raw: pin.header,
            rule: "pin-without-column",
            severity: pin.field === "unread" ? "note" : "warning",
            reason: `${isForAll(pin) ? "no harvest sheet" : "the sheet it names"} has no column of this header; the line was not used`,
            expected: `a header that is there: ${headersFor(pin)}`,
            action: "Correct the line, or remove it",
          }),
        ],
  );
}

/** What each column of a table is taken for, and what has to be said about it. */
export interface ColumnsPlanned {
  plans: ColumnPlan[];
  issues: Issue[];
}

/** Asks about the columns that were left open. */
function sayDoubts(file: string, header: ReadonlyArray<string>, { doubts, second }: Claims, say: Say): void {
  for (const [index, doubt] of doubts) {
    const name = header[index]!;
    if (doubt.kind === "several fields") {
      const { fields } = doubt;
      say(name, {
        rule: "column-in-doubt",
        severity: "error",
        reason: `the column could be ${fields.join(" or ")}, and neither its name nor its cells decide`,
        expected: `a name such as ${fields[0]}`,
        action: `Add the line ${example(file, name, fields[0]!)} (or another field) to columns.csv`,
      });
    } else if (doubt.kind === "weights") {
      const { rule, reason, raw = name } = doubt;
      say(name, {
        rule,
        severity: "error",
        raw,
        reason,
        expected: "the weight of each tray's mushrooms alone",
        action: `Correct the weights in the sheet; if they stand as they should, add the line ${example(file, name, doubt.field)} to columns.csv`,
      });
    } else if (doubt.kind === "count") {
      say(name, {
        rule: "count-of-what",
        severity: "error",
        reason: "a count: of trays weighed together or started, or of something else (mushrooms, say)?",
        expected: "a name that says what is counted, such as trays_in_pool or mushrooms",
        action: `Add the line ${example(file, name, "factor")} to columns.csv, or ${example(file, name, doubt.field)} where it counts trays`,
      });
    } else {
      const names = doubt.columns.map((column) => `“${header[column]}”`).join(" and ");
      say(name, {
        rule: "two-columns-one-field",
        severity: "error",
        reason: `${names} could all be ${doubt.field}: none of them is read until one is chosen`,
        expected: "one column for each field",
        action: `Add the line ${example(file, name, doubt.field)} to columns.csv for the right one, and factor for the others (change lines that are there)${isWeightField(doubt.field) ? `; ${pickingsNamed}` : ""}`,
      });
    }
  }
  for (const [index, field] of second) {
    say(header[index]!, {
      rule: "second-column",
      severity: "note",
      reason: `another column has the better claim to ${field}, so this one is passed through as a factor`,
      action: `If this column is the right one, add the line ${example(file, header[index]!, field)} to columns.csv`,
    });
  }
}

/** Says how a column came to its field, where that was not plain. */
function sayHow(file: string, name: string, { field, rank, because }: ColumnMeaning, say: Say): void {
  if (saysUse(because)) {
    say(name, {
      rule: "column-of-use",
      severity: "note",
      result: because,
      reason: `the column ${because}${because === onlyMarkedCount ? ": a weighed tray without a mark does not" : ""}`,
      action: `If it says something else, add the line ${example(file, name, "factor")} to columns.csv`,
    });
  } else if (rank === 1) {
    say(name, {
      rule: "column-by-elimination",
      severity: "note",
      result: field,
      reason: `read as ${field} because no other column is`,
      action: `If it is something else, add the line ${example(file, name, "factor")} (or its field) to columns.csv`,
    });
  }
  if (because.startsWith("spelling")) {
    say(name, {
      rule: "header-spelling",
      severity: "note",
      result: field,
      reason: `read as ${field}, misspelt`,
      action: `If it is something else, add the line ${example(file, name, "factor")} (or its field) to columns.csv`,
    });
  }
}

function conventionsOf(meaning: ColumnMeaning | undefined, settings: Settings): ColumnPlan["conventions"] {
  const conventions = { ...plainConventions };
  conventions.cupMillilitres = settings.cupMillilitres;
  conventions.syringeMillilitres = settings.syringeMillilitres;
  if (meaning !== undefined) conventions.measures = meaning.field;
  if (meaning !== undefined && meaning.unit !== "") {
    conventions.bareUnit = meaning.unit;
    conventions.bareUnitReason = "the header says so";
  }
  return conventions;
}

/** Says which columns are passed through, and which have no name. */
function sayUnknown(
  file: string,
  plans: ReadonlyArray<ColumnPlan>,
  issues: ReadonlyArray<Issue>,
  isFilled: (index: number) => boolean,
  say: Say,
): void {
  for (const { index, field, header: name, because } of plans) {
    if (name === plannedTrialColumn) continue;
    if (field === "factor" && because === "no field by that name" && !issues.some(({ column }) => column === name)) {
      say(name, {
        rule: "free-column",
        severity: "note",
        ...(isRate(name)
          ? {
              reason: "an amount for each kilogram, litre or cook is not that of a tray: passed through as a factor",
              action: "Type what each tray got in a column such as inoculum_ml if doses and costs are to be known",
            }
          : {
              reason: "no field by that name: passed through, and can be used as a factor",
              action: `If it is one of the fields, add the line ${example(file, name, "FIELD")} with the field's name to columns.csv`,
            }),
      });
    }
    if (field === "unread" && name === "" && isFilled(index)) {
      say("", {
        rule: "nameless-column",
        severity: "warning",
        reason: "a column with cells but no name is left out",
        action: "Name the column",
      });
    }
  }
}

/** Columns without a name behind all others that hold nothing but words are notes. */
function takeNotes(
  nameless: ReadonlyArray<ColumnPlan>,
  header: ReadonlyArray<string>,
  profileOf: (index: number) => ColumnProfile | undefined,
  say: Say,
): void {
  const lastNamed = header.findLastIndex((name) => name !== "");
  for (const plan of nameless) {
    const { counts = {} } = profileOf(plan.index) ?? {};
    const others = Object.entries(counts).some(([look, count]) => look !== "empty" && look !== "text" && count > 0);
    if (plan.index < lastNamed || others || !counts.text) continue;
    Object.assign(plan, { field: "note", because: "words under no name" });
    say("", {
      rule: "nameless-notes",
      severity: "note",
      result: "note",
      reason: "a column without a name holds nothing but words: read as notes",
      action: "Name the column if it holds something else",
    });
  }
}

/**
 * Decides what every column of a harvest table holds. A pin in columns.csv wins, then the canonical name, then what the
 * header means to the trade; where only the cells can tell, they are looked at. Two columns with equal claims to one
 * field are both left out and asked about.
 * @param profiles counts what the cells of columns look like; called with the places of columns in doubt
 * @param remark what a line beside the table says of its weights
 */
export function planColumns(
  file: string,
  header: ReadonlyArray<string>,
  settings: Settings,
  pins: ReadonlyArray<ColumnPin>,
  profiles: (indexes: ReadonlyArray<number>) => ReadonlyMap<number, ColumnProfile>,
  remark?: RemarksSay["weights"],
): ColumnsPlanned {
  const issues: Issue[] = [];
  const say: Say = (column, entry) => void issues.push(logEntry({ file, column, raw: column, ...entry }));
  const pinned = header.map((name) => pinOf(pins, file, name));
  const claims = claimColumns(header, pinned, profiles, remark);
  takeNamelessDose(header, claims.taken, profiles, say);
  sayDoubts(file, header, claims, say);
  const plans = header.map((name, index): ColumnPlan => {
    const meaning = claims.taken.get(index);
    const conventions = conventionsOf(meaning, settings);
    const base = { index, header: name, conventions, dates: { order: "", epoch: "" } as const };
    if (meaning === undefined) {
      const pin = pinned[index];
      const field = pin?.field === "unread" || claims.doubts.has(index) || name === "" ? "unread" : "factor";
      const because =
        pin !== undefined ? "pinned in columns.csv" : field === "factor" ? "no field by that name" : "left out";
      const doubt = claims.doubts.get(index);
      const mayBe =
        doubt === undefined ? {} : { mayBe: doubt.kind === "several fields" ? doubt.fields : [doubt.field] };
      const second = claims.second.get(index);
      const secondFor = second === undefined ? {} : { secondFor: second };
      return {
        ...base,
        field,
        kind: "text",
        because,
        canonical: false,
        mixedTemperatures: false,
        ...secondFor,
        ...mayBe,
      };
    }
    sayHow(file, name, meaning, say);
    return {
      ...base,
      field: meaning.field,
      kind: harvestField(meaning.field).kind,
      because: meaning.because,
      canonical: meaning.rank === 3 || (meaning.rank === 4 && meaning.field === name),
      mixedTemperatures: false,
      ...(meaning.flush === undefined ? {} : { flush: meaning.flush }),
    };
  });
  const nameless = plans.filter(({ field, header: name }) => field === "unread" && name === "");
  const filled = nameless.length === 0 ? undefined : profiles(nameless.map(({ index }) => index));
  takeNotes(nameless, header, (index) => filled?.get(index), say);
  sayUnknown(file, plans, issues, (index) => (filled?.get(index)?.filled ?? 0) > 0, say);
  return { plans, issues };
}
