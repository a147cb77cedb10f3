import { InvalidArgumentError } from "commander";
import { withAnsweredSettings } from "../engine/answered-settings.ts";
import type { BookFolder } from "./read-book-folder.ts";

/** A setting, or what a column holds, as stated on the command line. */
export type Stated = readonly [key: string, value: string];

/**
 * Reads one `--set`: a key of settings.csv and its value, or `column:HEADER` and what the column holds.
 * @throws InvalidArgumentError where it is neither
 * @example statedSetting("date_order=day first", []) // [["date_order", "day first"]]
 */
export function statedSetting(text: string, before: ReadonlyArray<Stated> = []): Stated[] {
  const at = text.lastIndexOf("=");
  const [key, value] = [text.slice(0, at).trim(), text.slice(at + 1).trim()];
  if (at < 1 || key === "" || value === "") {
    throw new InvalidArgumentError('Give key=value, such as date_order="day first" or column:Squirt=inoculum_ml.');
  }
  return [...before, [key, value]];
}

/** A book's sheets with what the command line states of them. */
export async function withStated(folder: BookFolder, stated: ReadonlyArray<Stated>): Promise<BookFolder> {
  if (stated.length === 0) return folder;
  return { ...folder, sheets: (await withAnsweredSettings(folder.sheets, stated)).sources };
}
