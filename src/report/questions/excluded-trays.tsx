import type { Excluded } from "../../analysis.ts";
import type { ReportFacts } from "../report-facts.ts";
import { visibleText } from "../visible-text.ts";

/** tray names listed before the rest are only counted */
const mostNames = 60;

/** Counts trays in words. @example countTrays(1) // "1 tray" */
export const countTrays = (count: number): string => `${count} ${count === 1 ? "tray" : "trays"}`;

/** Tray names in a line, cut with the rest counted. */
export function trayNames(trays: ReadonlyArray<string>, most = mostNames): string {
  const named = trays.slice(0, most).map((tray) => visibleText(tray, 40));
  const rest = trays.length - named.length;
  return rest > 0 ? `${named.join(", ")} and ${rest} more` : named.join(", ");
}

/** The trays that took no part in an answer, by reason. */
export function ExcludedTrays({ excluded, facts }: { excluded: ReadonlyArray<Excluded>; facts: ReportFacts }) {
  if (excluded.length === 0) return <p>No tray was left out of this answer.</p>;
  return (
    <ul>
      {excluded.map(({ trays, reason }, index) => (
        <li key={index}>
          {countTrays(facts.countOf(trays))}, {visibleText(reason)}: <span class="names">{trayNames(trays)}</span>
        </li>
      ))}
    </ul>
  );
}
