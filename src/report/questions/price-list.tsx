import type { PriceListChart } from "../../analysis.ts";
import { columnFormat } from "../column-format.ts";
import { Fold } from "../fold.tsx";
import { formatQuantity, type NumberSettings } from "../format-quantity.ts";
import { betweenText } from "../front/figure-text.ts";
import type { ReportFacts } from "../report-facts.ts";
import { visibleText } from "../visible-text.ts";
import { currencyName } from "../write-number.ts";
import { PickName } from "./pick-name.tsx";

type Product = PriceListChart["products"][number];

/** products shown before the rest is folded */
const mostShown = 12;
const drawn = { width: 240, height: 26 } as const;

/** Money without its symbol, which stands in the head. */
export const money = (value: number | undefined, settings: NumberSettings): string =>
  value === undefined
    ? "–"
    : formatQuantity({ value, unit: "money" }, settings)
        .replace(/[^\d.,−\s\u00a0\u202f’']/g, "")
        .trim();

/** Price now and price to ask as shares of break-even, with its range. */
function ShareOfBreakEven({ product, settings }: { product: Product; settings: NumberSettings }) {
  const { now, breakEven, breakEvenFrom, breakEvenTo, ask } = product;
  if (breakEven === undefined || breakEven <= 0) return null;
  const most = 2.2;
  const x = (price: number) =>
    Math.round((6 + (Math.min(price / breakEven, most) / most) * (drawn.width - 12)) * 10) / 10;
  const share = (price: number) => formatQuantity({ value: price / breakEven, unit: "share", digits: 2 }, settings);
  const name = [
    now === undefined ? "" : `Price now is ${share(now)} of break-even`,
    ask === undefined ? "" : `price to ask is ${share(ask)}`,
    breakEvenFrom === undefined || breakEvenTo === undefined
      ? ""
      : `break-even lies ${betweenText({ from: breakEvenFrom, to: breakEvenTo, unit: "money" }, settings)}`,
  ].filter((part) => part !== "");
  return (
    <svg
      class="price-shares"
      width={drawn.width}
      height={drawn.height}
      viewBox={`0 0 ${drawn.width} ${drawn.height}`}
      role="img"
      aria-label={name.join("; ")}
    >
      <line class="ruler" x1="6" x2={drawn.width - 6} y1="13" y2="13" />
      {breakEvenFrom === undefined || breakEvenTo === undefined ? null : (
        <rect
          class="range"
          x={x(breakEvenFrom)}
          y="7"
          width={Math.max(2, x(breakEvenTo) - x(breakEvenFrom))}
          height="12"
        />
      )}
      <line class="ref" x1={x(breakEven)} x2={x(breakEven)} y1="3" y2="23" />
      {now !== undefined && ask !== undefined ? <line class="thread" x1={x(now)} x2={x(ask)} y1="13" y2="13" /> : null}
      {ask === undefined ? null : <circle class="ring" cx={x(ask)} cy="13" r="5" />}
      {now === undefined ? null : (
        <path class={product.below ? "mark warm" : "mark"} d={`M${x(now)},7l6,6l-6,6l-6,-6z`} />
      )}
    </svg>
  );
}

function PriceNow({ product, facts }: { product: Product; facts: ReportFacts }) {
  const { settings, isLive } = facts;
  if (!isLive) return <>{money(product.now, settings)}</>;
  return (
    <input
      type="text"
      inputMode="decimal"
      data-price={product.product}
      data-channel={product.channel ?? ""}
      value={product.now === undefined ? "" : money(product.now, settings)}
      aria-label={`Price now of ${visibleText(product.product, 60)}${product.channel ? `, ${visibleText(product.channel, 40)}` : ""}`}
    />
  );
}

/** Writes the margins of one column in %, all with as many decimals. */
function marginText(margins: ReadonlyArray<number | undefined>, settings: NumberSettings) {
  const known = margins.filter((margin) => margin !== undefined);
  const { write } = columnFormat({ label: "margin", unit: "share" }, known, settings);
  return (margin: number | undefined): string => (margin === undefined ? "–" : write(margin));
}

/** The heads of the price list, and how each column stands. */
const headsOf = (symbol: string): [label: string, className?: string][] => [
  ["Product"],
  [`Now, ${symbol}`, "n"],
  [`Break-even, ${symbol}`, "n"],
  [`Ask, ${symbol}`, "n"],
  ["Now and ask, as a share of break-even"],
  ["Margin now, %", "n"],
  ["Wanted, %", "n hide-phone"],
  ["Stands"],
];

function Rows({ products, facts }: { products: ReadonlyArray<Product>; facts: ReportFacts }) {
  const { settings } = facts;
  const symbol = currencyName(settings);
  const now = marginText(
    products.map(({ marginNow }) => marginNow),
    settings,
  );
  const wanted = marginText(
    products.map(({ marginWanted }) => marginWanted),
    settings,
  );
  return (
    <table class="prices">
      <thead>
        <tr>
          {headsOf(symbol).map(([label, className]) => (
            <th scope="col" class={className} key={label}>
              {label}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {products.map((product, index) => (
          <tr key={index} class={`pick ${facts.pickOf(product.product) ?? ""}`.trim()}>
            <th scope="row">
              <PickName name={product.name ?? product.product} facts={facts} />
              {product.channel ? <small>{visibleText(product.channel, 60)}</small> : null}
            </th>
            <td class="n" data-label={`Now, ${symbol}`}>
              <PriceNow product={product} facts={facts} />
            </td>
            <td class="n hide-phone">{money(product.breakEven, settings)}</td>
            <td class="n ask" data-label={`Ask, ${symbol}`}>
              <strong>{money(product.ask, settings)}</strong>
            </td>
            <td class="drawn">
              <ShareOfBreakEven product={product} settings={settings} />
            </td>
            <td class="n" data-label="Margin now, %">
              {now(product.marginNow)}
            </td>
            <td class="n hide-phone">{wanted(product.marginWanted)}</td>
            <td class={product.below ? "stands below" : "stands"}>{visibleText(product.stands, 60)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The products with the smallest margins, in the sheet's order. */
export function worstProducts(products: ReadonlyArray<Product>, most: number): ReadonlyArray<Product> {
  const worst = products.toSorted((a, b) => (a.marginNow ?? 9) - (b.marginNow ?? 9)).slice(0, most);
  return products.filter((product) => worst.includes(product));
}

/** The price list: a cell to type the price in, break-even, the price to ask, margins; cards on a phone. */
export function PriceList({ chart, facts }: { chart: PriceListChart; facts: ReportFacts }) {
  const isLong = chart.products.length > mostShown;
  const shown = worstProducts(chart.products, mostShown);
  const rest = chart.products.filter((product) => !shown.includes(product));
  return (
    <div class="price-list">
      <Rows products={shown} facts={facts} />
      <ul class="key" aria-hidden="true">
        <li>
          <svg class="tiny" width="14" height="14" viewBox="0 0 14 14" aria-hidden="true">
            <path class="mark" d="M7,1l6,6l-6,6l-6,-6z" />
          </svg>
          price now
        </li>
        <li>
          <svg class="tiny" width="14" height="14" viewBox="0 0 14 14" aria-hidden="true">
            <circle class="ring" cx="7" cy="7" r="5" />
          </svg>
          price to ask
        </li>
        <li>
          <svg class="tiny" width="22" height="14" viewBox="0 0 22 14" aria-hidden="true">
            <rect class="range" x="2" y="2" width="18" height="10" />
            <path class="ref" d="M11,0v14" />
          </svg>
          break-even and its range
        </li>
      </ul>
      {isLong ? (
        <Fold summary={`${rest.length} more products, which earn more`}>
          <Rows products={rest} facts={facts} />
        </Fold>
      ) : null}
    </div>
  );
}
