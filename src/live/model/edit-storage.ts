import { contentName } from "../../records/content-name.ts";
import {
  type CellEdit,
  canGrow,
  type Edits,
  isAnyEdit,
  type LiveSheet,
  mostAddedRows,
  noEdits,
  type RowPlace,
  type SheetName,
  sheetNames,
} from "./live-sheet.ts";

const isText = (value: unknown): value is string => typeof value === "string";

/** The sheets changes are made to, by name. */
type Sheets = Partial<Record<SheetName, Pick<LiveSheet, "rows" | "columns">>>;

/** A list as it was saved; anything else counts as one broken change. */
const listOf = (value: unknown): ReadonlyArray<Record<string, unknown> | null> =>
  Array.isArray(value) ? value : value === undefined ? [] : [null];

/** How many changes there are; rows added to one sheet count as one. */
const countOf = ({ cells, aside, deleted, added }: Partial<Record<keyof Edits, unknown>>): number =>
  [cells, aside, deleted].flat().length + Object.keys(Object(added)).length;

/** Edits from a text, those that name no place of the book dropped. @returns how many were, too */
function parseEdits(text: string, sheets: Sheets): { edits: Edits; dropped: number } {
  let value: Partial<Record<keyof Edits, unknown>> | null;
  try {
    value = JSON.parse(text) as typeof value;
  } catch (error) {
    if (error instanceof SyntaxError) return { edits: noEdits, dropped: 1 };
    throw error;
  }
  if (typeof value !== "object" || value === null) return { edits: noEdits, dropped: 1 };
  const added = addedRows(value.added);
  const isWithin = (place: unknown, count: number): boolean =>
    Number.isInteger(place) && Number(place) >= 0 && Number(place) < count;
  const isRow = (name: unknown, row: unknown): name is SheetName => {
    const sheet = sheetNames.find((one) => one === name);
    const own = sheet === undefined ? undefined : sheets[sheet]?.rows.length;
    return own !== undefined && isWithin(row, own + (added[sheet!] ?? 0));
  };
  const given = [listOf(value.cells), listOf(value.aside), listOf(value.deleted)] as const;
  const cells = given[0].filter(
    (cell) =>
      isRow(cell?.sheet, cell?.row) &&
      isWithin(cell!.column, sheets[cell!.sheet]!.columns.length) &&
      isText(cell!.text),
  ) as unknown as CellEdit[];
  const aside = given[1].filter((one) => isText(one?.tray) && isText(one?.reason)) as unknown as Edits["aside"];
  const deleted = given[2].filter(
    (place) => isRow(place?.sheet, place?.row) && canGrow(place!.sheet as SheetName),
  ) as unknown as RowPlace[];
  const edits = { cells, aside, added, deleted };
  return {
    edits,
    dropped: countOf({ ...value, cells: given[0], aside: given[1], deleted: given[2] }) - countOf(edits),
  };
}

/** How many rows were added to each sheet; what is no such count is dropped. */
function addedRows(value: unknown): Edits["added"] {
  const given: Partial<Record<string, unknown>> = Object(value);
  const counts = sheetNames.filter(canGrow).map((sheet) => [sheet, given[sheet]] as const);
  return Object.fromEntries(
    counts.filter(([, count]) => Number.isInteger(count) && Number(count) > 0 && Number(count) <= mostAddedRows),
  ) as Edits["added"];
}

/** Where changes of one book outlast a reload. Storage that is refused is reported once, and nothing else breaks. */
export class EditStorage {
  private readonly key: string;
  /** why changes are not kept; "" while they are */
  trouble = "";

  /** @param sheets of the book: a change that names no place in them is dropped */
  constructor(
    data: string,
    private readonly storage: () => Storage,
    private readonly sheets: Sheets,
  ) {
    this.key = `gramwright-live-${contentName(data)}`;
  }

  private guarded<T>(work: (storage: Storage) => T, otherwise: T): T {
    try {
      return work(this.storage());
    } catch (error) {
      // a browser that refuses says so in words meant for whoever wrote the page
      const isRefused = error instanceof DOMException && error.name === "SecurityError";
      const why = isRefused ? "it may not here" : error instanceof Error ? error.message : String(error);
      this.trouble = `This browser keeps nothing for this file (${why}): changes are gone after a reload, so save the sheets.`;
      return otherwise;
    }
  }

  /** @returns the changes, and how many were broken and are dropped */
  read(): { edits: Edits; dropped: number } {
    const text = this.guarded((storage) => storage.getItem(this.key), null);
    return text === null ? { edits: noEdits, dropped: 0 } : parseEdits(text, this.sheets);
  }

  write(edits: Edits): void {
    this.guarded((storage) => {
      if (!isAnyEdit(edits)) storage.removeItem(this.key);
      else storage.setItem(this.key, JSON.stringify(edits));
    }, undefined);
  }
}
