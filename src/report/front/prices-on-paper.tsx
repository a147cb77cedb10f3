import type { AnsweredQuestion } from "../../analysis.ts";
import { money, worstProducts } from "../questions/price-list.tsx";
import type { ReportFacts } from "../report-facts.ts";
import { visibleText } from "../visible-text.ts";
import { currencyName } from "../write-number.ts";

/** products that the first page of paper has room for */
const mostOnPaper = 8;

/** The prices to ask, for the first page on paper, which hangs where things are packed. */
export function PricesOnPaper({ answers, facts }: { answers: ReadonlyArray<AnsweredQuestion>; facts: ReportFacts }) {
  const [chart] = answers.find(({ id }) => id === "what-price-to-ask")?.outcome.charts ?? [];
  if (chart?.kind !== "price-list") return null;
  const { settings } = facts;
  const symbol = currencyName(settings);
  return (
    <table class="compact on-paper">
      <caption>Prices to ask</caption>
      <thead>
        <tr>
          <th scope="col">Product</th>
          {["Now", "Break-even", "Ask"].map((head) => (
            <th scope="col" class="n" key={head}>
              {head}, {symbol}
            </th>
          ))}
          <th scope="col">Stands</th>
        </tr>
      </thead>
      <tbody>
        {worstProducts(chart.products, mostOnPaper).map((product, index) => (
          <tr key={index}>
            <th scope="row">
              {visibleText([product.name ?? product.product, product.channel].filter(Boolean).join(", "), 80)}
            </th>
            <td class="n">{money(product.now, settings)}</td>
            <td class="n">{money(product.breakEven, settings)}</td>
            <td class="n">
              <strong>{money(product.ask, settings)}</strong>
            </td>
            <td class={product.below ? "below" : ""}>{visibleText(product.stands, 60)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
