import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import { type CellKind, cellKind, numberIn } from "./cell-kind.ts";
import type { FoundHeader } from "./find-header.ts";
import type { SheetRow } from "./grid.ts";
import type { LeftRows } from "./left-rows.ts";
import { shortened } from "./left-rows.ts";
import type { SheetWords } from "./sheet-words.ts";

interface Profile {
  kinds: Partial<Record<CellKind, number>>;
  filled: number;
  least: number;
  most: number;
}

/** A row of another length than its neighbours. */
export interface RaggedRow {
  row: number;
  cells: string[];
}

const rowsProfiled = 500;
const mostKept = 1000;

/** What the rows of the usual length hold in each column, and the rows that have another length. */
export class RaggedRows {
  private readonly profiles: Profile[] = [];
  private profiled = 0;
  readonly rows: RaggedRow[] = [];
  /** rows beyond those kept */
  uncounted = 0;

  constructor(
    private readonly named: number,
    private readonly usual: number,
  ) {}

  /** @param beyond whether the row has something in it behind the columns of the header */
  add(cells: string[], row: number, beyond: boolean): void {
    if (beyond || (cells.length !== this.usual && cells.length !== this.named)) {
      if (this.rows.length < mostKept) this.rows.push({ row, cells: [...cells] });
      else this.uncounted++;
      return;
    }
    if (this.profiled >= rowsProfiled) return;
    this.profiled++;
    for (let column = 0; column < Math.min(cells.length, this.named); column++) this.profile(column, cells[column]!);
  }

  private profile(column: number, cell: string): void {
    const kind = cellKind(cell);
    if (kind === "blank") return;
    let profile = this.profiles[column];
    if (profile === undefined) {
      profile = { kinds: {}, filled: 0, least: Infinity, most: -Infinity };
      this.profiles[column] = profile;
    }
    profile.filled++;
    profile.kinds[kind] = (profile.kinds[kind] ?? 0) + 1;
    const value = numberIn(cell);
    if (value !== undefined) {
      profile.least = Math.min(profile.least, value);
      profile.most = Math.max(profile.most, value);
    }
  }

  /** The first column whose cell is unlike those of the other rows; undefined where the row stands as it should. */
  stranger(cells: ReadonlyArray<string>): number | undefined {
    for (let column = 0; column < Math.min(cells.length, this.named); column++) {
      const profile = this.profiles[column];
      const cell = cells[column]!;
      const kind = cellKind(cell);
      if (kind === "blank") continue;
      if (profile === undefined) {
        // a column that nobody else fills
        if (this.profiled >= 3 && kind !== "text") return column;
        continue;
      }
      if (profile.filled < 2) continue;
      const share = (profile.kinds[kind] ?? 0) / profile.filled;
      const words = kind === "text" || kind === "code";
      const like = words ? ((profile.kinds.text ?? 0) + (profile.kinds.code ?? 0)) / profile.filled : share;
      if (like === 0) return column;
      const value = kind === "number" ? numberIn(cell) : undefined;
      if (value !== undefined && profile.filled >= 3 && profile.most > profile.least) {
        if (value > 3 * profile.most || (profile.least > 0 && value < profile.least / 3 && value !== 0)) return column;
      }
    }
    return undefined;
  }

  /** Whether all rows are shorter than the header by the same, and a column they do not reach is one that matters. */
  private areAllShort(names: ReadonlyArray<string>, words: SheetWords): boolean {
    const length = this.rows[0]?.cells.length ?? this.named;
    if (this.profiled > 0 || length >= this.named || this.rows.some(({ cells }) => cells.length !== length))
      return false;
    return names
      .slice(length, this.named)
      .some((name) => ["set", "result", "tray"].includes(words.columnSort(name) ?? ""));
  }

  /** Whether a row of another length may have its cells in the wrong columns. */
  isShifted(cells: ReadonlyArray<string>): boolean {
    if (this.stranger(cells) !== undefined) return true;
    // apart by other separators than the rest
    if (cells.length < this.named && cells.some((cell) => (cell.match(/[;|\t,]/g)?.length ?? 0) >= 2)) return true;
    const beyond = cells.slice(this.named).filter((cell) => cell.trim() !== "");
    return beyond.some((cell) => cellKind(cell) !== "text");
  }

