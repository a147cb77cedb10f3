import type { Excluded } from "../../analysis.ts";
import { counted, firstOf } from "../../records/counted.ts";
import type { ReportFacts } from "../report-facts.ts";
import { visibleText } from "../visible-text.ts";

/** tray names listed before the rest are only counted */
const mostNames = 60;

/** Tray names in a line, cut with the rest counted. */
export const trayNames = (trays: ReadonlyArray<string>): string =>
  firstOf(
    trays.map((tray) => visibleText(tray, 40)),
    mostNames,
  );

/** The trays that took no part in an answer, by reason. */
export function ExcludedTrays({ excluded, facts }: { excluded: ReadonlyArray<Excluded>; facts: ReportFacts }) {
  if (excluded.length === 0) return <p>No tray was left out of this answer.</p>;
  return (
    <ul>
      {excluded.map(({ trays, reason }, index) => (
        <li key={index}>
          {counted(facts.countOf(trays), "tray")}, {visibleText(reason)}: <span class="names">{trayNames(trays)}</span>
        </li>
      ))}
    </ul>
  );
}
