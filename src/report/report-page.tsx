import type { AnsweredQuestion, Chart } from "../analysis.ts";
import type { Book } from "../records/book.ts";
import { AnswersSummary } from "./answers-summary.tsx";
import { Cautions } from "./cautions.tsx";
import type { Drawing } from "./charts/draw-chart.ts";
import { ColumnsRead } from "./columns-read.tsx";
import { CostsRead } from "./costs-read.tsx";
import { EveryTray } from "./every-tray.tsx";
import { countTrays } from "./excluded-trays.tsx";
import { LeftOutRows } from "./left-out-rows.tsx";
import { LiveSlot } from "./live-slot.tsx";
import { QuestionSection } from "./question-section.tsx";
import { SettingsUsed } from "./settings-used.tsx";
import { SheetTroubles } from "./sheet-troubles.tsx";
import { visibleText } from "./visible-text.ts";

export interface ReportPageProps {
  book: Book;
  answers: ReadonlyArray<AnsweredQuestion>;
  drawings: ReadonlyMap<Chart, Drawing>;
  generator: { version: string };
  /** whether the page carries a script that makes its sheets live */
  isLive?: boolean;
}

const countOf = (values: ReadonlyArray<string | undefined>): number =>
  new Set(values.filter((value) => value !== undefined)).size;

/** The title shown: the book's own, or its folder's name. */
export const titleOf = (book: Book): string => visibleText(book.settings.bookTitle || book.name, 120);

/** What the book is made of, in one line. */
function bookLine(book: Book): string[] {
  const cooks = countOf(book.trays.map(({ batch }) => batch));
  const sheets = book.harvestFiles.length;
  const shownNames = book.harvestFiles
    .slice(0, 8)
    .map(({ file, rows }) => `${visibleText(file, 80)} (${rows} ${rows === 1 ? "row" : "rows"})`);
  const more = sheets > shownNames.length ? ` and ${sheets - shownNames.length} more` : "";
  return [
    countTrays(book.trays.length),
    cooks > 0 ? `${cooks} ${cooks === 1 ? "cook" : "cooks"}` : "",
    `${sheets} harvest ${sheets === 1 ? "sheet" : "sheets"}${sheets > 0 ? `: ${shownNames.join(", ")}${more}` : ""}`,
    book.settings.reportDate,
  ].filter((part) => part !== "");
}

/** The body of the report: the same markup on paper, on a screen without script, and as the ground for a live one. */
export function ReportPage({ book, answers, drawings, generator, isLive = false }: ReportPageProps) {
  const { settings } = book;
  const placeOf = (answer: AnsweredQuestion) => `question-${answers.indexOf(answer) + 1}`;
  const sections = (wanted: ReadonlyArray<AnsweredQuestion>) =>
    wanted.map((answer) => (
      <QuestionSection
        key={answer.id}
        place={placeOf(answer)}
        answer={answer}
        drawings={answer.outcome.charts.map((chart) => drawings.get(chart)!)}
        settings={settings}
        {...(isLive ? { hasTools: true } : {})}
      />
    ));
  const growing = answers.filter(({ topic }) => topic === "growing");
  const money = answers.filter(({ topic }) => topic === "money");
  return (
    <>
      <a class="skip" href="#answers">
        To the answers
      </a>
      <header>
        <p class="kicker">Tray trial report</p>
        <h1>{titleOf(book)}</h1>
        <p class="book-line">{bookLine(book).join(" · ")}</p>
        <nav aria-label="Contents">
          <ul>
            <li>
              <a href="#answers">Answers</a>
            </li>
            <li>
              <a href="#questions">Growing</a>
            </li>
            <li>
              <a href="#costs">Costs</a>
            </li>
            <li>
              <a href="#sheets">The sheets</a>
            </li>
            <li>
              <a href="#left-out">Rows left out</a>
            </li>
            <li>
              <a href="#columns">Columns</a>
            </li>
            <li>
              <a href="#trays">Every tray</a>
            </li>
            <li>
              <a href="#settings">Settings</a>
            </li>
            <li>
              <a href="#cautions">Cautions</a>
            </li>
          </ul>
        </nav>
      </header>
      <main>
        <AnswersSummary answers={answers} placeOf={placeOf} settings={settings} />
        <section id="questions" aria-labelledby="questions-title">
          <h2 id="questions-title">Growing, question by question</h2>
          {growing.length === 0 ? <p>No question about growing was asked.</p> : sections(growing)}
        </section>
        <section id="costs" aria-labelledby="costs-title">
          <h2 id="costs-title">Costs</h2>
          {sections(money)}
          <LiveSlot name="costs" isLive={isLive}>
            <CostsRead
              settings={settings}
              {...(book.costLines === undefined ? {} : { costLines: book.costLines })}
              {...(book.products === undefined ? {} : { products: book.products })}
            />
          </LiveSlot>
        </section>
        <SheetTroubles issues={book.issues} logFile={`${visibleText(book.name, 120)}-log.csv`} />
        <LeftOutRows rows={book.leftOut} />
        <ColumnsRead columns={book.columns} />
        <EveryTray trays={book.trays} settings={settings} isLive={isLive} />
        <SettingsUsed settings={settings} isLive={isLive} />
        <Cautions />
      </main>
      <footer>
        <p>
          Written by Gramwright {generator.version} from the sheets named above. Everything random started from seed{" "}
          {settings.seed}: the same sheets give the same report.
        </p>
      </footer>
    </>
  );
}
