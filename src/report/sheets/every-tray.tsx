import type { Tray } from "../../records/tray.ts";
import type { NumberSettings } from "../format-quantity.ts";
import { visibleText } from "../visible-text.ts";
import { SheetTable } from "./sheet-table.tsx";
import { trayColumns } from "./tray-columns.ts";

/** trays the page holds */
const mostTrays = 1000;

/** Every tray as a row of a sheet; what is the same for all of them is said once. */
export function TraysAsRead({ trays, settings }: { trays: ReadonlyArray<Tray>; settings: NumberSettings }) {
  const shown = trays.slice(0, mostTrays);
  const { columns, same, factorsLeftAway } = trayColumns(shown, settings);
  const rows = shown.map((_, row) => columns.map(({ cells }) => cells[row]!));
  const cut = [
    shown.length < trays.length ? `The first ${shown.length} of ${trays.length} trays are shown.` : "",
    factorsLeftAway > 0 ? `${factorsLeftAway} more free columns are in the sheets.` : "",
  ].filter((part) => part !== "");
  const alike = same.map(
    ({ label, unit, value }) => `${visibleText(label, 40)} ${visibleText(value, 60)}${unit ? ` ${unit}` : ""}`,
  );
  return (
    <>
      {alike.length > 0 ? <p>The same for every tray shown: {alike.join("; ")}.</p> : null}
      <SheetTable
        id="trays-table"
        caption={`Trays as they were read (${shown.length})`}
        columns={columns.map(({ column }) => column)}
        rows={rows}
        note={cut.length > 0 ? cut.join(" ") : undefined}
      />
    </>
  );
}
