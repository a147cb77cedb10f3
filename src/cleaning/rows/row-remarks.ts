import type { Issue } from "../../records/issue.ts";
import { noFlags } from "../trays/tray-draft.ts";
import type { CellRemark } from "./cell-fact.ts";

/** The part of the log that one row writes, held until the row's tray is known. Used again for every row. */
export class RowRemarks {
  /** codes of warnings and errors of the row so far */
  flags: string[] = noFlags;
  private row = 0;
  private readonly pending: Issue[] = [];

  constructor(private readonly file: string) {}

  startRow(row: number): void {
    this.row = row;
    this.flags = noFlags;
    this.pending.length = 0;
  }

  /** @param column header of the cell, "" for the whole row; @param raw the cell as typed */
  add(column: string, raw: string, { rule, severity, reason, result, expected, action, setting }: CellRemark): void {
    const { file, row } = this;
    const issue: Issue = { file, row, column, tray: undefined, raw, result, rule, severity, reason, expected, action };
    if (setting !== undefined) issue.setting = setting;
    this.pending.push(issue);
    if (severity !== "warning" && severity !== "error") return;
    if (this.flags === noFlags) this.flags = [rule];
    else if (!this.flags.includes(rule)) this.flags.push(rule);
  }

  /** Hands the row's entries over to the log, under its tray's name. */
  endRow(tray: string, log: Issue[]): void {
    for (const issue of this.pending) {
      issue.tray = tray;
      log.push(issue);
    }
  }
}
