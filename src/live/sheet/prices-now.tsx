import { visibleText } from "../../report/visible-text.ts";
import type { PricesNow } from "../model/figures-now.ts";
import { figures, workbook } from "../model/workbook.ts";
import { WasNow } from "./was-now.tsx";

const columns: ReadonlyArray<readonly [Exclude<keyof PricesNow, "product">, string]> = [
  ["floor", "Not below"],
  ["breakEven", "Breaks even"],
  ["target", "For the margin wanted"],
  ["current", "Price now"],
  ["margin", "Margin now"],
  ["standing", "Stands"],
];

/** a table that scrolls in its own box can be reached by keyboard */
const scrollBox = { tabIndex: 0, role: "group", "aria-labelledby": "prices-now" } as const;

/** Costs and prices as the cells stand, followed at once. */
export function PricesNowTable() {
  const { figures: costs, prices, reason } = figures.value;
  const before = workbook().figures;
  const savedCost = new Map(before.figures.map(({ name, text }) => [name, text]));
  const savedPrices = new Map(before.prices.map((price) => [price.product, price]));
  if (costs.length === 0) return <p class="note">No costs can be worked out: {reason}.</p>;
  return (
    <div class="prices-now">
      <h3 class="grid-title">Costs and prices as the cells stand</h3>
      <dl class="costs-now">
        {costs.map(({ name, text }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>
              <WasNow was={savedCost.get(name)} now={text} />
            </dd>
          </div>
        ))}
      </dl>
      {prices.length === 0 ? (
        <p class="note">No price list: {reason}.</p>
      ) : (
        <div class="sheet">
          <div class="sheet-box" {...scrollBox}>
            <table>
              <caption id="prices-now">
                <span>Price list</span>
              </caption>
              <thead>
                <tr>
                  <th scope="col">Product</th>
                  {columns.map(([key, label]) => (
                    <th scope="col" key={key} class={key === "standing" ? undefined : "number"}>
                      {label}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {prices.map((price, index) => (
                  <tr key={index}>
                    <th scope="row">{visibleText(price.product, 80)}</th>
                    {columns.map(([key]) => (
                      <td key={key} class={key === "standing" ? "long" : "number"}>
                        <WasNow was={savedPrices.get(price.product)?.[key]} now={visibleText(price[key], 120)} />
                      </td>
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </div>
      )}
    </div>
  );
}
