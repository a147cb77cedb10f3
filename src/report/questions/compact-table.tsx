import type { Table } from "../../analysis.ts";
import { doseIndex } from "../charts/chart-place.ts";
import { letterWidth } from "../charts/letter-width.ts";
import { asHead, columnFormat, withUnit } from "../column-format.ts";
import { DoseShape } from "../front/dose-shape.tsx";
import { betweenText } from "../front/figure-text.ts";
import type { ReportFacts } from "../report-facts.ts";
import { unbroken } from "../shown-sentence.tsx";
import { visibleText } from "../visible-text.ts";
import { PickName } from "./pick-name.tsx";

/** columns a reader takes in at a glance */
const mostColumns = 5;
/** rows beside a chart; the fold has them all */
const mostRows = 9;

/** One column of the short table: a column of the whole one, or the range that its two next ones hold. */
interface ShortColumn {
  index: number;
  /** the columns of the range's ends */
  range?: [from: number, to: number];
}

const isText = (table: Table, index: number): boolean =>
  table.columns[index]!.unit === undefined && !table.rows.some((row) => typeof row[index] === "number");

/**
 * The columns of a table shown beside a chart: its name, then the numbers that differ from row to row, at most five; a list
 * in words stays whole.
 * "from" and "to" become one drawn range.
 */
function shortColumns(table: Table): ShortColumn[] {
  const found: ShortColumn[] = [];
  const { columns, rows } = table;
  // a list in words has nothing but its words
  const isList = columns.every((_, index) => isText(table, index));
  for (let index = 0; index < columns.length; index++) {
    const [label, next] = [columns[index]!.label, columns[index + 1]?.label];
    if (index > 0 && label === "from" && next === "to" && !isText(table, index)) {
      found.push({ index, range: [index, index + 1] });
      index += 1;
    } else if (
      isList ||
      index === 0 ||
      !(isText(table, index) && rows.some((row) => String(row[index] ?? "").length > 24))
    )
      found.push({ index });
  }
  const says = ({ index, range }: ShortColumn): boolean =>
    range === undefined
      ? index === 0 || rows.length < 2 || rows.some((row) => row[index] !== rows[0]![index])
      : rows.some((row) => typeof row[range[0]] === "number");
  const dull = ({ index, range }: ShortColumn): boolean =>
    range === undefined && /^(p$|standard deviation$|level$|from\b|to\b)/.test(columns[index]!.label);
  return found.filter((column) => says(column) && !dull(column)).slice(0, mostColumns);
}

const drawnWidth = 84;

/** A range drawn on the ruler that all rows of its column share, read out as "between A and B". */
function DrawnRange({
  from,
  to,
  least,
  most,
  text,
}: {
  from: number;
  to: number;
  least: number;
  most: number;
  text: string;
}) {
  const x = (value: number) => Math.round((3 + ((value - least) / (most - least || 1)) * (drawnWidth - 6)) * 10) / 10;
  return (
    <svg class="tiny" width={drawnWidth} height="14" viewBox={`0 0 ${drawnWidth} 14`} role="img" aria-label={text}>
      <line class="ruler" x1="0" x2={drawnWidth} y1="7" y2="7" />
      {least < 0 && most > 0 ? <line class="ref" x1={x(0)} x2={x(0)} y1="0" y2="14" /> : null}
      <rect class="range" x={x(from)} y="4" width={Math.max(1, x(to) - x(from))} height="6" />
    </svg>
  );
}

/** The name of a row: a button to pick it where the row is a dose, a cook or a product; a dose has its own mark. */
function RowName({ text, dose, facts }: { text: string; dose: number | undefined; facts: ReportFacts }) {
  if (dose === undefined) return <PickName name={text} facts={facts} />;
  const picture = (
    <svg class="tiny" width="14" height="14" viewBox="0 0 14 14" aria-hidden="true">
      <DoseShape dose={dose} doses={facts.doses} x={7} y={7} size={4.4} />
    </svg>
  );
  if (!facts.isLive)
    return (
      <span class="dose">
        {picture}
        {text}
      </span>
    );
  return (
    <button type="button" class="dose" aria-pressed="false" data-pick={`dose-${doseIndex(dose, facts.doses) + 1}`}>
      {picture}
      {text}
    </button>
  );
}

/** pixels of a table in a narrow place that a column may fill; of one beside a wide chart */
const narrowTable = 286;
const wideTable = 396;
/** pixels of letters and of the room beside them */
const letters = 14;
const besideCell = 7;

/** A short column as it is shown: what its numbers are and how they are written. */
interface ShownColumn extends ShortColumn {
  head: string;
  /** left out where the table is narrow, because its words would break */
  needsRoom?: boolean;
  unit: string | undefined;
  values: number[];
  format: ReturnType<typeof columnFormat>;
}

