import { AnswersFound } from "./answers-found.tsx";
import { CleaningLog } from "./cleaning-log.tsx";
import { DropField } from "./drop-field.tsx";
import { DueToday } from "./due-today.tsx";
import { QuestionsAsked } from "./questions-asked.tsx";
import { ReportFrame } from "./report-frame.tsx";
import { SaveBar } from "./save-bar.tsx";
import { SheetsTaken } from "./sheets-taken.tsx";
import { WorkStatus } from "./work-status.tsx";
import { due, remark, sheets } from "./workbench.ts";

/** The whole page: sheets and what was found in them on one side, answers and report on the other. */
export function DropPage() {
  const isEmpty = sheets.value.length === 0;
  return (
    <>
      <a class="skip" href="#bench">
        To the sheets
      </a>
      <header class="page-head">
        <h1>Gramwright</h1>
        <p class="page-line">
          Tray sheets in, answers out. Nothing leaves this computer, and no file of yours is changed.
        </p>
        {isEmpty ? null : (
          <nav class="page-jumps" aria-label="On this page">
            <a href="#sheets-title">Sheets</a>
            <a href="#log-title">Log</a>
            {due.value.length === 0 ? null : <a href="#due-title">Due</a>}
            <a href="#found-title">Answers</a>
            <a href="#frame-title">Report</a>
          </nav>
        )}
      </header>
      <p class="heard" role="status" aria-live="polite">
        {remark.value}
      </p>
      <main id="bench" tabIndex={-1} class={isEmpty ? "bench at-start" : "bench"}>
        <div class="sheets-side">
          <DropField isEmpty={isEmpty} />
          <WorkStatus />
          <SheetsTaken />
          <QuestionsAsked />
          <CleaningLog />
        </div>
        {isEmpty ? null : (
          <div class="report-side">
            <SaveBar />
            <DueToday />
            <AnswersFound />
            <ReportFrame />
          </div>
        )}
      </main>
      <footer class="page-foot">
        <p>
          Calculations from the sheets as typed, no advice. Pressure vessels, alcohol near flame, spores and food sold
          to others need care: follow makers' instructions, local codes and licensed practice. The report says more.
        </p>
      </footer>
    </>
  );
}
