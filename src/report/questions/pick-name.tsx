import type { ReportFacts } from "../report-facts.ts";
import { visibleText } from "../visible-text.ts";

/** The name of a cook or product, as a button that picks it out where a script can answer; other names as they are. */
export function PickName({ name, facts }: { name: string; facts: ReportFacts }) {
  const pick = facts.isLive ? facts.pickOf(name) : undefined;
  const text = visibleText(name, 60);
  return pick === undefined ? (
    text
  ) : (
    <button type="button" class="pick-name" aria-pressed="false" data-pick={pick}>
      {text}
    </button>
  );
}
