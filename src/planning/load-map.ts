import { armKey, armLetters, treatmentWords } from "./arm-letters.ts";
import { escapeHtml, printPage } from "./print-page.ts";
import type { PlannedTray, TrialPlan } from "./trial-plan.ts";

const style = `
section { break-inside: avoid; margin: 0 0 7mm; }
h2 { margin: 0 0 1.5mm; font-size: 12pt; }
.places { display: grid; grid-template-columns: repeat(4, 1fr); gap: 1.5mm; max-width: 180mm; margin: 0; padding: 0; list-style: none; }
.places li { padding: 1.5mm 2mm; border: 0.3mm solid #16201c; border-radius: 1.5mm; overflow-wrap: anywhere; }
.place { float: right; color: #4a5651; }
.arm { font-weight: 700; font-size: 12pt; }
table { border-collapse: collapse; margin: 0 0 6mm; }
th, td { padding: 1mm 3mm 1mm 0; border-bottom: 0.2mm solid #aab3af; text-align: left; }
.tick { display: inline-block; width: 3.5mm; height: 3.5mm; border: 0.3mm solid #16201c; vertical-align: -0.5mm; }`;

/** Loads of a plan in the order they come. */
function loadsOf(plan: TrialPlan): { load: string; cook: string; trays: PlannedTray[] }[] {
  const loads = new Map<string, { load: string; cook: string; trays: PlannedTray[] }>();
  for (const tray of plan.trays) {
    const key = JSON.stringify([tray.cook, tray.load]);
    const load = loads.get(key) ?? { load: tray.load, cook: tray.cook, trays: [] };
    loads.set(key, load);
    load.trays.push(tray);
  }
  return [...loads.values()];
}

/**
 * Where every tray stands in the cooker, load by load, for the wall: which letter is which treatment, then the places in
 * order. A page of its own, nothing fetched.
 * @param title plain text
 */
export function loadMap(plan: TrialPlan, title: string): string {
  const letters = armLetters(plan);
  const arms = [...new Map(plan.trays.map((tray) => [armKey(tray), tray])).values()];
  const rows = arms
    .map((tray) => ({ letter: letters.get(armKey(tray))!, words: treatmentWords(tray).join(", ") }))
    .sort((a, b) => (a.letter < b.letter ? -1 : 1))
    .map(({ letter, words }) => `<tr><td class="arm">${letter}</td><td>${escapeHtml(words)}</td></tr>`);
  const loads = loadsOf(plan).map(({ load, cook, trays }) => {
    const places = [...trays]
      .sort((a, b) => a.position - b.position)
      .map(
        (tray) =>
          `<li><span class="place">${tray.position}</span><span class="arm">${letters.get(armKey(tray))!}</span> ${escapeHtml(tray.trayId)}<br><span class="tick"></span> filled${tray.chamber === undefined ? "" : `, then chamber ${escapeHtml(tray.chamber)}`}</li>`,
      );
    return `<section><h2>Load ${escapeHtml(load)}, cook ${escapeHtml(cook)}: ${trays.length} trays</h2><ol class="places">
${places.join("\n")}
</ol></section>`;
  });
  return printPage(
    title,
    style,
    `<h1>${escapeHtml(title)}</h1>
<p>${escapeHtml(plan.arrangement.charAt(0).toUpperCase() + plan.arrangement.slice(1))}, drawn with seed ${plan.seed}. Number the places of your cooker once, in any order, and keep to it: the small number is the place. Do not swap trays to make it tidier; the drawn order is what makes the comparison fair. If a tray has to stand elsewhere, type the place it really had.</p>
<table><thead><tr><th>Letter</th><th>Treatment</th></tr></thead><tbody>
${rows.join("\n")}
</tbody></table>
${loads.join("\n")}
<p>Follow the cooker maker's instructions: check gauge and seal, and never open it under pressure. This page holds no sterilising times or temperatures.</p>`,
  );
}