  /**
   * Says which rows are longer or shorter than the header, and leaves out those whose cells may have moved.
   * @param names of the columns
   * @param words compare rows with their neighbours; without them each is read as it stands
   * @param widen most rows have cells beyond the header, which is a column whose name is missing
   * @returns rows left out
   */
  settle(left: LeftRows, names: ReadonlyArray<string>, words: SheetWords | undefined, widen: boolean): number {
    const { file } = left;
    const expected = `${this.named} cells, as many as the header has`;
    const action =
      "Put cells that hold the separator into quotation marks, and see whether cells of this row stand in the wrong column";
    let shifted = 0;
    const short: number[] = [];
    for (const { row, cells } of this.rows) {
      let end = cells.length;
      while (end > this.named && cells[end - 1]!.trim() === "") end--;
      if (words !== undefined && !widen && this.isShifted(cells)) {
        this.leaveShifted(left, cells, row, names, expected);
        shifted++;
      } else if (cells.length < this.named) short.push(row);
      else if (!widen && end > this.named) {
        const reason = "the row has more cells than the header; what is beyond the last column was left out";
        const raw = shortened(cells.slice(this.named, end).join(" | "));
        left.issues.push(logEntry({ file, row, rule: "long-row", severity: "warning", raw, reason, expected, action }));
      }
    }
    if (!widen && this.uncounted > 0) {
      const reason = `${this.uncounted} further rows have more or fewer cells than the header`;
      left.issues.push(logEntry({ file, rule: "long-row", severity: "warning", reason, expected, action }));
    }
    if (words !== undefined && this.areAllShort(names, words)) {
      const reason =
        "every row has fewer cells than the header: with a separator too many in a name, values stand under the wrong names";
      const action =
        "Put a name that holds the separator into quotation marks; if only cells at the rows' ends are missing, type their separators";
      left.issues.push(
        logEntry({ file, row: short[0]!, rule: "all-rows-short", severity: "warning", reason, expected, action }),
      );
    } else if (short.length > 0) {
      const reason = `${short.length === 1 ? "one row has" : `${short.length} rows have`} fewer cells than the header; the missing ones are taken as blank`;
      left.issues.push(logEntry({ file, row: short[0]!, rule: "short-row", severity: "note", reason }));
    }
    return shifted;
  }

  private leaveShifted(
    left: LeftRows,
    cells: string[],
    row: number,
    names: ReadonlyArray<string>,
    expected: string,
  ): void {
    const stranger = this.stranger(cells);
    const than = cells.length > this.named ? "more" : "fewer";
    const reason = `the row has ${than} cells than the header, and they do not look like those of the other rows: its values may stand in the wrong columns, so the row was left out`;
    left.leave(cells, row, "shifted-row", reason);
    left.issues.push(
      logEntry({
        file: left.file,
        row,
        column: stranger === undefined ? "" : (names[stranger] ?? ""),
        raw: shortened(cells.join(" | ")),
        rule: "shifted-row",
        severity: "error",
        reason,
        expected,
        action:
          "Take out the separator too many, or put in the one that is missing, so that each value is under its name",
      }),
    );
  }
}

/** A length that all rows of a table have in common, and the header has not. */
function otherLength(names: ReadonlyArray<string>, body: ReadonlyArray<SheetRow>): number | undefined {
  const lengths = body
    .filter(({ cells }) => cells.filter((cell) => cell.trim() !== "").length > 2)
    .map(({ cells }) => {
      let end = cells.length;
      while (end > names.length && cells[end - 1]!.trim() === "") end--;
      return end;
    });
  const [length] = lengths;
  return length === undefined || length === names.length || lengths.some((one) => one !== length) ? undefined : length;
}

