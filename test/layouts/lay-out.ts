import { strToU8, zipSync } from "fflate";
import type { TypedColumn, TypedSheet, Typist } from "./typed-sheet.ts";

/** A sheet laid out: its cells, and which of them are merged downwards. */
interface Grid {
  rows: string[][];
  merges: { column: number; from: number; to: number }[];
}

const part = (columns: ReadonlyArray<TypedColumn>, rows: ReadonlyArray<number>): TypedColumn[] =>
  columns.map((column) => ({ ...column, cells: rows.map((row) => column.cells[row]!) }));

const rowsOf = (columns: ReadonlyArray<TypedColumn>): string[][] =>
  columns[0]!.cells.map((_, row) => columns.map(({ cells }) => cells[row]!));

const indexes = (count: number): number[] => Array.from({ length: count }, (_, index) => index);

const isStacked = (arrangement: string): boolean => arrangement.startsWith("stacked");

/** Lays a typed sheet out as growers do: one of many arrangements, and whatever stands around it. */
export class LayOut {
  constructor(
    private readonly sheet: TypedSheet,
    private readonly by: Typist,
  ) {}

  private numberIn(cell: string): number {
    return Number(/[\d.,]+/.exec(cell)?.[0].replace(",", ".") ?? Number.NaN);
  }

  /** Unit in the header, in a line or column of its own, or nowhere where the weights are in grams. */
  private placeUnits(columns: TypedColumn[]): { columns: TypedColumn[]; unitsLine?: string[] } {
    const place = this.by.choose(["units in header", "units in header", "units line", "unit columns"] as const);
    if (place === "units in header") {
      const form = this.by.pick([" (#)", " [#]", " #"]);
      return {
        columns: columns.map((column) =>
          column.unit === "" ? column : { ...column, header: column.header + form.replace("#", column.unit) },
        ),
      };
    }
    if (place === "units line") return { columns, unitsLine: columns.map(({ unit }) => (unit === "" ? "" : unit)) };
    return {
      columns: columns.flatMap((column) =>
        column.unit === ""
          ? [column]
          : [
              column,
              {
                ...column,
                header: this.by.pick(["Unit", ""]),
                unit: "",
                adds: false,
                cells: column.cells.map((cell) => (cell === "" ? "" : column.unit)),
              },
            ],
      ),
    };
  }

  /** A line of sums or means of the columns that add up. */
  private summary(columns: ReadonlyArray<TypedColumn>): string[] {
    const isSum = this.by.random.integer(2) === 0;
    const label = this.by.pick(isSum ? this.sheet.language.sum : this.sheet.language.mean);
    const dash = this.by.pick(["", "", "-", "..."]);
    const line = columns.map(({ adds, cells }) => {
      if (!adds) return dash;
      const values = cells.map((cell) => this.numberIn(cell)).filter((value) => !Number.isNaN(value));
      if (values.length === 0) return dash;
      const sum = values.reduce((total, value) => total + value, 0);
      return this.sheet.decimals(Number((isSum ? sum : sum / values.length).toFixed(2)));
    });
    const places = columns.flatMap(({ adds }, index) => (adds ? [] : [index]));
    line[this.by.random.integer(3) === 0 ? this.by.pick(places) : 0] = label;
    return line;
  }

  /** One table as rows, its header above. */
  private table(columns: ReadonlyArray<TypedColumn>, unitsLine?: string[], hasSums = false): string[][] {
    return [
      columns.map(({ header }) => header),
      ...(unitsLine === undefined ? [] : [unitsLine]),
      ...rowsOf(columns),
      ...(hasSums ? [this.summary(columns)] : []),
    ];
  }

  private batchGroups(): { batch: string; rows: number[] }[] {
    const { trays } = this.sheet;
    return [...new Set(trays.map(({ batch }) => batch))].map((batch) => ({
      batch,
      rows: indexes(trays.length).filter((row) => trays[row]!.batch === batch),
    }));
  }

  private long(columns: ReadonlyArray<TypedColumn>): string[][] {
    const { language, trays } = this.sheet;
    const tray = columns.find(({ key }) => key === "tray")!;
    const lines = trays.flatMap((_, row) =>
      columns.flatMap((column) =>
        column === tray || column.cells[row] === "" ? [] : [[tray.cells[row]!, column.header, column.cells[row]!]],
      ),
    );
    return [[this.by.pick(language.tray), this.by.pick(["What", "Measurement"]), "Value"], ...lines];
  }

