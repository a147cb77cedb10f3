import type { ComponentChildren } from "preact";
import { useContext } from "preact/hooks";
import { grouped } from "../../records/grouped.ts";
import { type SavedRows, SavedTexts, sameText } from "../saved-texts.tsx";
import { visibleText } from "../visible-text.ts";

/** One column of a table on the page. */
export interface SheetColumn {
  label: string;
  /** stands under the label, not in the cells */
  unit?: string;
  numeric?: boolean;
  /** long text that may break into lines */
  wide?: boolean;
}

interface SheetTableProps {
  /** unique on the page */
  id: string;
  caption: string;
  columns: ReadonlyArray<SheetColumn>;
  /** cells as they are shown; null and "" are empty cells */
  rows: ReadonlyArray<ReadonlyArray<string | null>>;
  /** rows, counted from the end, that are totals */
  totalRows?: number;
  /** shown under the table */
  note?: ComponentChildren;
}

/** tables larger than this scroll inside their own box and can be reached by keyboard */
const fits = { rows: 14, columns: 2 };

/** letters beyond which a cell breaks into lines */
const longCell = 24;
/** letters beyond which a cell is given more room */
const paragraph = 60;

const isDate = /^\d{4}-\d{2}-\d{2}$/;

/** The class of a cell: what may break into lines and what must not. */
function lookOf(text: string, numeric: boolean | undefined, wide: boolean | undefined): string | undefined {
  if (numeric) return "number";
  if (isDate.test(text)) return "fixed";
  if (/\S{30}/.test(text)) return "long split";
  if (text.length > paragraph) return "long paragraph";
  return wide || text.length > longCell ? "long" : undefined;
}

/** A text without blanks that may break behind a comma or slash, as a line for columns.csv should, before it does in a word. */
const atSigns = (text: string) =>
  text.split(/(?<=[,/])/).flatMap((part, at) => (at === 0 ? part : [<wbr key={at} />, part]));

/** A row's cells; the first one names the row. */
function Row({
  cells,
  columns,
  saved,
}: {
  cells: ReadonlyArray<string | null>;
  columns: ReadonlyArray<SheetColumn>;
  /** the row as it was in the saved book; absent where the two are not compared */
  saved?: ReadonlyArray<string>;
}) {
  return (
    <tr>
      {columns.map(({ numeric, wide }, index) => {
        const own = visibleText(cells[index] ?? "");
        // a row's name must not be empty, or it could not be read out
        const text = own === "" && index === 0 ? "–" : own;
        const look = lookOf(text, numeric, wide);
        return index === 0 ? (
          <th scope="row" class={look} key={index}>
            {text}
          </th>
        ) : (
          <td class={look} key={index}>
            {look === "long split" ? atSigns(text) : text}
            {saved === undefined || sameText(saved[index] ?? "", text) ? null : <Was text={saved[index] ?? ""} />}
          </td>
        );
      })}
    </tr>
  );
}

/** What a figure was in the saved book, under what it is now. */
function Was({ text }: { text: string }) {
  return <span class="was">was {text === "" ? "empty" : text}</span>;
}

/** Saved rows by their names, as often as a name stands there. */
function rowsByName(saved: SavedRows | undefined): (name: string) => ReadonlyArray<string> | undefined {
  const rows = grouped(saved?.rows ?? [], ([name]) => name);
  return (name) => rows.get(name)?.shift();
}

/** A table that reads like a sheet: head and first column stay in sight while the rest scrolls in its own box. */
export function SheetTable({ id, caption, columns, rows, totalRows = 0, note }: SheetTableProps) {
  const body = rows.slice(0, rows.length - totalRows);
  const totals = rows.slice(rows.length - totalRows);
  const scrolls = rows.length > fits.rows || columns.length > fits.columns;
  const before = useContext(SavedTexts)?.tables.get(id);
  // other columns than before: nothing to hold cells against
  const comparable = before !== undefined && before.columns === columns.length;
  const savedOf = rowsByName(comparable ? before : undefined);
  const savedRow = (cells: ReadonlyArray<string | null>): { saved?: ReadonlyArray<string> } => {
    if (!comparable) return {};
    const own = visibleText(cells[0] ?? "");
    return { saved: savedOf(own === "" ? "–" : own) ?? [] };
  };
  const box = scrolls ? ({ tabIndex: 0, role: "group", "aria-labelledby": id } as const) : {};
  return (
    <div class={`sheet${columns.length > 9 ? " broad" : ""}${columns.length > 16 ? " crowded" : ""}`}>
      <div class="sheet-box" {...box}>
        <table>
          <caption id={id}>
            <span>{visibleText(caption)}</span>
          </caption>
          <thead>
            <tr>
              {columns.map(({ label, unit, numeric, wide }, index) => (
                <th scope="col" class={numeric ? "number" : wide ? "long" : undefined} key={index}>
                  {visibleText(label, 80)}
                  {unit ? <span class="unit"> {visibleText(unit, 40)}</span> : null}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {body.map((cells, index) => (
              <Row key={index} cells={cells} columns={columns} {...savedRow(cells)} />
            ))}
          </tbody>
          {totals.length > 0 ? (
            <tfoot>
              {totals.map((cells, index) => (
                <Row key={index} cells={cells} columns={columns} {...savedRow(cells)} />
              ))}
            </tfoot>
          ) : null}
        </table>
      </div>
      {rows.length === 0 ? <p class="note">No rows.</p> : null}
      {note ? <p class="note">{note}</p> : null}
    </div>
  );
}