/** "Dose" and "ml", a name that a separator has split off its unit, where every row has that many cells fewer. */
function joinedUnits(names: ReadonlyArray<string>, length: number, words: SheetWords): string[] | undefined {
  const units = names.flatMap((name, column) => (column > 0 && words.isUnit(name) ? [column] : []));
  if (units.length !== names.length - length) return undefined;
  const mayTake = (column: number): boolean =>
    names[column] !== "" && !words.isUnit(names[column]!) && words.massUnit(names[column]!) === undefined;
  if (!units.every((column) => mayTake(column - 1))) return undefined;
  return names.flatMap((name, column) => {
    if (units.includes(column)) return [];
    return [units.includes(column + 1) ? `${name} (${names[column + 1]})` : name];
  });
}

/** Whole numbers with one or two digits in the next cell, in every row, as a decimal comma leaves them. */
function areDecimalsApart(body: ReadonlyArray<SheetRow>, length: number): boolean {
  const rows = body.filter(({ cells }) => cells.length >= length);
  for (let column = 1; column < length - 1; column++) {
    const isSplit = ({ cells }: SheetRow): boolean =>
      /^\d+$/.test(cells[column]!.trim()) && /^\d{1,2}$/.test(cells[column + 1]!.trim());
    if (rows.length > 1 && rows.every(isSplit)) return true;
  }
  return false;
}

/**
 * Looks at a delimited table whose rows all have more cells than its header, or all fewer: a separator inside a name or a
 * value has moved what stands behind it. A unit split off its name is put back; else nothing of the table can be read.
 * @param body the first rows below the header
 * @returns names to read by, or why the table is not read; undefined where nothing has moved
 */
export function splitCells(
  file: string,
  { names, lastRow }: FoundHeader,
  body: ReadonlyArray<SheetRow>,
  words: SheetWords,
): { names?: string[]; issue: Issue } | undefined {
  const length = otherLength(names, body);
  if (length === undefined) return undefined;
  const raw = names.join(" | ").slice(0, 300);
  const expected = `${length} names, as many as the rows have cells`;
  if (length < names.length) {
    const joined = joinedUnits(names, length, words);
    if (joined !== undefined) {
      const reason =
        "a separator stands between a name and its unit, and every row has a cell fewer: they are read as one name";
      const more = { severity: "note", reason, result: joined.join(" | ").slice(0, 300) } as const;
      return { names: joined, issue: logEntry({ file, row: lastRow, rule: "name-and-unit", raw, ...more }) };
    }
    const isReached = (column: number): boolean => column < length;
    const matters = (name: string): boolean => ["set", "result", "tray"].includes(words.columnSort(name) ?? "");
    // "Tray, no" is two names of trays side by side
    const isStrange = (name: string, column: number): boolean => {
      const sort = name === "" ? "note" : words.columnSort(name);
      return sort === undefined || (sort === "tray" && column > 0 && words.columnSort(names[column - 1]!) === "tray");
    };
    if (!names.some((name, column) => !isReached(column) && matters(name)) || !names.some(isStrange)) return undefined;
    const reason =
      "every row has fewer cells than the header, and a name of it is not known: a separator may have split a name, so that values stand under the wrong ones";
    const action =
      "Put a name that holds the separator into quotation marks; if only cells at the rows' ends are missing, type their separators";
    return {
      issue: logEntry({
        file,
        row: lastRow,
        rule: "all-rows-short",
        severity: "error",
        raw,
        reason,
        expected,
        action,
      }),
    };
  }
  if (!body.some(({ cells }) => /^[\d.,]+$/.test(cells[length - 1]?.trim() ?? "")) || !areDecimalsApart(body, length))
    return undefined;
  const reason =
    "every row has more cells than the header, and whole numbers with one or two digits beside them: decimal commas may have split values, so that they stand under the wrong names";
  const action =
    "Put numbers with a decimal comma into quotation marks, or separate the cells by semicolons; if a name is missing in the header, add it";
  return {
    issue: logEntry({ file, row: lastRow, rule: "all-rows-long", severity: "error", raw, reason, expected, action }),
  };
}

/** How many cells most rows have. */
export function usualLength(rows: ReadonlyArray<Pick<SheetRow, "cells">>): number {
  const counts = new Map<number, number>();
  let usual = 0;
  for (const { cells } of rows) {
    const count = (counts.get(cells.length) ?? 0) + 1;
    counts.set(cells.length, count);
    if (count > (counts.get(usual) ?? 0)) usual = cells.length;
  }
  return usual;
}