function shownColumns(table: Table, settings: ReportFacts["settings"]): ShownColumn[] {
  const numbers = (index: number) =>
    table.rows.map((row) => row[index]).filter((cell): cell is number => typeof cell === "number");
  const every = shortColumns(table).map((column): ShownColumn => {
    const { label, unit } = table.columns[column.index]!;
    const [from, to] = column.range ?? [column.index, column.index];
    const values = [...numbers(from), ...numbers(to)];
    const format = columnFormat(table.columns[column.index]!, values, settings);
    const head = column.range ? "between" : visibleText(withUnit(asHead(label === "" ? "–" : label), format.unit), 60);
    return { ...column, head, unit, values, format };
  });
  let filled = 0;
  return every.flatMap((column) => {
    filled += leastWidth(table, column);
    // a row's name and its first number stand in any case
    if (column === every[0] || column === every[1] || filled <= narrowTable) return [column];
    return filled <= wideTable ? [{ ...column, needsRoom: true }] : [];
  });
}

/** About the pixels that a column needs so that no word of it breaks. */
function leastWidth(table: Table, { index, range, head, format }: ShownColumn): number {
  const cells = table.rows.slice(0, Math.min(mostRows, table.open ?? mostRows)).map((row) => row[index] ?? "");
  const words = cells.flatMap((cell) => (typeof cell === "number" ? format.write(cell) : cell.split(/[\s-]/)));
  const widest = [...head.split(" "), ...words].map((word) => letterWidth(word, letters));
  // a name with a mark stays in one line
  const mark = index === 0 && table.columns[0]?.unit === "mL" ? 50 : 0;
  return besideCell + Math.max(range === undefined ? 0 : drawnWidth, mark, ...widest);
}

const classOf = (...names: ReadonlyArray<string | false | undefined>): string | undefined =>
  names.filter(Boolean).join(" ") || undefined;

const HeadCell = ({ column: { head, unit, range, needsRoom } }: { column: ShownColumn }) => (
  <th
    scope="col"
    class={classOf(range !== undefined ? "hide-phone" : unit !== undefined && "n", needsRoom && "needs-room")}
  >
    {head}
  </th>
);

/** A cell beside the row's name: its number or text, or a range drawn. */
function RowCell({
  row,
  column: { index, range, unit, values, format, needsRoom },
  settings,
}: {
  row: Table["rows"][number];
  column: ShownColumn;
  settings: ReportFacts["settings"];
}) {
  const cell = row[index] ?? null;
  if (range === undefined)
    return (
      <td class={classOf((unit !== undefined || typeof cell === "number") && "n", needsRoom && "needs-room")}>
        {typeof cell === "number" ? format.write(cell) : unbroken(visibleText(cell ?? "", 80))}
      </td>
    );
  const [from, to] = [row[range[0]], row[range[1]]];
  return (
    <td class={classOf("hide-phone", needsRoom && "needs-room")}>
      {typeof from === "number" && typeof to === "number" ? (
        <DrawnRange
          {...{ from, to, least: Math.min(...values), most: Math.max(...values) }}
          text={betweenText({ from, to, unit: unit ?? "factor" }, settings)}
        />
      ) : null}
    </td>
  );
}

/** The table beside a chart: at most five columns, ranges drawn; the whole table is in the fold. */
export function CompactTable({ id, table, facts }: { id: string; table: Table; facts: ReportFacts }) {
  const { settings, doses } = facts;
  const [names, ...others] = shownColumns(table, settings);
  // a row that has nothing in these columns stands in the whole table alone
  const rows = table.rows.filter(
    (row) => others.length === 0 || others.some(({ index }) => (row[index] ?? null) !== null),
  );
  const isDose = table.columns[0]?.unit === "mL";
  const doseOf = (cell: string | number | null | undefined): number | undefined => {
    const amount = typeof cell === "number" ? cell : Number(/^([\d.]+)(?: mL)?$/.exec(cell ?? "")?.[1] ?? Number.NaN);
    return (isDose || /mL$/.test(String(cell))) && doseIndex(amount, doses) >= 0 ? amount : undefined;
  };
  const nameOf = (cell: string | number | null): string =>
    typeof cell !== "number"
      ? visibleText(cell ?? "", 80) || "–"
      : `${names!.format.write(cell)}${isDose ? " mL" : ""}`;
  return (
    <table class="compact">
      <caption id={id}>{visibleText(table.caption)}</caption>
      <thead>
        <tr>
          {[names!, ...others].map((column) => (
            <HeadCell key={column.index} column={column} />
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.slice(0, mostRows).map((row, at) => {
          const dose = doseOf(row[0]);
          const pick = dose === undefined ? facts.pickOf(String(row[0] ?? "")) : `dose-${doseIndex(dose, doses) + 1}`;
          return (
            <tr key={at} class={pick === undefined ? undefined : `pick ${pick}`}>
              <th scope="row">
                <RowName text={nameOf(row[names!.index] ?? null)} dose={dose} facts={facts} />
              </th>
              {others.map((column) => (
                <RowCell key={column.index} row={row} column={column} settings={settings} />
              ))}
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
