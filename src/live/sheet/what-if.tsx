import { render } from "preact";
import { bookCosts, bookPrices, meanNetPrice } from "../../../analyses/costs/book-prices.ts";
import { productName } from "../../../analyses/costs/product-name.ts";
import { yieldWeightOf } from "../../records/yield-weight.ts";
import { visibleText } from "../../report/visible-text.ts";
import { currencyName, writeNumber } from "../../report/write-number.ts";
import type { SheetName } from "../model/live-sheet.ts";
import {
  cellText,
  change,
  changedTexts,
  current,
  deletedRows,
  edits,
  rowCount,
  said,
  trial,
  workbook,
} from "../model/workbook.ts";

/** One cell of a sheet that moves an answer. */
interface Input {
  label: string;
  sheet: SheetName;
  row: number;
  column: number;
}

/** inputs beside one answer */
const mostInputs = 5;

const columnOf = (sheet: SheetName, key: string): number =>
  workbook().saved.sheets[sheet]?.columns.findIndex((column) => column.key === key) ?? -1;

/** Products whose prices a gram is valued at where a dose is chosen, as they are named in sentences. */
function valuedProducts(): ReadonlyArray<string> {
  const [prices, weight] = [bookPrices(trial.value), yieldWeightOf(trial.value)];
  if (prices.kind === "cannot-tell" || weight === undefined) return [];
  const net = meanNetPrice(prices, trial.value, weight === "dry" ? "dried" : "fresh");
  return net.kind === "net-price" ? net.products : [];
}

/** Prices now of the products that move a choice of dose, as far as there is room. */
function productInputs(): Input[] {
  const [name, channel, price] = [
    columnOf("products", "product"),
    columnOf("products", "channel"),
    columnOf("products", "current_price"),
  ];
  const valued = valuedProducts();
  return Array.from({ length: rowCount("products") }, (_, row) => row)
    .filter((row) => !deletedRows.value.products.has(row))
    .map((row) => ({
      label: productName({ product: cellText("products", row, name), channel: cellText("products", row, channel) }),
      sheet: "products" as const,
      row,
      column: price,
    }))
    .filter(({ label }) => valued.includes(label))
    .slice(0, 2);
}

/** What a pack price is for: "a month", "25 kg". */
function packText(size: string, unit: string): string {
  const isOne = size === "" || size === "1";
  if (unit === "" || unit === "each") return isOne ? "each" : `${size} pieces`;
  if (isOne) return unit === "hour" ? "an hour" : `a ${unit}`;
  return `${size} ${unit}${/^[a-z]{3,}$/.test(unit) ? "s" : ""}`;
}

/** A typed price in the book's number format, with the coin's digits: "24.90" for 24.9; a text, or one of thousands, as typed. */
function priceText(typed: string): string {
  const { settings } = current.value.book;
  const decimals = /^\d{1,3}(?:\.(\d+))?$/.exec(typed)?.[1];
  if (decimals === undefined) return typed;
  const most = Math.max(settings.currencyDecimals, decimals.length);
  return writeNumber(Number(typed), { decimals: most, style: "plain", signed: false, settings });
}

/** Pack prices of cost lines whose kind or basis matters to an answer. */
function costInputs(wanted: (kind: string, per: string, item: string) => boolean): Input[] {
  const cell = (row: number, key: string) => cellText("costs", row, columnOf("costs", key));
  const price = columnOf("costs", "pack_price");
  return Array.from({ length: rowCount("costs") }, (_, row) => row)
    .filter(
      (row) => !deletedRows.value.costs.has(row) && wanted(cell(row, "kind"), cell(row, "per"), cell(row, "item")),
    )
    .filter((row) => cellText("costs", row, price) !== "")
    .map((row) => {
      const pack = packText(cell(row, "pack_size"), cell(row, "pack_unit"));
      return { label: `${cell(row, "item")}, ${pack}`, sheet: "costs" as const, row, column: price };
    });
}

/** Pack prices of the lines that most was spent on, the dearest first. */
function dearestInputs(): Input[] {
  const costs = bookCosts(trial.value);
  if (costs.kind === "cannot-tell") return [];
  const spent = new Map<string, number>();
  for (const [index, { item }] of costs.items.entries())
    spent.set(
      item,
      costs.amounts[index]!.reduce((sum, amount) => sum + amount, spent.get(item) ?? 0),
    );
  return [...spent]
    .sort(([, a], [, b]) => b - a)
    .flatMap(([name]) => costInputs((_kind, _per, item) => item === name).slice(0, 1));
}

const isCulture = (kind: string, per: string): boolean => kind === "culture" || per === "jar" || per === "inoculum mL";
const isSpace = (kind: string): boolean => kind === "space";
const isSupplement = (_: string, per: string): boolean => per === "supplement g";

/** The cells that move each answer most; questions without an entry have none beside them. */
const inputsOf: Readonly<Record<string, () => Input[]>> = {
  "which-dose-earns-most": () => [
    ...costInputs(isCulture).slice(0, 1),
    ...costInputs(isSpace).slice(0, 1),
    ...productInputs(),
  ],
  "per-tray-shelf-day-or-hour": () => [
    ...costInputs(isCulture).slice(0, 1),
    ...costInputs(isSpace).slice(0, 1),
    ...productInputs(),
  ],
  "is-the-next-step-worth-trying": () => [...costInputs(isCulture).slice(0, 1), ...productInputs()],
  "does-the-dearer-supplement-pay": () => [...costInputs(isSupplement).slice(0, 2), ...productInputs().slice(0, 1)],
  "what-does-a-good-gram-cost": () => dearestInputs().slice(0, 4),
};

