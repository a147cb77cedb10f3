// What options of the command line are given, read.
import { InvalidArgumentError } from "commander";
import type { Stated } from "./stated-settings.ts";

/** Reads a whole number of 0 or more from the command line. */
export function wholeNumber(text: string): number {
  const value = Number(text);
  if (!/^\d+$/.test(text) || !Number.isSafeInteger(value)) throw new InvalidArgumentError("Give a whole number.");
  return value;
}

/** Reads a path; an empty one, such as an unset variable of a script, is not taken for the folder one stands in. */
export function pathOf(text: string): string {
  if (text.trim() === "") throw new InvalidArgumentError("Give a name; . is the folder you are in.");
  return text;
}

/** Reads the name of a page, which a browser opens by its ending. */
export function pageOf(text: string): string {
  if (!/\.html?$/i.test(text)) throw new InvalidArgumentError("Give a name that ends in .html.");
  return text;
}

/** Reads a folder for outputs. */
export function outFolder(text: string): string {
  if (/\.(html?|csv|json)$/i.test(text))
    throw new InvalidArgumentError("Give a folder; the files in it get their names.");
  return pathOf(text);
}

/** Reads a list of doses: "5,10,15". */
export function doseList(text: string): number[] {
  const doses = text.split(",").map((part) => Number(part.trim()));
  if (doses.some((dose) => !Number.isFinite(dose) || dose < 0) || text.trim() === "") {
    throw new InvalidArgumentError("Give doses in mL with commas between them, such as 5,10,15.");
  }
  return doses;
}

/** Reads a list of temperatures as °C: "15,18", "59F,64F". */
export function temperatureList(text: string): number[] {
  return text.split(",").map((part) => {
    const typed = /^\s*(-?\d+(?:\.\d+)?)\s*°?\s*([cf]?)\s*$/i.exec(part);
    if (typed === null) {
      throw new InvalidArgumentError("Give temperatures with commas between them, such as 15,18 or 59F,64F.");
    }
    const value = Number(typed[1]);
    return typed[2]!.toLowerCase() === "f" ? Number((((value - 32) * 5) / 9).toFixed(1)) : value;
  });
}

/** Reads what a trial may take: "36 trays", or money of the book. */
export function budget(text: string): { trays: number } | { money: number } {
  const typed = /^\s*(\d+(?:\.\d+)?)\s*(trays?)?\s*$/i.exec(text);
  if (typed === null || Number(typed[1]) === 0) {
    throw new InvalidArgumentError('Give trays or money, such as "36 trays" or 200.');
  }
  return typed[2] === undefined ? { money: Number(typed[1]) } : { trays: Math.floor(Number(typed[1])) };
}

/** Reads a list of names: "Tent 1,Tent 2". */
export const nameList = (text: string): string[] => text.split(",").map((part) => part.trim());

/** Reads one `--set`: a key of settings.csv and its value, or `column:HEADER` and what the column holds. */
export function statedSetting(text: string, before: ReadonlyArray<Stated> = []): Stated[] {
  const at = text.lastIndexOf("=");
  const [key, value] = [text.slice(0, at).trim(), text.slice(at + 1).trim()];
  if (at < 1 || key === "" || value === "") {
    throw new InvalidArgumentError('Give key=value, such as date_order="day first" or column:Squirt=inoculum_ml.');
  }
  return [...before, [key, value]];
}
