import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { costColumns } from "../records/cost-line.ts";
import { harvestFields } from "../records/harvest-field.ts";
import { productColumns } from "../records/product.ts";
import { settingDefinitions } from "../records/setting-definitions.ts";
import { freshName } from "./fresh-name.ts";
import { fileTrouble, PlainFailure } from "./plain-failure.ts";
import { print } from "./print.ts";
import { isSystemPlace } from "./system-place.ts";

const quoted = (cell: string): string => (/[",\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
const line = (cells: ReadonlyArray<string>): string => `${cells.map(quoted).join(",")}\n`;

/** The note that goes into a new book: what belongs in each sheet and column. */
function bookNote(): string {
  const columns = harvestFields.map(({ key, meaning, unit }) => `| ${key} | ${unit} | ${meaning} |`).join("\n");
  const settings = settingDefinitions
    .map(({ key, meaning, unit, choices }) => `| ${key} | ${choices?.join(", ") ?? unit} | ${meaning} |`)
    .join("\n");
  return `# This book

Put one harvest sheet per trial or season into \`harvests/\`. One row is one started tray, lost and unfinished ones too.
Use any of the columns below, in any order, or your own headers: they are matched by meaning, and units may stand in
the cells. Only a tray, something that was varied (an inoculum volume, for instance) and one result are needed.
Your files are never written to.

Then run \`gramwright check .\` to see what was wrong with the sheets and \`gramwright report .\` for the answers.

## harvests/*.csv

| column | unit | meaning |
|---|---|---|
${columns}

## costs.csv
One row per cost: what it is, what kind (ingredient, culture, consumable, reusable, energy, labour, space, overhead),
what a pack costs and holds, how much is used, and per what (tray, good tray, cook, load, jar, inoculum mL,
supplement g, grain g, shelf day, kg fresh, kg dried, unit sold, month).

## products.csv
One row per thing sold on one channel.

## settings.csv
Leave a value empty to keep the default.

| key | unit or choices | meaning |
|---|---|---|
${settings}
`;
}

/** The sheets of a new book in a folder that holds nothing yet. */
function writeSheets(folder: string): void {
  const write = (name: string, text: string) => writeFileSync(join(folder, name), text, { flag: "wx" });
  mkdirSync(join(folder, "harvests"));
  write(join("harvests", "harvest-1.csv"), line(harvestFields.map(({ key }) => key)));
  write("costs.csv", line(costColumns));
  write("products.csv", line(productColumns));
  write(
    "settings.csv",
    line(["key", "value", "unit", "note"]) +
      settingDefinitions
        .map(({ key, default: value, unit, choices, meaning }) =>
          line([key, value, unit, choices ? `${meaning}: ${choices.join(", ")}` : meaning]),
        )
        .join(""),
  );
  write("README.md", bookNote());
}

/** Moves a finished folder to its place, which is empty or not there. One that somebody stands in is filled instead. */
function moveTo(place: string, finished: string): void {
  if (!existsSync(place)) renameSync(finished, place);
  else for (const name of readdirSync(finished)) renameSync(join(finished, name), join(place, name));
}

/**
 * Writes a new book of headed, empty sheets: all of it, or nothing.
 * @throws PlainFailure if the folder exists and holds something, or cannot be written
 */
export function newBook(folder: string): void {
  const place = resolve(folder);
  const fresh = join(dirname(place), freshName());
  try {
    if (isSystemPlace(place)) throw new PlainFailure(`${folder}: this belongs to the system. Give another place.`);
    if (existsSync(place) && readdirSync(place).length > 0) {
      throw new PlainFailure(`${folder}: this folder is not empty. Give a new name; nothing was written.`);
    }
    mkdirSync(fresh, { recursive: true });
    writeSheets(fresh);
    moveTo(place, fresh);
  } catch (error) {
    if (error instanceof PlainFailure) throw error;
    throw new PlainFailure(`${folder}: ${fileTrouble(error)}. Give a folder that can be made.`);
  } finally {
    rmSync(fresh, { recursive: true, force: true });
  }
  print(
    `New book: ${folder}\nType your trays into ${join(folder, "harvests", "harvest-1.csv")} (${join(folder, "README.md")} explains the columns),\nthen run: gramwright report ${folder}\n`,
  );
}
