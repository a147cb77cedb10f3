import type { AnsweredQuestion, Chart } from "../analysis.ts";
import type { Book } from "../records/book.ts";
import type { ChartPlace } from "./charts/chart-place.ts";
import { type DrawnChart, drawForPage } from "./charts/draw-chart.ts";
import { chartOf } from "./questions/question-body.tsx";
import { dosesOf } from "./report-facts.ts";
import { formsOf } from "./report-page.tsx";

/** A chart that a report shows, and where. */
export interface ChartOfReport {
  /** of its question */
  id: string;
  chart: Chart;
  place: Omit<ChartPlace, "width">;
  /** whether its question is open in full, so that it is drawn for a wide place, too */
  isFull: boolean;
}

/** Every chart of a report. @param answers as the report says them */
export function chartsOf(book: Book, answers: ReadonlyArray<AnsweredQuestion>): ChartOfReport[] {
  const place = { settings: book.settings, doses: dosesOf(book.trays) };
  const forms = formsOf(book, answers);
  return answers.flatMap((answer) => {
    const chart = chartOf(answer);
    if (chart === undefined || answer.outcome.kind !== "answer") return [];
    return [{ id: answer.id, chart, place, isFull: forms.get(answer.id) === "full" }];
  });
}

/** Draws a report's charts, by question. */
export async function drawCharts(
  book: Book,
  answers: ReadonlyArray<AnsweredQuestion>,
): Promise<Map<string, DrawnChart>> {
  const drawn = new Map<string, DrawnChart>();
  for (const { id, chart, place, isFull } of chartsOf(book, answers)) {
    drawn.set(id, await drawForPage(chart, place, isFull));
  }
  return drawn;
}
