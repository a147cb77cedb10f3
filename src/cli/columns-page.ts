import { analyses } from "../../analyses/index.ts";
import type { Analysis } from "../analysis.ts";
import { escapeHtml, printPage } from "../planning/print-page.ts";
import { type HarvestFieldKey, harvestField, harvestFields } from "../records/harvest-field.ts";

/** Columns that make an answer sharper, or let it tell apart what it could not, by the question's id. */
const sharper: Readonly<Record<string, ReadonlyArray<HarvestFieldKey>>> = {
  "what-is-due": ["fruiting_on", "incubation_c", "fruiting_c"],
  "which-dose-earns-most": ["added_liquid_ml", "jar"],
  "what-changed-the-days": ["fruiting_on", "incubation_c"],
  "what-does-a-good-gram-cost": ["load", "grain_dry_g", "supplement_g", "dried_on"],
  "does-the-dearer-supplement-pay": ["supplement", "supplement_g"],
  "is-contamination-a-signal": ["jar", "load", "load_position", "shelf", "operator", "culture_age_days"],
  "fresh-or-dried": ["final_moisture_pct"],
  "does-temperature-pay": ["chamber", "fruiting_on"],
  "is-the-culture-drifting": ["jar", "culture_age_days"],
  "per-tray-shelf-day-or-hour": ["fruiting_on"],
  "are-later-flushes-worth-it": ["flush"],
  "how-much-did-the-substrate-give": ["substrate_wet_g", "supplement_g"],
};

const style = `
main { max-width: 46rem; }
h2 { margin: 5mm 0 1mm; font-size: 12pt; }
dl { margin: 1mm 0 0; } dt { font-weight: 700; } dd { margin: 0 0 1mm 5mm; }
code { overflow-wrap: anywhere; }`;

const listed = (keys: ReadonlyArray<HarvestFieldKey>): string =>
  `<dl>${keys
    .map((key) => {
      const { label, meaning, unit } = harvestField(key);
      const said = `${meaning}${unit === "" || meaning.includes(unit) ? "" : `, in ${unit}`}`;
      return `<dt><code>${key}</code> ${escapeHtml(label)}</dt><dd>${escapeHtml(said)}</dd>`;
    })
    .join("")}</dl>`;

/** Columns a question asks for beyond those a sheet has. */
function further({ id, needs }: Analysis, has: ReadonlySet<HarvestFieldKey>): HarvestFieldKey[] {
  return [...new Set([...needs, ...(sharper[id] ?? [])])].filter((key) => !has.has(key));
}

/**
 * A page that says which further columns each question asks for, so that a sheet grows only by what is wanted.
 * @param first columns that the sheet has already
 */
export function columnsPage(first: ReadonlyArray<HarvestFieldKey>): string {
  const has = new Set(first);
  const asking = analyses.map((analysis) => ({ analysis, keys: further(analysis, has) }));
  const enough = asking.filter(({ keys }) => keys.length === 0).map(({ analysis }) => analysis.question);
  const named = new Set(asking.flatMap(({ keys }) => keys));
  const others = harvestFields.map(({ key }) => key).filter((key) => !has.has(key) && !named.has(key));
  return printPage(
    "Columns by question",
    style,
    `<main><h1>Columns by question</h1>
<p>The sheet has <code>${first.join(",")}</code>. Add a column only for a question you have: type its name into the header row, at any place.</p>
<h2>Answered from these columns</h2>
<ul>${enough.map((question) => `<li>${escapeHtml(question)}</li>`).join("")}</ul>
${asking
  .filter(({ keys }) => keys.length > 0)
  .map(({ analysis, keys }) => `<h2>${escapeHtml(analysis.question)}</h2>\n${listed(keys)}`)
  .join("\n")}
<h2>Other columns</h2>
${listed(others)}</main>`,
  );
}
