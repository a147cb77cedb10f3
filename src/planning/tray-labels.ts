import { encodeQR } from "qr";
import { armKey, armLetters, treatmentWords } from "./arm-letters.ts";
import { escapeHtml, printPage } from "./print-page.ts";
import type { TrialPlan } from "./trial-plan.ts";

const style = `
.labels { display: grid; grid-template-columns: repeat(3, 60mm); gap: 0; }
.label { display: grid; grid-template-columns: 24mm 1fr; gap: 2mm; box-sizing: border-box; width: 60mm; min-height: 34mm;
  padding: 2.5mm; border: 0.2mm dashed #8a938f; break-inside: avoid; overflow-wrap: anywhere; }
.label svg { width: 24mm; height: 24mm; }
.tray { font-weight: 700; font-size: 13pt; line-height: 1.1; }
.arm { float: right; min-width: 6mm; padding: 0 1mm; border: 0.4mm solid #16201c; border-radius: 1mm; text-align: center; font-weight: 700; }
.label ul { margin: 1mm 0 0; padding: 0; list-style: none; font-size: 8.5pt; line-height: 1.25; }`;

/** The scannable code of a tray: its name and nothing else, so that scanning finds its row in the sheet. */
export function trayCode(trayId: string): string {
  // a margin of four modules is what ISO/IEC 18004 asks for
  return encodeQR(trayId, "svg", { ecc: "medium", border: 4 });
}

/**
 * Labels to print, cut and stick on, one per tray, with a code that holds the tray's name. A page of its own, nothing fetched.
 * @param title plain text
 */
export function trayLabels(plan: TrialPlan, title: string): string {
  const letters = armLetters(plan);
  const labels = plan.trays.map((tray) => {
    const lines = [
      ...treatmentWords(tray),
      `cook ${tray.cook}, load ${tray.load}, place ${tray.position}`,
      ...(tray.chamber === undefined ? [] : [`chamber ${tray.chamber}`]),
    ];
    return `<div class="label"><div aria-hidden="true">${trayCode(tray.trayId)}</div><div><span class="arm">${letters.get(armKey(tray))!}</span><span class="tray">${escapeHtml(tray.trayId)}</span><ul>${lines
      .map((line) => `<li>${escapeHtml(line)}</li>`)
      .join("")}</ul></div></div>`;
  });
  return printPage(
    title,
    style,
    `<h1>${escapeHtml(title)}</h1>
<p>${plan.trays.length} labels. Print at full size, cut along the dashed lines. Scanning a code gives the tray's name as it stands in the sheet. The letter in the box stands for the treatment, the same letter for the same treatment.</p>
<div class="labels">
${labels.join("\n")}
</div>`,
  );
}
