import { hasEnded, type Tray } from "../../records/tray.ts";
import { formatQuantity, type NumberSettings } from "../format-quantity.ts";

/** Trays of one dose, or of one level of what else varied. */
export interface DoseGroup {
  dose: number | undefined;
  name: string;
  trays: Tray[];
  weights: { tray: Tray; grams: number }[];
}

export const mean = (values: ReadonlyArray<number>): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** How many trays of each level were good, and what they weighed. */
export function ByLevel({
  groups,
  what,
  settings,
}: {
  groups: ReadonlyArray<DoseGroup>;
  what: string;
  settings: NumberSettings;
}) {
  const write = (value: number) => formatQuantity({ value, unit: "factor", digits: 3 }, settings);
  return (
    <table class="compact">
      <caption>By {what}</caption>
      <thead>
        <tr>
          <th scope="col">{what.charAt(0).toUpperCase() + what.slice(1)}</th>
          <th scope="col">Good</th>
          <th scope="col" class="n">
            Mean g, good tray
          </th>
          <th scope="col" class="n">
            Mean g, finished tray
          </th>
        </tr>
      </thead>
      <tbody>
        {groups.map(({ name, trays, weights }) => {
          const ended = trays.filter(hasEnded);
          const grams = weights.map((weight) => weight.grams);
          return (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>
                {ended.filter(({ outcome }) => outcome === "good").length} of {ended.length}
              </td>
              <td class="n">{grams.length === 0 ? "–" : write(mean(grams))}</td>
              <td class="n">
                {grams.length === 0
                  ? "–"
                  : write(grams.reduce((sum, value) => sum + value, 0) / Math.max(1, ended.length))}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