function WhatIf({ inputs }: { inputs: ReadonlyArray<Input> }) {
  return (
    <div class="what">
      <h4>{`What if the price (${currencyName(current.value.book.settings)}) were…`}</h4>
      {inputs.map(({ label, sheet, row, column }) => {
        const saved = workbook().saved.sheets[sheet]?.rows[row]?.[column] ?? "";
        const now = cellText(sheet, row, column);
        return (
          <label key={`${sheet}/${row}`}>
            <span>{visibleText(label, 60)}</span>
            {now === saved ? <span /> : <span class="was">was {saved === "" ? "empty" : priceText(saved)}</span>}
            <input
              type="text"
              inputMode="decimal"
              class={now === saved ? undefined : "changed"}
              value={priceText(now)}
              data-cell={`${sheet}/${row}/${column}`}
            />
          </label>
        );
      })}
    </div>
  );
}

/** Puts the inputs that move an answer beside it. */
export function fillInputs(place: ParentNode): void {
  for (const slot of place.querySelectorAll<HTMLElement>("[data-inputs]")) {
    const inputs = inputsOf[slot.dataset.inputs ?? ""]?.().slice(0, mostInputs) ?? [];
    if (inputs.length === 0 || inputs.some(({ column }) => column < 0)) continue;
    // an answer that was drawn again has emptied the slot: what was drawn there before is no longer in the page
    if (slot.firstChild === null) render(null, slot);
    render(<WhatIf inputs={inputs} />, slot);
  }
}

/** The row of a product by its name and channel; -1 where there is none. */
function productRow(product: string, channel: string): number {
  const [name, where] = [columnOf("products", "product"), columnOf("products", "channel")];
  return Array.from({ length: rowCount("products") }, (_, row) => row).findIndex(
    (row) => cellText("products", row, name) === product && cellText("products", row, where) === channel,
  );
}

/** The cell an input stands for. */
function cellOf({ dataset }: HTMLInputElement): { sheet: SheetName; row: number; column: number } | undefined {
  if (dataset.cell !== undefined) {
    const [sheet, row, column] = dataset.cell.split("/");
    return { sheet: sheet as SheetName, row: Number(row), column: Number(column) };
  }
  if (dataset.price === undefined) return undefined;
  const row = productRow(dataset.price, dataset.channel ?? "");
  return row < 0 ? undefined : { sheet: "products", row, column: columnOf("products", "current_price") };
}

/** The lines a cost sheet starts with, where the book has none: what, kind, unit, amount, per. */
const firstLines: ReadonlyArray<Readonly<Record<string, string>>> = [
  { item: "grain", kind: "ingredient", pack_unit: "kg", per: "tray" },
  { item: "supplement", kind: "ingredient", pack_unit: "kg", per: "tray" },
  { item: "filter bag", kind: "consumable", pack_unit: "each", amount: "1", per: "tray" },
  { item: "liquid culture", kind: "culture", pack_unit: "mL", amount: "1", per: "inoculum mL" },
  { item: "shed rent", kind: "space", pack_size: "1", pack_unit: "month", amount: "1", per: "month" },
];

/** Opens the cost sheet where it is; an empty one gets the five lines that most books start with. */
function openCosts(): void {
  const fold = document.querySelector<HTMLDetailsElement>("#costs-sheet details");
  if (fold !== null) fold.open = true;
  if (rowCount("costs") > 0) return;
  const cells = firstLines.flatMap((line, row) =>
    Object.entries(line).map(([key, text]) => ({ sheet: "costs" as const, row, column: columnOf("costs", key), text })),
  );
  change(cells, [], { sheet: "costs", rows: firstLines.length });
  said.value = "Five lines to fill in stand in the cost sheet; type over what does not fit.";
}

/** Makes the inputs beside answers and in the price list change the sheets' cells. */
export function startInputs(): void {
  fillInputs(document);
  document.addEventListener("change", ({ target }) => {
    if (!(target instanceof HTMLInputElement)) return;
    const cell = cellOf(target);
    if (cell !== undefined) change([{ ...cell, text: target.value }]);
  });
  document.addEventListener("click", (event) => {
    const link = event.target instanceof Element ? event.target.closest<HTMLElement>("[data-open=costs-sheet]") : null;
    if (link !== null) openCosts();
  });
  edits.subscribe(() => markChanged());
}

/** Marks the price cells that differ from the saved book, and brings undone ones back. */
function markChanged(): void {
  if (workbook().saved.sheets.products === undefined) return;
  const texts = changedTexts.products.value;
  for (const input of document.querySelectorAll<HTMLInputElement>("input[data-price]")) {
    const cell = cellOf(input);
    const isChanged = cell !== undefined && texts.has(`products/${cell.row}/${cell.column}`);
    if (input.classList.contains("changed") && !isChanged && cell !== undefined && document.activeElement !== input)
      input.value = priceText(cellText("products", cell.row, cell.column));
    input.classList.toggle("changed", isChanged);
  }
  fillInputs(document);
}
