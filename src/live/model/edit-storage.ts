import { contentName } from "../../records/content-name.ts";
import { canGrow, type Edits, isAnyEdit, mostAddedRows, noEdits, type RowPlace, sheetNames } from "./live-sheet.ts";

const isText = (value: unknown): value is string => typeof value === "string";

/** Edits from a text; undefined where it is none. */
function parseEdits(text: string): Edits | undefined {
  let value: Partial<Edits> | null;
  try {
    value = JSON.parse(text) as Partial<Edits> | null;
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
  if (!Array.isArray(value?.cells) || !Array.isArray(value.aside)) return undefined;
  const cells = value.cells.filter(
    (cell) =>
      sheetNames.includes(cell?.sheet) &&
      Number.isInteger(cell.row) &&
      Number.isInteger(cell.column) &&
      isText(cell.text),
  );
  const aside = value.aside.filter((one) => isText(one?.tray) && isText(one?.reason));
  // changes kept by an earlier version know no rows
  const deleted = (Array.isArray(value.deleted) ? (value.deleted as ReadonlyArray<RowPlace | null>) : []).filter(
    (place): place is RowPlace =>
      place !== null && sheetNames.includes(place.sheet) && canGrow(place.sheet) && Number.isInteger(place.row),
  );
  return { cells, aside, added: addedRows(value.added), deleted };
}

/** How many rows were added to each sheet; what is no such count is dropped. */
function addedRows(value: Partial<Record<string, unknown>> | undefined): Edits["added"] {
  const counts = sheetNames.filter(canGrow).map((sheet) => [sheet, value?.[sheet]] as const);
  return Object.fromEntries(
    counts.filter(([, count]) => Number.isInteger(count) && Number(count) > 0 && Number(count) <= mostAddedRows),
  ) as Edits["added"];
}

/** Where changes of one book outlast a reload. Storage that is refused is told once, and nothing else breaks. */
export class EditStorage {
  private readonly key: string;
  /** why changes are not kept; "" while they are */
  trouble = "";

  constructor(
    data: string,
    private readonly storage: () => Storage,
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

  read(): Edits {
    const text = this.guarded((storage) => storage.getItem(this.key), null);
    return (text === null ? undefined : parseEdits(text)) ?? noEdits;
  }

  write(edits: Edits): void {
    this.guarded((storage) => {
      if (!isAnyEdit(edits)) storage.removeItem(this.key);
      else storage.setItem(this.key, JSON.stringify(edits));
    }, undefined);
  }
}
