import type { PricedOutlook, Unpriced } from "../../analyses/prices/price-outlook.ts";
import type { CannotTell } from "../costing/cannot-tell.ts";
import type { ListedPrice } from "../costing/products/price-list.ts";
import type { Settings } from "../records/setting.ts";
import { writeNumber } from "../report/write-number.ts";

/** a longer name is cut, so that a row stays one line */
const longestName = 30;

/** control characters, which would move the cursor, and the marks that turn the direction of writing */
const unprintable = /[\p{Cc}\u202a-\u202e\u2066-\u2069]/gu;

const cut = (name: string): string => {
  const plain = [...name.replace(unprintable, " ")];
  return plain.length > longestName ? `${plain.slice(0, longestName - 1).join("")}…` : plain.join("");
};

interface Column {
  head: string;
  right: boolean;
  cell(row: PricedOutlook): string;
}

/** Rows of cells in columns as wide as their longest cell, numbers to the right. */
function aligned(columns: ReadonlyArray<Column>, rows: ReadonlyArray<PricedOutlook>): string[] {
  const cells = rows.map((row) => columns.map(({ cell }) => cell(row)));
  const width = (text: string): number => [...text].length;
  const widths = columns.map(({ head }, index) =>
    [head, ...cells.map((row) => row[index]!)].reduce((most, text) => Math.max(most, width(text)), 0),
  );
  const line = (row: ReadonlyArray<string>): string =>
    row
      .map((text, index) => {
        const space = " ".repeat(widths[index]! - width(text));
        return columns[index]!.right ? space + text : text + space;
      })
      .join("  ")
      .trimEnd();
  return [line(columns.map(({ head }) => head)), line(widths.map((wide) => "─".repeat(wide))), ...cells.map(line)];
}

/** What the columns hold. */
const notesOf = (hasOwnTime: boolean): string[] => [
  `Full cost has all losses of the period in it${hasOwnTime ? ", your own time too" : ", your own time not"}. Floor: below it every unit loses money.`,
  "Target: the margin you want, as a share of the price without tax. Ask: the price that reaches it, none where no price does.",
];

/**
 * The price list as plain text for a terminal: an aligned table and what could not be priced.
 * @param hasOwnTime whether a cost line is the grower's own time
 * @returns lines without line ends
 */
export function priceListText(
  title: string,
  priced: ReadonlyArray<PricedOutlook>,
  unpriced: ReadonlyArray<Unpriced>,
  settings: Settings,
  hasOwnTime: boolean,
): string[] {
  const money = (value: number | undefined): string =>
    value === undefined
      ? "–"
      : writeNumber(value, { decimals: settings.currencyDecimals, style: "plain", signed: false, settings });
  const share = (value: number | undefined): string =>
    value === undefined || !Number.isFinite(value)
      ? "–"
      : writeNumber(value * 100, { decimals: 1, style: "share", signed: false, settings });
  const shown = (price: ListedPrice | CannotTell): string => money(price.kind === "listed" ? price.shown : undefined);
  const weight = settings.displayUnits === "us" ? { name: "oz", grams: 28.349523125 } : { name: "100 g", grams: 100 };
  const now = ({ priced: { current } }: PricedOutlook) => ("price" in current ? current : undefined);
  const numbers = (head: string, cell: Column["cell"]): Column => ({ head, right: true, cell });
  const columns: Column[] = [
    { head: "product", right: false, cell: ({ product }) => cut(product.product) },
    { head: "channel", right: false, cell: ({ product }) => cut(product.channel) },
    numbers("full cost", ({ priced: { unit } }) => money(unit.full)),
    numbers("floor", ({ priced: { floor } }) => shown(floor)),
    numbers("break even", ({ priced: { breakEven } }) => shown(breakEven)),
    numbers("target", ({ product }) => share(product.targetMargin)),
    numbers("ask", ({ priced: { target } }) => shown(target)),
    numbers(`per ${weight.name}`, ({ product, priced: { target, current } }) => {
      const price = target.kind === "listed" ? target.shown : "price" in current ? current.price : undefined;
      return money(product.grams > 0 && price !== undefined ? (price * weight.grams) / product.grams : undefined);
    }),
    numbers("now", ({ product }) => money(product.currentPrice)),
    numbers("earns", (row) => money(now(row)?.profit)),
    numbers("margin", (row) => share(now(row)?.margin)),
    { head: "the price now", right: false, cell: ({ standing }) => standing },
  ];
  const larger = priced.flatMap(({ name, priced: { quantities } }) =>
    quantities.map(
      ({ quantity, discount, price }) =>
        `${cut(name)}: from ${quantity}, ${money(price)} each (${share(discount)} off)`,
    ),
  );
  const impossible = priced.flatMap(({ name, product, priced: { target } }) =>
    target.kind === "cannot-tell" && product.targetMargin !== undefined ? [`${cut(name)}: ${target.reason}`] : [],
  );
  return [
    `${title.replace(unprintable, " ")}: prices in ${settings.currency}, per unit sold`,
    "",
    ...aligned(columns, priced),
    "",
    ...notesOf(hasOwnTime),
    ...(larger.length === 0 ? [] : ["", "Larger orders", ...larger.map((line) => `  ${line}`)]),
    ...(impossible.length === 0 ? [] : ["", "No price to ask", ...impossible.map((line) => `  ${line}`)]),
    ...(unpriced.length === 0
      ? []
      : ["", "Not priced", ...unpriced.map(({ name, reason }) => `  ${cut(name)}: ${reason}`)]),
    "",
    "Tax, label and food rules differ by place: follow local codes.",
  ];
}
