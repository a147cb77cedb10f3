import type { AnsweredQuestion } from "../../analysis.ts";
import type { Book } from "../../records/book.ts";
import { type DrawnChart, drawForPage } from "../../report/charts/draw-chart.ts";
import { chartOf } from "../../report/questions/question-body.tsx";
import { dosesOf } from "../../report/report-facts.ts";

/** drawings kept of one question */
const mostKept = 24;

/** Draws the charts of answers; a chart that says just what an earlier one of its question said is not drawn again. */
export class DrawingsAgain {
  private readonly kept = new Map<string, Map<string, DrawnChart>>();

  /** @param full questions that are open in full, whose charts are drawn for a wide place too */
  constructor(private readonly full: ReadonlySet<string>) {}

  /** A question's chart drawn, with the places of its marks. */
  async draw(answer: AnsweredQuestion, { settings, trays }: Book): Promise<DrawnChart | undefined> {
    const chart = chartOf(answer);
    if (chart === undefined || answer.outcome.kind !== "answer") return undefined;
    const known = this.kept.get(answer.id) ?? new Map<string, DrawnChart>();
    this.kept.set(answer.id, known);
    const { locale, displayUnits, currency, currencyDecimals } = settings;
    const doses = dosesOf(trays);
    const name = JSON.stringify([chart, doses, locale, displayUnits, currency, currencyDecimals]);
    const drawn = known.get(name) ?? (await drawForPage(chart, { settings, doses }, this.full.has(answer.id), true));
    // the one used last is let go last
    known.delete(name);
    known.set(name, drawn);
    for (const old of [...known.keys()].slice(0, -mostKept)) known.delete(old);
    return drawn;
  }
}
