import type { AnsweredQuestion, Topic } from "../analysis.ts";
import type { Book } from "../records/book.ts";
import type { DrawnChart } from "./charts/draw-chart.ts";
import { Contents, type ContentsPart } from "./contents.tsx";
import { BookHead } from "./front/book-head.tsx";
import { frontAnswers, nextThings } from "./front/choose-front.ts";
import { FewTrays } from "./front/few-trays.tsx";
import { AfterAnswers, DoubtNote, FrontRows } from "./front/front-page.tsx";
import { WaitingBlock } from "./front/waiting-block.tsx";
import { type QuestionForm, QuestionPlace } from "./questions/question-body.tsx";
import { hasFewTrays, type ReportFacts, reportFacts } from "./report-facts.ts";
import { SheetsPart } from "./sheets/sheets-part.tsx";

export interface ReportPageProps {
  book: Book;
  answers: ReadonlyArray<AnsweredQuestion>;
  /** the chart of each question that has one, by the question's id */
  drawn: ReadonlyMap<string, DrawnChart>;
  generator: { version: string };
  /** whether the page carries a script that makes its sheets live */
  isLive?: boolean;
}

/** How much room each question has: open in full where it carries the front, else one line. */
export function formsOf(book: Book, answers: ReadonlyArray<AnsweredQuestion>): ReadonlyMap<string, QuestionForm> {
  const few = hasFewTrays(book);
  const front = new Set(few ? [] : frontAnswers(answers).map(({ id }) => id));
  return new Map(answers.map(({ id }) => [id, front.has(id) ? "full" : "row"]));
}

const partNames: Readonly<Record<Topic, string>> = { growing: "Growing", money: "Costs and prices" };

interface PartProps {
  topic: Topic;
  answers: ReadonlyArray<AnsweredQuestion>;
  forms: ReadonlyMap<string, QuestionForm>;
  drawn: ReadonlyMap<string, DrawnChart>;
  facts: ReportFacts;
}

/** Whether a chart of an answer has trays as marks. */
const drawsTrays = ({ outcome }: AnsweredQuestion): boolean =>
  outcome.charts.some(({ kind }) => kind === "doses" || kind === "trays-by-group");

/** One part's questions: those open in full, then the others a line each. Those that wait are in the block after them. */
function Part({ topic, answers, forms, drawn, facts }: PartProps) {
  const own = answers.filter((answer) => answer.topic === topic && answer.outcome.kind === "answer");
  const ordered = [
    ...own.filter(({ id }) => forms.get(id) === "full"),
    ...own.filter(({ id }) => forms.get(id) !== "full"),
  ];
  return (
    <section class="part" id={topic} aria-labelledby={`${topic}-title`} hidden={own.length === 0}>
      <h2 id={`${topic}-title`}>{partNames[topic]}</h2>
      {topic === "growing" && own.some((answer) => forms.get(answer.id) === "full" && drawsTrays(answer)) ? (
        <p class="note">
          In every chart small marks are trays, large rings are means with their range, a line is what is expected, a
          tinted band its range.
        </p>
      ) : null}
      {ordered.map((answer) => (
        <QuestionPlace
          key={answer.id}
          answer={answer}
          drawn={drawn.get(answer.id)}
          form={forms.get(answer.id)!}
          facts={facts}
        />
      ))}
    </section>
  );
}

/** The parts of the report with their questions, for the contents. */
export function contentsParts(answers: ReadonlyArray<AnsweredQuestion>): ContentsPart[] {
  const of = (topic: Topic) => answers.filter((answer) => answer.topic === topic && answer.outcome.kind === "answer");
  const waiting = answers.filter(({ outcome }) => outcome.kind === "cannot-tell");
  return [
    {
      title: "Front page",
      place: "top",
      answers: [],
      places: nextThings(answers).length === 0 ? [] : [["next", "Do this next"]],
    },
    ...(["growing", "money"] as const)
      .filter((topic) => of(topic).length > 0)
      .map((topic) => ({ title: partNames[topic], place: topic, answers: of(topic) })),
    ...(waiting.length > 0 ? [{ title: `Waiting (${waiting.length})`, place: "waiting", answers: [] }] : []),
    {
      title: "Sheets and trays",
      place: "sheets",
      answers: [],
      places: [
        ["trays", "Every tray"],
        ["settings", "Settings"],
      ],
    },
  ];
}

/** The body of the report: the same markup on paper, on a screen without script, and as the ground for a live one. */
export function ReportPage({ book, answers, drawn, generator, isLive = false }: ReportPageProps) {
  const facts = reportFacts(book, isLive);
  const forms = formsOf(book, answers);
  const few = hasFewTrays(book);
  const hasCosts = book.costLines !== undefined;
  return (
    <>
      <a class="skip" href="#top">
        To the answers
      </a>
      <div class="rail" id="contents">
        <Contents parts={contentsParts(answers)} />
      </div>
      <main>
        <div class="front">
          <BookHead book={book} hasMarks={!few} />
          {few ? (
            <FewTrays book={book} answers={answers} facts={facts} />
          ) : (
            <div id="front-rows">
              <FrontRows answers={answers} facts={facts} />
              <DoubtNote answers={answers} />
            </div>
          )}
          <div id="next-place">
            <AfterAnswers answers={answers} facts={facts} />
          </div>
        </div>
        {(["growing", "money"] as const).map((topic) => (
          <Part key={topic} {...{ topic, answers, forms, drawn, facts }} />
        ))}
        <section
          class="part waiting"
          id="waiting"
          aria-labelledby="waiting-title"
          hidden={answers.every(({ outcome }) => outcome.kind === "answer")}
        >
          <WaitingBlock answers={answers} facts={facts} hasCosts={hasCosts} />
        </section>
        <SheetsPart book={book} facts={facts} />
        <footer>
          <label class="print-all">
            <input type="checkbox" id="print-all" /> Print everything, folds and sheets too
          </label>
          <p>
            Written by Gramwright {generator.version}. Everything random started from seed {facts.settings.seed}: the
            same sheets give the same report.
          </p>
        </footer>
      </main>
    </>
  );
}