  private fillDown(columns: TypedColumn[]): { columns: TypedColumn[]; blanked: number[] } {
    const blanked: number[] = [];
    const left = columns.map((column, index) => {
      if (column.key !== "batch" && column.key !== "inoculated" && column.key !== "dose" && column.key !== "strain")
        return column;
      blanked.push(index);
      const { trays } = this.sheet;
      const isNew = (row: number): boolean =>
        row === 0 ||
        trays[row]!.batch !== trays[row - 1]!.batch ||
        (column.key === "dose" && trays[row]!.dose !== trays[row - 1]!.dose);
      return { ...column, cells: column.cells.map((cell, row) => (isNew(row) ? cell : "")) };
    });
    return { columns: left, blanked };
  }

  private arrange(): Grid {
    const { by } = this;
    const arrangement = by.choose([
      "plain",
      "plain",
      "transposed",
      "stacked",
      "stacked with titles",
      "side by side",
      "side by side, no gap",
      "long",
      "sections",
      "fill-down",
      "merged",
      "two tables of one tray",
    ] as const);
    const isSplit = isStacked(arrangement) || arrangement.startsWith("side") || arrangement === "sections";
    let columns = this.sheet.columns;
    const tellsBatch = arrangement === "sections" || arrangement === "stacked with titles";
    if (tellsBatch) columns = columns.filter(({ key }) => key !== "batch");
    if (arrangement === "long") {
      // a unit beside a value belongs to the value
      columns = columns.map((column) => ({
        ...column,
        header: column.unit === "" ? column.header : `${column.header} (${column.unit})`,
        unit: "",
      }));
      return { rows: this.long(columns), merges: [] };
    }
    if (by.chance(4, "columns shuffled")) {
      const [first, ...others] = columns;
      const shuffled = others
        .map((column) => ({ column, key: column.key === "fresh" ? 500 : by.random.integer(1000) }))
        .sort((a, b) => a.key - b.key);
      columns = [first!, ...shuffled.map(({ column }) => column)];
    }
    const placed = this.placeUnits(columns);
    columns = placed.columns;
    const hasSums = by.chance(3, "sums");
    if (arrangement === "transposed") {
      const turned = this.table(columns, placed.unitsLine, hasSums && by.random.integer(2) === 0);
      return { rows: turned[0]!.map((_, column) => turned.map((row) => row[column]!)), merges: [] };
    }
    if (arrangement === "two tables of one tray") {
      const results = columns.filter(({ key }) => key === "tray" || key === "fresh" || key === "dry");
      const others = columns.filter(({ key }) => key !== "fresh" && key !== "dry");
      if (placed.unitsLine !== undefined || others.some(({ header }) => header === "" || header === "Unit"))
        return { rows: this.table(columns, placed.unitsLine, hasSums), merges: [] };
      return { rows: [...this.table(others), [], ...this.table(results)], merges: [] };
    }
    if (isSplit) return { rows: this.split(arrangement, columns, placed.unitsLine, hasSums), merges: [] };
    if (arrangement === "fill-down" || arrangement === "merged") {
      const filled = this.fillDown(columns);
      const rows = this.table(filled.columns, placed.unitsLine, hasSums);
      const head = placed.unitsLine === undefined ? 1 : 2;
      const merges = arrangement === "merged" ? this.mergesOf(rows, filled.blanked, head) : [];
      return { rows, merges };
    }
    return { rows: this.table(columns, placed.unitsLine, hasSums), merges: [] };
  }

  private mergesOf(rows: ReadonlyArray<string[]>, columns: ReadonlyArray<number>, head: number): Grid["merges"] {
    const last = head + this.sheet.trays.length;
    return columns.flatMap((column) => {
      const starts = indexes(last).filter((row) => row >= head && rows[row]![column] !== "");
      return starts.flatMap((from, index) => {
        const to = (starts[index + 1] ?? last) - 1;
        return to > from ? [{ column, from, to }] : [];
      });
    });
  }

