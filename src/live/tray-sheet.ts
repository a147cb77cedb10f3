import { variedLevels } from "../design/varied-levels.ts";
import type { Tray } from "../records/tray.ts";
import { pickNames } from "../report/charts/chart-place.ts";
import { visibleText } from "../report/visible-text.ts";
import { current, picked, said, workbook } from "./model/workbook.ts";
import type { GridModel } from "./sheet/grid-model.ts";

/** what is shown of a tray before the rest of its row */
const first = [
  "tray_id",
  "outcome",
  "inoculum_ml",
  "spawn_g",
  "spawn_pct",
  "fresh_g",
  "dry_g",
  "batch",
  "supplement_g",
  "fruiting_c",
];

/** The sheet of trays as a chart or a button leads to it. */
export class TraySheet {
  constructor(private readonly grid: GridModel) {}

  /** @param shown a tray's name as it is shown */
  private rowOf(shown: string): number {
    return this.grid.sheet.rows.findIndex(([id = ""]) => visibleText(id, 40) === shown);
  }

  open(): void {
    const fold = document.querySelector<HTMLDetailsElement>("#trays details");
    if (fold !== null) fold.open = true;
  }

  bringIntoSight(): void {
    document.querySelector('[data-grid="trays"]')?.scrollIntoView({ block: "center" });
  }

  /** Stands on a tray's row. @param shown its name as it is shown */
  goToRow(shown: string): void {
    this.grid.find(this.rowOf(shown), 0);
    said.value = `Row of tray ${shown}.`;
  }

  /** Shows only these trays. @param what they have in common */
  showTrays(names: ReadonlyArray<string>, what: string): void {
    picked.value = { trays: new Set(names), what };
    this.grid.view.value = { ...this.grid.view.value };
    said.value = `${picked.value.trays.size} trays of ${what} in the tray sheet, of ${workbook().saved.book.trays.length}.`;
  }

  /** Shows the trays that are picked out, or all. @param name of what is picked out, undefined where nothing is */
  showPicked(name: string | undefined, what: string): void {
    const { trays: all } = current.value.book;
    const { values, levelOf } = variedLevels(all, current.value.book.settings.varied);
    const isIn = (tray: Tray): boolean =>
      pickNames(levelOf(tray), tray.batch, values)
        .split(" ")
        .includes(name ?? "");
    const own = name === undefined ? [] : all.filter(isIn).map(({ trayId }) => trayId);
    if (own.length > 0) this.showTrays(own, what);
    else {
      picked.value = undefined;
      this.grid.view.value = { ...this.grid.view.value };
    }
  }

  /** What a tray's row says, its cells with their labels, the most telling first. @param shown its name as it is shown */
  linesOf(shown: string): [label: string, text: string][] {
    const row = this.rowOf(shown);
    if (row < 0) return [];
    const rank = (key: string): number => (first.includes(key) ? first.indexOf(key) : first.length);
    return [...this.grid.columns]
      .sort((a, b) => rank(a.column.key) - rank(b.column.key))
      .filter(({ at }) => this.grid.text(row, at) !== "")
      .slice(0, 9)
      .map(({ column, at }) => {
        const unit = column.unit === "" ? "" : ` ${column.unit}`;
        return [visibleText(column.label, 40), `${this.grid.shown(this.grid.text(row, at), column)}${unit}`];
      });
  }
}
