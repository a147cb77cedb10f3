import type { ComponentChildren } from "preact";
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

/** A fold that links lead to. */
const FoldPlace = ({ id, summary, children }: { id: string; summary: string; children: ComponentChildren }) => (
  <div id={id} class="fold-place">
    <Fold summary={summary}>{children}</Fold>
  </div>
);

const traysSummary = (rows: number, isLive: boolean): string =>
  `The trays as a sheet${isLive ? " you can change" : ""}, ${counted(rows, "row")}`;

const costsSummary = ({ costLines, products }: Book): string =>
  costLines === undefined
    ? "A cost sheet to fill in"
    : counted(costLines.length + (products?.length ?? 0), "line of costs and products", "lines of costs and products");

const notesSummary = (notes: number): string =>
  notes === 0 ? "No notes on the sheets" : counted(notes, "note on the sheets", "notes on the sheets");

/** The wall of trays, and behind folds: the sheets, the log, columns, costs, settings, cautions. */
export function SheetsPart({ book, facts }: { book: Book; facts: ReportFacts }) {
  const { isLive } = facts;
  const { costLines, products, issues } = book;
  const notUsed = issues.filter(({ severity }) => severity === "error").length;
  return (
    <section class="part" id="sheets" aria-labelledby="sheets-title">
      <h2 id="sheets-title">Sheets and trays</h2>
      <TrayWall trays={book.trays} facts={facts} />
      <div class="folds">
        <FoldPlace id="trays" summary={traysSummary(book.trays.length, isLive)}>
          <LiveSlot name="trays" isLive={isLive}>
            <TraysAsRead trays={book.trays} settings={facts.settings} />
          </LiveSlot>
        </FoldPlace>
        <FoldPlace id="costs-sheet" summary={costsSummary(book)}>
          <LiveSlot name="costs" isLive={isLive}>
            <CostsRead
              settings={facts.settings}
              {...(costLines === undefined ? {} : { costLines })}
              {...(products === undefined ? {} : { products })}
            />
          </LiveSlot>
        </FoldPlace>
        <FoldPlace id="log" summary={notesSummary(issues.length)}>
          <SheetTroubles issues={issues} logFile={`${visibleText(book.name, 120)}-log.csv`} />
        </FoldPlace>
        {book.leftOut.length === 0 ? null : (
          <FoldPlace id="left-out" summary={`${counted(book.leftOut.length, "row")} left out`}>
            <LeftOutRows rows={book.leftOut} />
          </FoldPlace>
        )}
        <Fold summary="How each column was read">
          <ColumnsRead columns={book.columns} />
        </Fold>
        <FoldPlace id="settings" summary="Settings">
          <LiveSlot name="settings" isLive={isLive}>
            <SettingsAsUsed settings={facts.settings} />
          </LiveSlot>
        </FoldPlace>
        <Fold summary="Cautions">
          <Cautions />
        </Fold>
      </div>
      {notUsed === 0 ? null : (
        <p class="same">
          <a href="#log">{counted(notUsed, "value", "values")} could not be read with certainty</a> and{" "}
          {notUsed === 1 ? "was" : "were"} not used.
        </p>
      )}
    </section>
  );
}