  private split(arrangement: string, columns: TypedColumn[], unitsLine: string[] | undefined, hasSums: boolean) {
    const groups = this.batchGroups();
    const word = this.by.pick(this.sheet.language.batch);
    const tables = groups.map(({ batch, rows }) => ({
      title: `${word} ${batch}`,
      rows: this.table(part(columns, rows), unitsLine, hasSums),
    }));
    if (arrangement === "sections") {
      const head = unitsLine === undefined ? 1 : 2;
      return [
        ...tables[0]!.rows.slice(0, head),
        ...tables.flatMap(({ title, rows }) => [[title], ...rows.slice(head)]),
      ];
    }
    if (isStacked(arrangement)) {
      const gap = arrangement === "stacked with titles" || this.by.random.integer(2) === 0 ? [[]] : [];
      return tables.flatMap(({ title, rows }, index) => [
        ...(index === 0 ? [] : gap),
        ...(arrangement === "stacked with titles" ? [[title]] : []),
        ...rows,
      ]);
    }
    const gap = arrangement === "side by side" ? [""] : [];
    const height = Math.max(...tables.map(({ rows }) => rows.length));
    return indexes(height).map((row) =>
      tables.flatMap(({ rows }, index) => {
        const cells = rows[row] ?? rows[0]!.map(() => "");
        return index === tables.length - 1 ? cells : [...cells, ...gap];
      }),
    );
  }

  /** Titles, a line of group heads, footnotes, blank rows. */
  private dress({ rows, merges }: Grid): Grid {
    const { by } = this;
    const above: string[][] = [];
    if (by.chance(5, "title lines")) above.push(["Spring trial"], by.pick([[], ["Shed 2"]]));
    if (by.chance(8, "group heads") && !by.typed.some((name) => /transposed|long|side by side|stacked/.test(name))) {
      const width = rows[0]!.length;
      const heads = Array.from({ length: width }, () => "");
      heads[0] = "Setup";
      heads[Math.floor(width / 2)] = "Results";
      above.push(heads);
    }
    const below: string[][] = [];
    if (by.chance(5, "footnote"))
      below.push([], [by.pick(["* weighed wet", "Source: shelf book", "1) scale was new"])]);
    return {
      rows: [...above, ...rows, ...below],
      merges: merges.map(({ column, from, to }) => ({ column, from: from + above.length, to: to + above.length })),
    };
  }

  /** The file: its name and bytes. */
  file(): { path: string; bytes: Uint8Array; text: string } {
    const grid = this.dress(this.arrange());
    const delimiter = this.sheet.language.commaDecimals ? this.by.pick([";", "\t"]) : this.by.pick([",", ";", "\t"]);
    const quoted = (cell: string): string =>
      cell.includes(delimiter) || cell.includes('"') ? `"${cell.replaceAll('"', '""')}"` : cell;
    const width = Math.max(...grid.rows.map(({ length }) => length));
    const padded = grid.rows.map((row) => [...row, ...Array.from({ length: width - row.length }, () => "")]);
    const text = `${padded.map((row) => row.map(quoted).join(delimiter)).join("\n")}\n`;
    if (grid.merges.length === 0) return { path: "harvests/typed.csv", bytes: strToU8(text), text };
    return { path: "harvests/typed.xlsx", bytes: workbook(padded, grid.merges), text };
  }
}

const letter = (column: number): string => String.fromCharCode(65 + column);
const escaped = (text: string): string => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;");

/** A workbook of one sheet. */
function workbook(rows: ReadonlyArray<string[]>, merges: Grid["merges"]): Uint8Array {
  const main = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
  const relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  const package_ = "http://schemas.openxmlformats.org/package/2006/relationships";
  const cell = (text: string, address: string): string =>
    text === ""
      ? ""
      : /^-?\d+(?:\.\d+)?$/.test(text)
        ? `<c r="${address}"><v>${text}</v></c>`
        : `<c r="${address}" t="inlineStr"><is><t>${escaped(text)}</t></is></c>`;
  const body = rows
    .map((row, index) => {
      const cells = row.map((text, column) => cell(text, `${letter(column)}${index + 1}`)).join("");
      return `<row r="${index + 1}">${cells}</row>`;
    })
    .join("");
  const merged = merges
    .map(({ column, from, to }) => `<mergeCell ref="${letter(column)}${from + 1}:${letter(column)}${to + 1}"/>`)
    .join("");
  return zipSync({
    "_rels/.rels": strToU8(
      `<Relationships xmlns="${package_}"><Relationship Id="r0" Type="${relations}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    ),
    "xl/workbook.xml": strToU8(
      `<workbook ${main} xmlns:r="${relations}"><sheets><sheet name="Trial" sheetId="1" r:id="r1"/></sheets></workbook>`,
    ),
    "xl/_rels/workbook.xml.rels": strToU8(
      `<Relationships xmlns="${package_}"><Relationship Id="r1" Type="${relations}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
    ),
    "xl/worksheets/sheet1.xml": strToU8(
      `<worksheet ${main}><sheetData>${body}</sheetData><mergeCells>${merged}</mergeCells></worksheet>`,
    ),
  });
}
