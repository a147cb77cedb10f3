import type { AnsweredQuestion } from "../../analysis.ts";
import { sentenceText } from "../format-quantity.ts";
import { placeOf, type ReportFacts } from "../report-facts.ts";
import { WasFigure } from "../saved-texts.tsx";
import { shownSentence } from "../shown-sentence.tsx";
import { visibleText } from "../visible-text.ts";
import { figureText } from "./figure-text.ts";
import { StripPicture } from "./strip-picture.tsx";
import { certaintyOf, VerdictMark } from "./verdict-mark.tsx";

/** letters from which a figure is written smaller */
const longFigure = 9;

/** pixels of a strip on a wide page and on a phone */
const stripWidths = { wide: 292, narrow: 196 } as const;

/** What an answer's picture shows, as one sentence with its numbers. */
function pictureName(answer: AnsweredQuestion, { settings }: ReportFacts): string {
  const { figure, short } = answer.outcome;
  const said = short === undefined ? answer.name : sentenceText(short, settings);
  if (figure === undefined) return visibleText(said);
  const { large, small } = figureText(figure, settings);
  return visibleText(`${said} ${large}, ${small}.`);
}

/** One answer of the front: verdict, large number, sentence, picture. */
export function FrontRow({ answer, facts }: { answer: AnsweredQuestion; facts: ReportFacts }) {
  const { outcome } = answer;
  const { figure, short, strip } = outcome;
  const written = figure === undefined ? undefined : figureText(figure, facts.settings);
  const sentence = short ?? (outcome.kind === "answer" ? outcome.sentence : outcome.reason);
  const picture = (width: number) =>
    strip === undefined ? null : (
      <StripPicture strip={strip} name={pictureName(answer, facts)} place={{ ...facts, width }} />
    );
  return (
    <>
      <VerdictMark certainty={certaintyOf(outcome)} />
      <div class="num">
        {written === undefined ? null : (
          <>
            <span class={written.large.length > longFigure ? "big lesser" : "big"}>{written.large}</span>
            <span class="between">{written.small}</span>
            <WasFigure id={answer.id} text={written.large} />
          </>
        )}
      </div>
      <div class="said">
        <a class="name" href={`#${placeOf(answer.id)}`}>
          {visibleText(answer.name)}
        </a>
        <p>{shownSentence(sentence, facts.settings)}</p>
      </div>
      <div class="pic">
        <div class="wide">{picture(stripWidths.wide)}</div>
        <div class="narrow">{picture(stripWidths.narrow)}</div>
      </div>
    </>
  );
}
