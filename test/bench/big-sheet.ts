import { closeSync, openSync, writeSync } from "node:fs";
import { simulateDemoTrial } from "../../data-samples/demo-trial.ts";

const header =
  "tray_id,batch,load,load_position,jar,shelf,supplement_grade,inoculum_ml,inoculated_on,colonised_on,harvested_on,outcome,fresh_g,dry_g";

/** Writes a harvest sheet of 14 columns with a given number of trays, from the demo farm's simulation. */
export function writeBigSheet(path: string, trays: number): void {
  const file = openSync(path, "w");
  writeSync(file, `${header}\n`);
  const traysPerCook = 12;
  const cooksPerPiece = 400;
  for (let firstCook = 0; firstCook * traysPerCook < trays; firstCook += cooksPerPiece) {
    const cooks = Array.from(
      { length: Math.min(cooksPerPiece, Math.ceil(trays / traysPerCook) - firstCook) },
      (_, cook) => ({
        name: `C${firstCook + cook + 1}`,
        inoculatedOn: `2026-01-${String(1 + ((firstCook + cook) % 28)).padStart(2, "0")}`,
      }),
    );
    const rows = simulateDemoTrial({
      seed: firstCook + 1,
      cooks,
      traysPerDose: 3,
      lookedAtOn: "2026-12-31",
      firstTray: firstCook * traysPerCook + 1,
      firstJar: 2 * firstCook + 1,
    });
    const text = rows
      .slice(0, trays - firstCook * traysPerCook)
      .map((tray) =>
        [
          tray.trayId,
          tray.batch,
          tray.load,
          tray.loadPosition,
          tray.jar,
          tray.shelf,
          tray.supplementGrade,
          tray.doseMillilitres,
          tray.inoculatedOn,
          tray.colonisedOn ?? "",
          tray.harvestedOn ?? "",
          tray.outcome,
          tray.freshGrams ?? "",
          tray.dryGrams ?? "",
        ].join(","),
      )
      .join("\n");
    writeSync(file, `${text}\n`);
  }
  closeSync(file);
}
