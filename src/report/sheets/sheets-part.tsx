import type { Book } from "../../records/book.ts";
import { Fold } from "../fold.tsx";
import type { ReportFacts } from "../report-facts.ts";
import { visibleText } from "../visible-text.ts";
import { Cautions } from "./cautions.tsx";
import { ColumnsRead } from "./columns-read.tsx";
import { CostsRead } from "./costs-read.tsx";
import { TraysAsRead } from "./every-tray.tsx";
import { LeftOutRows } from "./left-out-rows.tsx";
import { LiveSlot } from "./live-slot.tsx";
import { SettingsAsUsed } from "./settings-used.tsx";
import { SheetTroubles } from "./sheet-troubles.tsx";
import { TrayWall } from "./tray-wall.tsx";

const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

/** The wall of trays, and behind folds: the sheets, the log, columns, costs, settings, cautions. */
export function SheetsPart({ book, facts }: { book: Book; facts: ReportFacts }) {
  const { isLive } = facts;
  const lines = (book.costLines?.length ?? 0) + (book.products?.length ?? 0);
  return (
    <section class="part" id="sheets" aria-labelledby="sheets-title">
      <h2 id="sheets-title">Sheets and trays</h2>
      <TrayWall trays={book.trays} facts={facts} />
      <div class="folds">
        <div id="trays" class="fold-place">
          <Fold
            summary={
              isLive
                ? `The trays as a sheet you can change, ${counted(book.trays.length, "row")}`
                : `The trays as a sheet, ${counted(book.trays.length, "row")}`
            }
          >
            <LiveSlot name="trays" isLive={isLive}>
              <TraysAsRead trays={book.trays} settings={facts.settings} />
            </LiveSlot>
          </Fold>
        </div>
        <div id="costs-sheet" class="fold-place">
          <Fold
            summary={
              book.costLines === undefined
                ? "A cost sheet to fill in"
                : counted(lines, "line of costs and products", "lines of costs and products")
            }
          >
            <LiveSlot name="costs" isLive={isLive}>
              <CostsRead
                settings={facts.settings}
                {...(book.costLines === undefined ? {} : { costLines: book.costLines })}
                {...(book.products === undefined ? {} : { products: book.products })}
              />
            </LiveSlot>
          </Fold>
        </div>
        <div id="log" class="fold-place">
          <Fold
            summary={
              book.issues.length === 0
                ? "No notes on the sheets"
                : counted(book.issues.length, "note on the sheets", "notes on the sheets")
            }
          >
            <SheetTroubles issues={book.issues} logFile={`${visibleText(book.name, 120)}-log.csv`} />
          </Fold>
        </div>
        {book.leftOut.length === 0 ? null : (
          <div id="left-out" class="fold-place">
            <Fold summary={`${counted(book.leftOut.length, "row")} left out`}>
              <LeftOutRows rows={book.leftOut} />
            </Fold>
          </div>
        )}
        <Fold summary="How each column was read">
          <ColumnsRead columns={book.columns} />
        </Fold>
        <div id="settings" class="fold-place">
          <Fold summary="Settings">
            <LiveSlot name="settings" isLive={isLive}>
              <SettingsAsUsed settings={facts.settings} />
            </LiveSlot>
          </Fold>
        </div>
        <Fold summary="Cautions">
          <Cautions />
        </Fold>
      </div>
      {book.issues.some(({ severity }) => severity === "error") ? (
        <p class="same">
          <a href="#log">
            {counted(book.issues.filter(({ severity }) => severity === "error").length, "value was", "values were")} not
            used
          </a>{" "}
          because it could not be read with certainty.
        </p>
      ) : null}
    </section>
  );
}
